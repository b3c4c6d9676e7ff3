"""Every rule of solver and checker is taken away in turn, and some test must notice."""
