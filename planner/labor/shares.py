"""Whole minutes shared out, so that the parts add up to the whole."""

from collections.abc import Sequence

_FINE = 1000
"""Weights count to a thousandth: milligrams, where they are grams."""


def shared_out(total: int, weights: Sequence[float]) -> tuple[int, ...]:
    """Share ``total`` in proportion to ``weights``, in whole numbers that add up to it.

    Each part is its exact share rounded down; what is left goes, one each, to the parts that lost
    most by that, the first of equals first. Weights that are all nothing count as equal. Source:
    the method of largest remainders, H. P. Young, "Equity: In Theory and Practice" (1994), ch. 3
    (from memory).

    Parameters
    ----------
    total
        What is shared out, such as minutes or seconds; at least 0.
    weights
        At least one, none negative, such as grams.

    Raises
    ------
    ValueError
        There is nobody to share it out to, or a number is negative.
    """
    if not weights or total < 0 or min(weights) < 0:
        raise ValueError(f"{total} cannot be shared out by {list(weights)}: give weights of 0 up")
    fine = [round(weight * _FINE) for weight in weights]
    whole = sum(fine)
    if whole == 0:
        fine, whole = [1] * len(fine), len(fine)
    parts = [total * weight // whole for weight in fine]
    lost = sorted(range(len(fine)), key=lambda i: (-(total * fine[i] % whole), i))
    for i in lost[: total - sum(parts)]:
        parts[i] += 1
    return tuple(parts)
