"""Yields of the kitchen's own: tests on the bench, what they teach, and what is in use."""
