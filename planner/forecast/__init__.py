"""What guests will order, from what they ordered; and how much of it to be ready for."""
