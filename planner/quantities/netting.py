"""Counted stock against wants: first to go off is first to be used."""

import datetime as dt
from dataclasses import dataclass, replace

from planner.kitchen.conversion import Converter
from planner.kitchen.day import PreparedStock
from planner.quantities.types import Share, StockUse, Want


@dataclass(frozen=True, slots=True)
class Piece:
    """Part of a want still to be made, from ``first_step`` of the route on."""

    want: Want
    grams: float
    first_step: int = 0


@dataclass(slots=True)
class _Shelf:
    stock: PreparedStock
    left: float
    """Grams: finished, or as they are after their step."""


def net_stock(
    wants: list[Want],
    prepared: list[PreparedStock],
    fractions: tuple[float, ...],
    converter: Converter,
    date: dt.date,
) -> tuple[list[Piece], list[StockUse], list[PreparedStock]]:
    """Cover wants, earliest due first, from finished then from part-made stock.

    Stock serves a want if its use-by is on or after the day of the service. Part-made stock after
    step k counts for what the rest of the route makes of it. Returns what is still to be made, the
    stock used, and finished stock that is past its use-by on the planned day.
    """
    shelves = [
        _Shelf(stock, converter.grams(stock.item, stock.amount))
        for stock in sorted(prepared, key=lambda s: (-(s.after_step or 10_000), s.use_by))
    ]
    expired = [s.stock for s in shelves if s.stock.use_by < date]
    used: dict[int, float] = {}
    pieces: list[Piece] = []
    for want in sorted(wants, key=lambda w: w.due):
        served = date + dt.timedelta(days=want.day)
        missing = want.grams
        for index, shelf in enumerate(shelves):
            if missing <= 1e-6 or shelf.left <= 1e-6 or shelf.stock.use_by < served:
                continue
            after = shelf.stock.after_step
            rest = 1.0
            for fraction in fractions[len(fractions) if after is None else after :]:
                rest *= fraction
            taken = min(missing, shelf.left * rest)
            shelf.left -= taken / rest
            used[index] = used.get(index, 0.0) + taken / rest
            missing -= taken
            if after is not None:
                pieces.append(Piece(part_of(want, taken), taken, after))
        if missing > 1e-6:
            pieces.append(Piece(part_of(want, missing), missing))
    uses = [
        StockUse(
            shelves[i].stock.item,
            grams,
            shelves[i].stock.use_by.isoformat(),
            shelves[i].stock.after_step,
        )
        for i, grams in sorted(used.items())
    ]
    return pieces, uses, expired


def part_of(want: Want, grams: float) -> Want:
    """The part of a want that is ``grams`` of it, its shares in proportion."""
    ratio = grams / want.grams if want.grams else 0.0
    if abs(ratio - 1.0) < 1e-9:
        return want
    shares = tuple(
        Share(s.service, s.dish, max(1, round(s.portions * ratio)), s.grams * ratio)
        for s in want.shares
    )
    return replace(
        want,
        grams=grams,
        expected=want.expected * ratio,
        buffer=want.buffer * ratio,
        shares=shares,
    )
