"""Names of files."""

from __future__ import annotations

import re


def file_word(name: str) -> str:
    """A name as part of a file's name: small letters, figures and hyphens.

    >>> file_word("Base & lid")
    'base-lid'
    """
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "piece"
