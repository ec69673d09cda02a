"""The project file, and the design that it resolves to."""

from .design import Design
from .project import Project

__all__ = ["Design", "Project"]
