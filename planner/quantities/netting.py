"""Counted stock against wants: first to go off is first to be used."""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from planner.kitchen.conversion import Converter
from planner.kitchen.day import PreparedStock
from planner.kitchen.flow import Flow
from planner.quantities.types import Share, StockUse, Want


@dataclass(frozen=True, slots=True)
class Piece:
    """Part of a want still to be made, from ``first_step`` of the route on."""

    want: Want
    grams: float
    first_step: int = 0


@dataclass(slots=True)
class _Batch:
    stock: PreparedStock
    left: float
    """Grams: finished, or as they are after their step."""
    rest: float
    """Finished grams that a gram of it becomes."""
    given: dict[int, float] = field(default_factory=lambda: defaultdict(float))
    """What was given out, by the day of the want."""

    @property
    def used(self) -> float:
        """What was given out in all."""
        return sum(self.given.values())


class Shelf:
    """Counted stock of one component; what is given out is gone.

    Finished stock goes before part-made, and what goes off first before what keeps. Stock serves a
    want if its use-by is on or after the day of the want. Part-made stock after step k counts for
    what the rest of the route makes of it.
    """

    def __init__(
        self,
        prepared: Iterable[PreparedStock],
        flow: Flow,
        converter: Converter,
        date: dt.date,
    ) -> None:
        self._date = date
        self._batches = [
            _Batch(
                stock,
                converter.grams(stock.item, stock.amount),
                1.0 if stock.after_step is None else 1.0 / flow[stock.after_step - 1].grams_out,
            )
            for stock in sorted(prepared, key=lambda s: (-(s.after_step or 10_000), s.use_by))
        ]

    def serve(self, want: Want, *, finished: bool = True) -> list[Piece]:
        """What is still to be made of a want; not ``finished``, only part-made stock counts."""
        served = self._date + dt.timedelta(days=want.day)
        missing = want.grams
        pieces: list[Piece] = []
        for batch in self._batches:
            after = batch.stock.after_step
            if missing <= 1e-6 or batch.left <= 1e-6 or batch.stock.use_by < served:
                continue
            if after is None and not finished:
                continue
            taken = min(missing, batch.left * batch.rest)
            batch.left -= taken / batch.rest
            batch.given[want.day] += taken / batch.rest
            missing -= taken
            if after is not None:
                pieces.append(Piece(part_of(want, taken), taken, after))
        if missing > 1e-6:
            pieces.append(Piece(part_of(want, missing), missing))
        return pieces

    def finished(self, day: int) -> float:
        """Finished grams for ``day`` (0: the planned one) and in date on it.

        What was given out for the day or a later one is there on it; for an earlier one, gone.
        """
        on = self._date + dt.timedelta(days=day)
        return sum(
            batch.left + sum(grams for served, grams in batch.given.items() if served >= day)
            for batch in self._batches
            if batch.stock.after_step is None and batch.stock.use_by >= on
        )

    @property
    def used(self) -> tuple[StockUse, ...]:
        """What was given out, batch by batch."""
        return tuple(
            StockUse(
                batch.stock.item,
                batch.used,
                batch.stock.use_by.isoformat(),
                batch.stock.after_step,
            )
            for batch in self._batches
            if batch.used > 0
        )

    @property
    def expired(self) -> tuple[PreparedStock, ...]:
        """What is past its use-by on the planned day."""
        return tuple(b.stock for b in self._batches if b.stock.use_by < self._date)


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
