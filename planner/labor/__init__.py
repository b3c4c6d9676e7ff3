"""Where the minutes go, and what batching saves."""
