"""One module per change of the tables."""
