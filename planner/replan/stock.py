"""What begun lots have used of the shelves, and what they leave for the rest of the day."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.kitchen.hours import DAY
from planner.kitchen.route import longest_wait
from planner.lots.types import Workload
from planner.replan.begun import Begun, Standing
from planner.replan.drawn import draws_of
from planner.replan.hot import cold_by

_LEAST_GRAMS = 0.5
"""Less than this is a rounding remainder, not food."""

StockKey = tuple[str, int | None]
"""Component, and how many steps of its route are done (None: finished)."""

Use = tuple[str, int | None, int]
"""The same, and for which day, counted from the planned one, it was used."""


@dataclass(frozen=True, slots=True)
class Source:
    """Grams that one begun lot leaves of a component.

    ``latest`` is when the next step must have started at the latest, or None.
    """

    begun: Begun
    key: StockKey
    grams: float
    latest: int | None


@dataclass(frozen=True, slots=True)
class Left:
    """What the begun lots leave.

    ``sources`` are finished and part-made food by lot; ``prepared`` and ``pulled`` what they used
    of prepared stock and of ingredients as purchased; ``trim`` by-products not used; ``eaten`` how
    much of each finished component other lots have taken; ``discarded`` what has waited longer than
    it may.
    """

    sources: tuple[Source, ...]
    prepared: dict[Use, float]
    pulled: dict[str, float]
    trim: dict[str, float]
    eaten: dict[str, float]
    discarded: tuple[Source, ...]


def left_by(
    catalog: Catalog,
    converter: Converter,
    workload: Workload,
    day: Standing,
    thrown: frozenset[tuple[str, str]] = frozenset(),
) -> Left:
    """Work out what ``day``'s begun lots used and what is there of them.

    ``thrown`` names food, by lot id and component, that is discarded whatever its time.
    """
    begun = {one.lot.index: one for one in day.begun}
    drawn = _drawn(catalog, converter, workload, begun)
    prepared: dict[Use, float] = defaultdict(float)
    pulled: dict[str, float] = defaultdict(float)
    trim: dict[str, float] = defaultdict(float)
    for one in day.begun:
        for item, grams in one.lot.pulls:
            pulled[item] += grams * one.share
        for item, grams in one.lot.stock:
            used = grams * one.share
            if item in catalog.ingredients:
                trim[item] -= used
            else:
                own = any(item == share.component for share in one.lot.shares)
                prepared[item, one.lot.step if own else None, one.lot.due // DAY] += used
        if not one.spoiled:
            for item, grams in one.lot.trim:
                trim[item] += grams * one.share
    sources: list[Source] = []
    discarded: list[Source] = []
    goes_on = {index for lot in workload.lots for index, _ in lot.upstream}
    for one in day.begun:
        today = one.lot.index in goes_on
        for source in _given(catalog, workload, day, one, drawn, today=today):
            late = source.latest is not None and source.latest < day.now
            late = late or (one.lot.id, source.key[0]) in thrown
            (discarded if one.spoiled or late else sources).append(source)
    return Left(
        tuple(sources),
        dict(prepared),
        dict(pulled),
        {item: grams for item, grams in trim.items() if grams > _LEAST_GRAMS},
        _eaten(catalog, workload, prepared, drawn),
        tuple(discarded),
    )


def _eaten(
    catalog: Catalog,
    workload: Workload,
    prepared: dict[Use, float],
    drawn: dict[tuple[int, str], float],
) -> dict[str, float]:
    """Grams of finished components that lots have taken, from the shelf and from other lots."""
    eaten: dict[str, float] = defaultdict(float)
    for (item, after, _), grams in prepared.items():
        if after is None:
            eaten[item] += grams
    for (index, component), grams in drawn.items():
        if workload.lots[index].step == len(catalog.components[component].route) - 1:
            eaten[component] += grams
    return dict(eaten)


def _drawn(
    catalog: Catalog, converter: Converter, workload: Workload, begun: dict[int, Begun]
) -> dict[tuple[int, str], float]:
    """Grams by (lot, component) that begun lots have taken from begun lots."""
    drawn: dict[tuple[int, str], float] = defaultdict(float)
    for one in begun.values():
        for key, grams in draws_of(catalog, converter, workload, one.lot).items():
            drawn[key] += grams * one.share
    return drawn


def _given(
    catalog: Catalog,
    workload: Workload,
    day: Standing,
    one: Begun,
    drawn: dict[tuple[int, str], float],
    *,
    today: bool,
) -> Iterator[Source]:
    """What is left of a begun lot by component; unless it goes on ``today`` it is for later."""
    for share in one.lot.shares:
        grams = share.grams * one.share - drawn[one.lot.index, share.component]
        if grams <= _LEAST_GRAMS:
            continue
        component = catalog.components[share.component]
        finished = one.lot.step == len(component.route) - 1
        most = None if finished or not today else longest_wait(catalog, component, one.lot.step)
        # Its wait starts when it is taken out; while it is under way that is still to come.
        by = None if most is None or one.to_take_out else one.ready + most
        cold = cold_by(catalog, workload, day, one.lot, share.component)
        latest = min((time for time in (by, cold) if time is not None), default=None)
        key = (share.component, None if finished else one.lot.step + 1)
        yield Source(one, key, grams, latest)
