"""The manager's pages: what a morning took against what was planned."""
