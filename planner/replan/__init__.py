"""A morning under way, planned anew around what has happened."""
