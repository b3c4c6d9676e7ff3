"""What may be chosen of a sales history; apart, since the command line needs no more of it."""

from enum import StrEnum


class Differ(StrEnum):
    """What is done with a day that is kept already with another count."""

    ASK = "ask"
    KEEP = "keep"
    REPLACE = "replace"
