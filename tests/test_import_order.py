"""The rooms import downwards only, as the architecture page says."""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parent.parent / "src" / "snipfold"
ROOMS = [
    "measure",
    "findings",
    "workshop",
    "flat",
    "styles",
    "folding",
    "dressing",
    "scoring",
    "cutting",
    "supplies",
    "sizing",
    "project",
    "orders",
    "drawing",
    "guide",
    "publish",
    "app",
    "cli",
]


def _rooms_imported(text: str, inside: tuple[str, ...]) -> set[str]:
    """Rooms that a file of the package imports, at its top or inside a function."""
    rooms = set()
    for node in ast.walk(ast.parse(text)):
        names: list[str] = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            if node.level:
                base = ["snipfold", *inside[:-1]]
                base = base[: len(base) - (node.level - 1)]
                stem = ".".join([*base, *([node.module] if node.module else [])])
            else:
                stem = node.module or ""
            names = [stem, *(f"{stem}.{alias.name}" for alias in node.names)]
        for name in names:
            parts = name.split(".")
            if parts[0] == "snipfold" and len(parts) > 1 and parts[1] in ROOMS:
                rooms.add(parts[1])
    return rooms


def _files() -> list[Path]:
    return sorted(path for path in PACKAGE.rglob("*.py") if path.parent != PACKAGE)


def test_every_room_is_in_the_order() -> None:
    assert {path.relative_to(PACKAGE).parts[0] for path in _files()} <= set(ROOMS)


@pytest.mark.parametrize("source", _files(), ids=lambda p: str(p.relative_to(PACKAGE)))
def test_a_room_imports_only_rooms_before_it(source: Path) -> None:
    own = ROOMS.index(source.relative_to(PACKAGE).parts[0])
    imported = _rooms_imported(
        source.read_text(encoding="utf-8"), source.relative_to(PACKAGE).parts
    )
    later = {room for room in imported if ROOMS.index(room) > own}
    assert not later, f"{source.name} reaches up into {sorted(later)}"


def test_the_check_sees_an_import_inside_a_function_and_through_dots() -> None:
    text = "def f():\n    from snipfold.publish import x\nfrom ..cli import main\nfrom .. import guide\n"
    assert _rooms_imported(text, ("flat", "piece.py")) == {"publish", "cli", "guide"}
