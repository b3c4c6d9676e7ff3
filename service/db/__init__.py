"""Rows, migrations and the unit of work: the one border between planner's values and SQL."""
