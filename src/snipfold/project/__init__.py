"""The project file, and the design that it resolves to."""

from .design import Design
from .new_blank import new_blank_text
from .project import Project, style_of
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
    "new_blank_text",
    "new_project_text",
    "panel_names",
    "read_project",
    "resolve",
    "style_of",
    "worked_through",
]
