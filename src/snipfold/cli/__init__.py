"""The command line. It holds no trade knowledge: it reads files, calls the rooms, and prints."""

from .start import main

__all__ = ["main"]
