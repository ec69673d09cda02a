"""What a check says: where, what is wrong, by how much, and how to mend it."""

from .finding import Finding, Mend, Severity, has_errors, worst_first

__all__ = ["Finding", "Mend", "Severity", "has_errors", "worst_first"]
