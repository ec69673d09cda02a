"""Tests of the cutting plans."""
