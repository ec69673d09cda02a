"""How long planning may go on, and who wants to know how it goes."""

from __future__ import annotations

import time
from collections.abc import Callable

from .order_plan import Ended


class Clock:
    """Counts down the seconds of one plan, asks whether to stop, and tells of progress.

    The only place of the planner that looks at the time: a plan depends on it only where time ran
    out.
    """

    def __init__(
        self,
        seconds: float,
        progress: Callable[[str, float], None] | None,
        stopped: Callable[[], bool] | None,
    ) -> None:
        self._end = time.monotonic() + seconds
        self._progress = progress
        self._stopped = stopped
        self._share = 0.0
        #: Why there is no time left; None as long as there is.
        self.ended: Ended | None = None

    @property
    def left(self) -> float:
        """The seconds that are left."""
        return max(0.0, self._end - time.monotonic())

    def over(self) -> bool:
        """Whether to come to an end: time is out, or somebody said stop."""
        if self.ended is None:
            if self._stopped is not None and self._stopped():
                self.ended = Ended.STOPPED
            elif time.monotonic() >= self._end:
                self.ended = Ended.TIME
        return self.ended is not None

    def part(self, share: float) -> Clock:
        """A clock for a part of the work, that share of the time that is left."""
        return Clock(self.left * share, self._progress, self._stopped)

    def tell(self, what: str, share: float) -> None:
        """Passes on what is being done, and how much of the whole is done (0 to 1, never less)."""
        self._share = max(self._share, share)
        if self._progress is not None:
            self._progress(what, self._share)
