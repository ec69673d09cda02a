"""Snipfold: sizes, proves, plans and publishes scored-and-folded boxes and bags of cardstock."""

__version__ = "0.1.0"
