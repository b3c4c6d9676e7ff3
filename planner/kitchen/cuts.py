"""Knife cuts every kitchen starts with. Sides are nominal, in inches.

Source: common practice, no source; a kitchen replaces a cut by giving its own with the same id.
Where the trade gives a range of lengths, the side is a value inside it and the note has the range.
"""

from planner.kitchen.foods import Cut
from planner.wording import sentence

_SOURCE = sentence("common practice, no source")


def _cut(id_: str, name: str, *inches: float, note: str = "") -> Cut:
    return Cut(id=id_, name=name, inches=inches, note=f"{note}; {_SOURCE}" if note else _SOURCE)


STARTER_CUTS: tuple[Cut, ...] = (
    _cut("large_dice", sentence("Large dice"), 3 / 4, 3 / 4, 3 / 4),
    _cut("medium_dice", sentence("Medium dice"), 1 / 2, 1 / 2, 1 / 2),
    _cut(
        "small_dice",
        sentence("Small dice"),
        1 / 4,
        1 / 4,
        1 / 4,
        note=sentence("a batonnet cut across"),
    ),
    _cut(
        "brunoise",
        sentence("Brunoise"),
        1 / 8,
        1 / 8,
        1 / 8,
        note=sentence("a julienne cut across"),
    ),
    _cut(
        "fine_brunoise",
        sentence("Fine brunoise"),
        1 / 16,
        1 / 16,
        1 / 16,
        note=sentence("a fine julienne cut across"),
    ),
    _cut("batonnet", sentence("Batonnet"), 1 / 4, 1 / 4, 2, note=sentence("2 to 2 1/2 in long")),
    _cut("julienne", sentence("Julienne"), 1 / 8, 1 / 8, 2, note=sentence("1 to 2 in long")),
    _cut(
        "allumette",
        sentence("Allumette"),
        1 / 8,
        1 / 8,
        2,
        note=sentence("a julienne of potato, 1 to 2 in long"),
    ),
    _cut(
        "fine_julienne",
        sentence("Fine julienne"),
        1 / 16,
        1 / 16,
        2,
        note=sentence("1 to 2 in long"),
    ),
    _cut("paysanne", sentence("Paysanne"), 1 / 2, 1 / 2, 1 / 8),
    _cut("mince", sentence("Mince"), note=sentence("as fine as the knife goes, no set size")),
    _cut("rough_chop", sentence("Rough chop"), note=sentence("even pieces, no set size")),
    _cut(
        "slice",
        sentence("Slice"),
        note=sentence("across the grain or the length; thickness by recipe"),
    ),
    _cut("chiffonade", sentence("Chiffonade"), note=sentence("leaves rolled and cut to ribbons")),
    _cut("tourne", sentence("Tourne"), note=sentence("a barrel with seven sides, about 2 in long")),
    _cut(
        "rondelle",
        sentence("Rondelle"),
        note=sentence("coins across a round vegetable; thickness by recipe"),
    ),
    _cut(
        "oblique",
        sentence("Oblique"),
        note=sentence("cut on the slant, a quarter turn between cuts"),
    ),
)
