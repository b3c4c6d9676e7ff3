"""From sheet values to the words, numbers and units that a template shows. No markup here."""
