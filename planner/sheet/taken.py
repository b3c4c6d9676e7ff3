"""What of the raw food is pulled for what is made and served, and what stays where it is.

The quantities count all that is wanted; a lot that is not made and a portion that is not served
take nothing.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from planner.lots.types import Lot
from planner.quantities.types import PullLine
from planner.sheet.dishes import dish_names
from planner.sheet.first_use import first_task
from planner.sheet.pieces import pieces, whole
from planner.sheet.types import LeftOutItem, StraightItem
from planner.sheet.view import PlanView

_LEAST_GRAMS = 0.5
"""A smaller rest is a float's last digits."""


@dataclass(frozen=True, slots=True)
class Taken:
    """The part of a line of the quantities that is pulled.

    Attributes
    ----------
    line
        All that is wanted, with what there is.
    grams
        Grams as purchased that lots that are made and portions that are served take.
    units
        The same in whole units of the line.
    have
        Grams on hand and delivered.
    """

    line: PullLine
    grams: float
    units: int
    have: float

    @property
    def one(self) -> float:
        """Grams of one unit."""
        return self.line.pulled.grams / self.line.units

    @property
    def left_over(self) -> float:
        """Grams pulled and not used: what is there at most, where whole units weigh more."""
        return max(0.0, min(self.units * self.one, self.have) - self.grams)

    @property
    def packs(self) -> float:
        """The same in packs as they are bought."""
        return self.line.packs * self.units / self.line.units


def puller(view: PlanView, lot: Lot) -> int | None:
    """Who pulls for a lot: the worker of its first task; None where it is not made."""
    task = first_task(lot)
    one = None if task is None else view.assignments.get(task)
    return one.worker if one else None


def taken_lines(view: PlanView, straight: Iterable[StraightItem]) -> tuple[Taken, ...]:
    """Lines of the quantities of which something is pulled.

    ``straight`` is what dishes take as it is. Nothing is pulled that is neither on hand nor
    delivered; the last unit may be lighter than others.
    """
    used: dict[str, float] = defaultdict(float)
    for lot in view.lots:
        if puller(view, lot) is not None:
            for item, grams in lot.pulls:
                used[item] += grams
    for one in straight:
        if not one.prepared:
            used[one.item] += one.grams
    found = []
    for line in view.plan.quantities.pulls:
        have = sum(supply.grams for supply in line.supplies)
        grams = min(used[line.ingredient], have)
        if line.units > 0 and grams > 0:
            unit = line.pulled.grams / line.units
            found.append(Taken(line, grams, whole(grams / unit), have))
    return tuple(found)


def left_out(view: PlanView, unserved: Iterable[StraightItem]) -> tuple[LeftOutItem, ...]:
    """Food that is wanted and not pulled, as what it is for is not made or not served; by name.

    ``unserved`` is what dishes would have taken as it is.
    """
    total: dict[tuple[str, bool], float] = defaultdict(float)
    wanted: dict[tuple[str, bool], dict[str, None]] = defaultdict(dict)
    for lot in view.lots:
        if puller(view, lot) is None:
            for item, grams in lot.pulls:
                total[item, False] += grams
                wanted[item, False] |= dict.fromkeys(_wanted_for(view, lot))
    for one in unserved:
        total[one.item, one.prepared] += one.grams
        wanted[one.item, one.prepared] |= {one.dish: None}
    found = [
        LeftOutItem(
            item,
            view.catalog.name(item),
            grams,
            *pieces(view, item, grams),
            tuple(wanted[item, prepared]),
            prepared,
        )
        for (item, prepared), grams in total.items()
        if grams >= _LEAST_GRAMS
    ]
    return tuple(sorted(found, key=lambda one: (one.name, one.item)))


def _wanted_for(view: PlanView, lot: Lot) -> tuple[str, ...]:
    """Dishes that a lot is for; the kitchen's own by the component."""
    own = dict.fromkeys(view.catalog.name(share.component) for share in lot.shares)
    return dish_names(view, (lot,)) or tuple(own)
