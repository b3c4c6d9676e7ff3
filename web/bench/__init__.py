"""The yield bench and the kitchen's yields in use, as pages."""
