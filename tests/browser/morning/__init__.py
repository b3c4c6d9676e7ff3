"""A whole morning on the real server, with the bundled kitchen, as its people use it."""
