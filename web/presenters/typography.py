"""Signs that are easily taken for another one, each named once."""

TO = "\N{EN DASH}"
"""Between the ends of a stretch: from - to."""

BY = " \N{MULTIPLICATION SIGN} "
"""Between the sides of a cut, or a count and what is counted."""

MINUS = "\N{MINUS SIGN}"
