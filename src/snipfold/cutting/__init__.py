"""Rectangles onto sheets with a trimmer: plan, proof, and an independent checker."""
