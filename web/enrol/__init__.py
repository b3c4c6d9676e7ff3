"""How a phone gets to the floor's pages."""
