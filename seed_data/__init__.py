"""Bundled kitchens, all of them invented."""
