"""Where food is kept, in words."""

from web.language import pgettext


def storage_words(place: str) -> str:
    """The word for a way of keeping food, or for the place a file has where it names none.

    Any other place is the kitchen's own word.
    """
    words = {
        "cold": pgettext("storage", "cold"),
        "hot": pgettext("storage", "hot"),
        "ambient": pgettext("storage", "ambient"),
        "frozen": pgettext("storage", "frozen"),
        "walk-in": pgettext("storage", "walk-in"),
    }
    return words.get(place, place)
