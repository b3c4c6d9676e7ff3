"""How often the knife comes down: a measure for the first guess of a dicing rate.

A finer dice takes longer, about in the ratio of strokes. Where a kitchen has timed one dice of a
food and not another, ``strokes`` of the two scale the figure until that one is timed as well.

Source: common practice, no source.
"""

import math

_NO_HORIZONTAL_FROM = 3 / 4
"""Large dice, inches: a half bulb's own layers part at that height."""


def strokes(diameter_in: float, side_in: float) -> int:
    """Strokes to dice half a bulb vegetable: an onion, a shallot.

    Half a bulb of diameter d, laid flat, is d/2 high. Cubes of side s take d/s - 1 strokes
    lengthwise, d/2s - 1 horizontal (none for a large dice) and d/s - 1 across, whole strokes each.

    Parameters
    ----------
    diameter_in
        Of the whole bulb, inches.
    side_in
        Of the cubes, inches.

    Raises
    ------
    ValueError
        One of them is zero or less.
    """
    if diameter_in <= 0 or side_in <= 0:
        raise ValueError(
            f"diameter and side are above zero inches, not {diameter_in} and {side_in}"
        )
    flat = _between(diameter_in / side_in)
    if side_in >= _NO_HORIZONTAL_FROM:
        return 2 * flat
    return 2 * flat + _between(diameter_in / 2 / side_in)


def _between(pieces: float) -> int:
    """Cuts between so many pieces in a row, the last one perhaps a small one."""
    return max(0, math.ceil(pieces - 1e-9) - 1)
