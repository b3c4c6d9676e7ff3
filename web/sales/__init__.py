"""What was sold, and what forecasts make of it."""
