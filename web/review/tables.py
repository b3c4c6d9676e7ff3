"""Tables of the manager's pages, and those of minutes by whatever batches have in common."""

from collections.abc import Sequence
from dataclasses import dataclass

from planner.floor.sums import LaborSum
from web.language import _
from web.review.words import minutes, per_cover, signed


@dataclass(frozen=True, slots=True)
class Table:
    """A table: its name in addresses, its caption, heads, and rows of cells.

    The first cell heads its row; columns in ``numbers`` are numbers. The last ``totals`` rows sum
    up those above.
    """

    id: str
    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    numbers: frozenset[int]
    note: str = ""
    totals: int = 0

    @property
    def marked(self) -> tuple[str, ...]:
        """Heads, those of numbers marked as such."""
        return tuple(
            f"#{head}" if at in self.numbers else head for at, head in enumerate(self.heads)
        )


def sums_table(
    id: str,  # noqa: A002 - the table's field of that name
    caption: str,
    head: str,
    sums: Sequence[LaborSum],
    *,
    covers: int,
    note: str = "",
    most: int | None = None,
) -> Table:
    """Minutes planned and ticked by name.

    Parameters
    ----------
    head
        What the names are names of.
    covers
        Guests that the minutes are for; 0: none, and no minutes for each.
    most
        So many rows; None: all.
    """
    heads = [
        head,
        _("Batches"),
        _("Done"),
        _("Planned, min"),
        _("Timed: planned"),
        _("Timed: took"),
        _("Over"),
        _("Leads, min"),
        _("Changed over, min"),
        _("Waited, min"),
    ]
    if covers:
        heads += [_("Planned per cover"), _("Worked per cover")]
    shown = sums if most is None or len(sums) <= most else sums[:most]
    left = len(sums) - len(shown)
    if left:
        note = " ".join(filter(None, (note, _("The %(n)s with the most minutes.", n=most))))
    return Table(
        id=id,
        caption=caption,
        heads=tuple(heads),
        rows=tuple(_row(one, covers) for one in shown),
        numbers=frozenset(range(1, len(heads))),
        note=note,
    )


def _row(one: LaborSum, covers: int) -> tuple[str, ...]:
    found = one.amounts
    timed = found.took > 0
    cells = [
        one.name or _("The kitchen's own stock"),
        str(one.batches),
        str(one.done),
        str(found.planned),
        str(found.planned_timed) if timed else "",
        minutes(found.took) if timed else "",
        signed(one.over / 60) if timed else "",
        str(found.leads),
        minutes(found.changeover) if timed else "",
        minutes(found.waiting) if timed else "",
    ]
    if covers:
        cells += [per_cover(found.planned * 60, covers), per_cover(found.worked, covers)]
    return tuple(cells)
