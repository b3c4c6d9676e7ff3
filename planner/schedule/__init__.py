"""Who does what, where and when."""
