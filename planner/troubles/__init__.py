"""Over-full mornings: what is late or short, what binds, and what would help."""
