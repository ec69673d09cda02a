"""What a check says: where, what is wrong, by how much, and how to mend it."""

from .finding import Finding, Mend, Severity, has_errors, worst_first
from .problem import Problem, ProjectFileError

__all__ = [
    "Finding",
    "Mend",
    "Problem",
    "ProjectFileError",
    "Severity",
    "has_errors",
    "worst_first",
]
