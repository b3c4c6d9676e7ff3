"""The cuts every kitchen starts with (`planner.kitchen.cuts`), in the language of the page.

A cut that a kitchen names or notes itself stays as the kitchen writes it.
"""

from web.language import _


def cut_name(name: str) -> str:
    """The word for a cut: ``Large dice``."""
    words = {
        "Large dice": _("Large dice"),
        "Medium dice": _("Medium dice"),
        "Small dice": _("Small dice"),
        "Brunoise": _("Brunoise"),
        "Fine brunoise": _("Fine brunoise"),
        "Batonnet": _("Batonnet"),
        "Julienne": _("Julienne"),
        "Allumette": _("Allumette"),
        "Fine julienne": _("Fine julienne"),
        "Paysanne": _("Paysanne"),
        "Mince": _("Mince"),
        "Rough chop": _("Rough chop"),
        "Slice": _("Slice"),
        "Chiffonade": _("Chiffonade"),
        "Tourne": _("Tourne"),
        "Rondelle": _("Rondelle"),
        "Oblique": _("Oblique"),
    }
    return words.get(name, name)


def cut_note(note: str) -> str:
    """What is said of a cut beside its size."""
    notes = {
        "a batonnet cut across": _("a batonnet cut across"),
        "a julienne cut across": _("a julienne cut across"),
        "a fine julienne cut across": _("a fine julienne cut across"),
        "2 to 2 1/2 in long": _("2 to 2 1/2 in long"),
        "1 to 2 in long": _("1 to 2 in long"),
        "a julienne of potato, 1 to 2 in long": _("a julienne of potato, 1 to 2 in long"),
        "as fine as the knife goes, no set size": _("as fine as the knife goes, no set size"),
        "even pieces, no set size": _("even pieces, no set size"),
        "across the grain or the length; thickness by recipe": _(
            "across the grain or the length; thickness by recipe"
        ),
        "leaves rolled and cut to ribbons": _("leaves rolled and cut to ribbons"),
        "a barrel with seven sides, about 2 in long": _(
            "a barrel with seven sides, about 2 in long"
        ),
        "coins across a round vegetable; thickness by recipe": _(
            "coins across a round vegetable; thickness by recipe"
        ),
        "cut on the slant, a quarter turn between cuts": _(
            "cut on the slant, a quarter turn between cuts"
        ),
    }
    return notes.get(note, note)
