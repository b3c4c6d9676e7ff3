"""What the program does, one function each; every one owns its transaction."""
