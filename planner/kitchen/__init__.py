"""What exists: the kitchen file, its reading and its checking."""
