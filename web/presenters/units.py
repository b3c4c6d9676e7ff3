"""Units of measure in words."""

from web.language import pgettext


def unit_words(unit: str) -> str:
    """The word for a unit of the closed list; signs, and a kitchen's own units, stay as they are.

    Each word is of one unit alone: it is chosen by it.
    """
    words = {
        "tsp": pgettext("unit", "tsp"),
        "tbsp": pgettext("unit", "tbsp"),
        "fl oz": pgettext("unit", "fl oz"),
        "cup": pgettext("unit", "cup"),
        "pt": pgettext("unit", "pt"),
        "qt": pgettext("unit", "qt"),
        "gal": pgettext("unit", "gal"),
    }
    return words.get(unit, unit)
