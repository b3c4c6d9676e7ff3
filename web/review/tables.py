"""Tables of minutes by whatever batches have in common."""

from collections.abc import Callable, Sequence

from planner.floor.sums import LaborSum
from web.language import _
from web.presenters.tables import Table
from web.review.words import minutes, per_cover, signed


def sums_table(
    id: str,  # noqa: A002 - the table's field of that name
    caption: str,
    head: str,
    sums: Sequence[LaborSum],
    *,
    covers: int,
    note: str = "",
    most: int | None = None,
    brief: bool = False,
) -> Table:
    """Minutes planned and ticked by name; ``brief`` for half a sheet of paper.

    Parameters
    ----------
    head
        What the names are names of.
    covers
        Guests that the minutes are for; 0: none, and no minutes for each.
    most
        So many rows; None: all.
    """
    columns = _columns(covers, brief=brief)
    shown = sums if most is None or len(sums) <= most else sums[:most]
    if len(shown) < len(sums) and not brief:
        more = _(
            "The %(most)s of %(n)s with the most minutes; the file of sums has all.",
            most=most,
            n=len(sums),
        )
        note = " ".join(filter(None, (note, more)))
    return Table(
        id=id,
        caption=caption,
        heads=(head, *(name for name, _cell in columns)),
        rows=tuple((_name(one), *(cell(one) for _head, cell in columns)) for one in shown),
        numbers=frozenset(range(1, len(columns) + 1)),
        note=note,
    )


_Cell = Callable[[LaborSum], str]


def _columns(covers: int, *, brief: bool) -> list[tuple[str, _Cell]]:
    """Heads with what stands under them."""
    planned: list[tuple[str, _Cell]] = [
        (_("Batches"), lambda one: str(one.batches)),
        (_("Done"), lambda one: str(one.done)),
        (_("Planned, min"), lambda one: str(one.amounts.planned)),
    ]
    over: list[tuple[str, _Cell]] = [(_("Over"), lambda one: _if_timed(one, signed(one.over / 60)))]
    between: list[tuple[str, _Cell]] = [
        (_("Changed over, min"), lambda one: _if_timed(one, minutes(one.amounts.changeover))),
        (_("Waited, min"), lambda one: _if_timed(one, minutes(one.amounts.waiting))),
    ]
    each: list[tuple[str, _Cell]] = [
        (_("Planned per cover"), lambda one: per_cover(one.amounts.planned * 60, covers)),
        (_("Worked per cover"), lambda one: per_cover(one.amounts.worked, covers)),
    ]
    if brief:
        worked: _Cell = lambda one: minutes(one.amounts.worked)  # noqa: E731 - as those beside it
        return [
            *planned[1:],
            (_("Worked, min"), worked),
            *over,
            *(each[1:] if covers else []),
        ]
    return [
        *planned,
        (_("Timed: planned"), lambda one: _if_timed(one, str(one.amounts.planned_timed))),
        (_("Timed: took"), lambda one: _if_timed(one, minutes(one.amounts.took))),
        *over,
        (_("Leads, min"), lambda one: str(one.amounts.leads)),
        *between,
        *(each if covers else []),
    ]


def _name(one: LaborSum) -> str:
    return one.name or _("The kitchen's own stock")


def _if_timed(one: LaborSum, text: str) -> str:
    return text if one.amounts.took > 0 else ""
