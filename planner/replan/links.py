"""Which lots that have not begun wait for which that have."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from planner.kitchen.catalog import Catalog
from planner.kitchen.route import longest_wait
from planner.lots.types import Lot, Workload
from planner.replan.begun import Begun, alone_after, on_route
from planner.replan.stock import Source, StockKey

_LEAST_GRAMS = 0.5


@dataclass(frozen=True, slots=True)
class Link:
    """``lot`` (index among the new ones) takes ``grams`` of what ``begun`` gives.

    It starts at least ``least`` minutes and at most ``most`` (None: any) after that is ready.
    ``item`` is the stock that the grams are counted as, or None. With ``since``, a task of the old
    plan, ``most`` counts from the end of that task, however many lots lie between: food that came
    hot out of it must be cold in time.
    """

    lot: int
    begun: Begun
    grams: float
    least: int
    most: int | None
    item: str | None = None
    since: int | None = None


def links_by_stock(
    catalog: Catalog, new: Workload, sources: tuple[Source, ...]
) -> tuple[Link, ...]:
    """Links of lots that were worked out anew, their food counted: first there, first used."""
    shelf: dict[StockKey, list[tuple[Source, float]]] = defaultdict(list)
    for source in sorted(sources, key=lambda one: (one.begun.to_take_out, one.begun.ready)):
        shelf[source.key].append((source, source.grams))
    found: list[Link] = []
    for lot in sorted(new.lots, key=lambda one: (one.due, one.index)):
        for item, grams in lot.stock:
            own = any(item == share.component for share in lot.shares)
            for source, taken in _taken(shelf[item, lot.step if own else None], grams):
                least, most = _window(catalog, source.begun.lot, item) if own else (0, None)
                found.append(Link(lot.index, source.begun, taken, least, most, item))
    return tuple(found)


def links_by_lot(
    catalog: Catalog, old: Workload, new_index: dict[int, int], begun: dict[int, Begun]
) -> tuple[Link, ...]:
    """Links of lots that are as they were; ``new_index`` is by their old one."""
    found: list[Link] = []
    for lot in old.lots:
        if lot.index not in new_index:
            continue
        upstream = dict(lot.upstream)
        # It takes from the first, and uses the trim of the others.
        for index in sorted({*upstream, *old.problem.jobs[lot.index].needs} & set(begun)):
            one = begun[index]
            own = on_route(one.lot, lot)
            least, most = _window(catalog, one.lot, one.lot.component) if own else (0, None)
            found.append(Link(new_index[lot.index], one, upstream.get(index, 0.0), least, most))
    known = {(link.lot, link.begun.lot.index): link for link in found}
    for wait in old.problem.waits:
        before, after = old.problem.tasks[wait.before].lot, old.problem.tasks[wait.after].lot
        if wait.maximum is None or before not in begun or after not in new_index:
            continue
        link = known.get((new_index[after], before))
        alone = alone_after(begun[before].lot)
        if link is None or link.most is None or alone + link.most > wait.maximum:
            clock = Link(new_index[after], begun[before], 0.0, 0, wait.maximum, since=wait.before)
            found.append(clock)
    return tuple(found)


def _window(catalog: Catalog, source: Lot, component: str) -> tuple[int, int | None]:
    """Least and most minutes between a lot and the next step on its route."""
    made = catalog.components[component]
    least, most = made.route[source.step].min_wait_minutes, longest_wait(catalog, made, source.step)
    return least, None if most is None else max(most, least)


def _taken(shelf: list[tuple[Source, float]], grams: float) -> Iterator[tuple[Source, float]]:
    while grams > _LEAST_GRAMS and shelf:
        source, left = shelf[0]
        part = min(grams, left)
        grams -= part
        if left - part > _LEAST_GRAMS:
            shelf[0] = (source, left - part)
        else:
            shelf.pop(0)
        yield source, part
