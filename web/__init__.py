"""Turns planner's results into pages; knows nothing of the database."""
