"""What dishes cost, for whoever answers for it."""
