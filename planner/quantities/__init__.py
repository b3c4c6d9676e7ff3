"""From portions to what is made and what is pulled."""
