"""Shares of the trim beside the yield: usual, in use, and from the tests, of all that goes in."""

from collections.abc import Mapping
from dataclasses import dataclass

from planner.kitchen.base import OwnShare
from planner.yields.decide import TrimProposal
from planner.yields.keys import KitchenYield
from web.language import _
from web.presenters.quantities import number
from web.presenters.tables import Table
from web.presenters.yields import percent, tests_counted


@dataclass(frozen=True, slots=True)
class TrimView:
    """A yield with what its loss is kept as; ``lines`` say what is the kitchen's own.

    ``takes`` says that the tests know of shares, ``propose`` that they may be taken by rule and are
    others than those in use, ``own`` that own ones are in use.
    """

    table: Table
    lines: tuple[str, ...]
    takes: bool
    propose: bool
    own: bool
    held: str


def trim_view(
    key: str,
    known: KitchenYield,
    proposal: TrimProposal | None,
    learned_yield: float | None,
    held: str,
) -> TrimView | None:
    """What is known of a yield's trim; None: neither the file nor a test says anything of it.

    ``learned_yield`` is what the tests say of the yield itself, ``held`` why no rule decides.
    """
    if not known.kinds or not (known.trim or proposal):
        return None
    names = dict(known.kinds)
    told: Mapping[str, OwnShare] = {} if proposal is None else proposal.own
    usual = {one.item: one.share for one in known.trim}
    using = {one.item: one.in_use for one in known.trim}
    own = {one.item: one.own for one in known.trim if one.own is not None}
    items = tuple(dict.fromkeys([*usual, *told]))
    now = known.usual.fraction if known.usual.own is None else known.usual.own.fraction
    columns = [
        (_("Usual"), _whole(known.usual.fraction, usual, items)),
        (_("In use"), _whole(now, using, items)),
    ]
    tested = now if learned_yield is None else learned_yield
    if told:
        shares = {**using, **{item: one.share for item, one in told.items()}}
        columns.append((_("From the tests"), _whole(tested, shares, items)))
    rows = [_("Usable"), *(names.get(item, item) for item in items), _("Waste")]
    sure = ["", *(_sure(told.get(item), 1 - min(tested, 1.0)) for item in items), ""]
    heads = [_("Of what goes in"), *(head for head, _cells in columns)]
    cells = [[name, *(column[at] for _head, column in columns)] for at, name in enumerate(rows)]
    if told:
        heads.append(_("9 in 10 sure"))
        for row, text in zip(cells, sure, strict=True):
            row.append(text)
    return TrimView(
        table=Table(
            id=f"{key}-trim",
            caption=_("What comes of it"),
            heads=tuple(heads),
            rows=tuple(tuple(row) for row in cells),
            numbers=frozenset(range(1, len(heads))),
        ),
        lines=tuple(
            _(
                "usual %(usual)s %(kind)s, yours %(own)s (%(tests)s)",
                usual=_percent(usual[item] * (1 - known.usual.fraction)),
                kind=names.get(item, item),
                own=_percent(one.share * (1 - now)),
                tests=tests_counted(one.tests),
            )
            for item, one in own.items()
        ),
        takes=bool(told),
        propose=proposal is not None and proposal.held is None and {**own, **told} != own,
        own=bool(own),
        held=held if told else "",
    )


def _whole(fraction: float, shares: Mapping[str, float], items: tuple[str, ...]) -> list[str]:
    """Tenths of a percent of what goes in, which add up to 100 as they are shown."""
    usable = round(min(fraction, 1.0) * 1000)
    kept = [round(shares.get(item, 0.0) * (1 - min(fraction, 1.0)) * 1000) for item in items]
    waste = max(0, 1000 - usable - sum(kept))
    return [f"{number(tenths / 10, 1)} %" for tenths in (usable, *kept, waste)]


def _sure(one: OwnShare | None, off: float) -> str:
    """The range of a share, of what goes in, where so much of that is taken ``off``."""
    if one is None or one.low is None or one.high is None:
        return ""
    return _("%(low)s to %(high)s", low=percent(one.low * off), high=percent(one.high * off))


def _percent(fraction: float) -> str:
    return percent(max(fraction, 0.0), 0)
