"""Live pages of a released plan: who is at what, for the cook, for all, and on the wall."""
