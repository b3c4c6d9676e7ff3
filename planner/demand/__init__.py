"""From covers to portions to be ready for."""
