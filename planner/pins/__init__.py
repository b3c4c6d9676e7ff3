"""Batches that people hold by hand at a cook or a time: what is held, checked and applied."""
