"""The project file, and the design that it resolves to."""

from .design import Design
from .project import Project
from .read import check_papers, field_line, panel_names, read_project
from .resolve import for_edition, resolve, worked_through
from .write import edit_field, exact_words, new_project_text

__all__ = [
    "Design",
    "Project",
    "check_papers",
    "edit_field",
    "exact_words",
    "field_line",
    "for_edition",
    "new_project_text",
    "panel_names",
    "read_project",
    "resolve",
    "worked_through",
]
