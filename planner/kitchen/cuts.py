"""Knife cuts every kitchen starts with. Sides are nominal, in inches.

Source: common practice, no source; a kitchen replaces a cut by giving its own with the same id.
Where the trade gives a range of lengths, the side is a value inside it and the note has the range.
"""

from planner.kitchen.foods import Cut

_SOURCE = "common practice, no source"


def _cut(id_: str, name: str, *inches: float, note: str = "") -> Cut:
    return Cut(id=id_, name=name, inches=inches, note=f"{note}; {_SOURCE}" if note else _SOURCE)


STARTER_CUTS: tuple[Cut, ...] = (
    _cut("large_dice", "Large dice", 3 / 4, 3 / 4, 3 / 4),
    _cut("medium_dice", "Medium dice", 1 / 2, 1 / 2, 1 / 2),
    _cut("small_dice", "Small dice", 1 / 4, 1 / 4, 1 / 4, note="a batonnet cut across"),
    _cut("brunoise", "Brunoise", 1 / 8, 1 / 8, 1 / 8, note="a julienne cut across"),
    _cut(
        "fine_brunoise",
        "Fine brunoise",
        1 / 16,
        1 / 16,
        1 / 16,
        note="a fine julienne cut across",
    ),
    _cut("batonnet", "Batonnet", 1 / 4, 1 / 4, 2, note="2 to 2 1/2 in long"),
    _cut("julienne", "Julienne", 1 / 8, 1 / 8, 2, note="1 to 2 in long"),
    _cut("allumette", "Allumette", 1 / 8, 1 / 8, 2, note="a julienne of potato, 1 to 2 in long"),
    _cut("fine_julienne", "Fine julienne", 1 / 16, 1 / 16, 2, note="1 to 2 in long"),
    _cut("paysanne", "Paysanne", 1 / 2, 1 / 2, 1 / 8),
    _cut("mince", "Mince", note="as fine as the knife goes, no set size"),
    _cut("rough_chop", "Rough chop", note="even pieces, no set size"),
    _cut("slice", "Slice", note="across the grain or the length; thickness by recipe"),
    _cut("chiffonade", "Chiffonade", note="leaves rolled and cut to ribbons"),
    _cut("tourne", "Tourne", note="a barrel with seven sides, about 2 in long"),
    _cut("rondelle", "Rondelle", note="coins across a round vegetable; thickness by recipe"),
    _cut("oblique", "Oblique", note="cut on the slant, a quarter turn between cuts"),
)
