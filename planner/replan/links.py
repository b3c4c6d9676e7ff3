"""Which lots that have not begun wait for which that have."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from planner.kitchen.catalog import Catalog
from planner.kitchen.route import longest_wait
from planner.lots.types import Lot, Workload
from planner.replan.begun import Begun
from planner.replan.stock import Source, StockKey

_LEAST_GRAMS = 0.5


@dataclass(frozen=True, slots=True)
class Link:
    """``lot`` (index among the new ones) takes what ``begun`` gives.

    It starts at least ``least`` minutes and at most ``most`` (None: any) after that is ready.
    """

    lot: int
    begun: Begun
    least: int
    most: int | None


def links_by_stock(
    catalog: Catalog, new: Workload, sources: tuple[Source, ...]
) -> tuple[Link, ...]:
    """Links of lots that were worked out anew, their food counted: first there, first used."""
    shelf: dict[StockKey, list[tuple[Source, float]]] = defaultdict(list)
    for source in sorted(sources, key=lambda one: (one.begun.under_way, one.begun.ready)):
        shelf[source.key].append((source, source.grams))
    found: list[Link] = []
    for lot in sorted(new.lots, key=lambda one: (one.due, one.index)):
        for item, grams in lot.stock:
            own = any(item == share.component for share in lot.shares)
            for source in _taken(shelf[item, lot.step if own else None], grams):
                found.append(_link(catalog, lot.index, source.begun, item, own=own))
    return tuple(found)


def links_by_lot(
    catalog: Catalog, old: Workload, new_index: dict[int, int], begun: dict[int, Begun]
) -> tuple[Link, ...]:
    """Links of lots that are as they were; ``new_index`` is by their old one."""
    return tuple(
        _link(catalog, new_index[lot.index], begun[index], begun[index].lot.component, own=own)
        for lot in old.lots
        if lot.index in new_index
        for index in _all_before(old, lot)
        if index in begun
        for own in [_on_route(begun[index].lot, lot)]
    )


def _all_before(old: Workload, lot: Lot) -> list[int]:
    """Lots it takes from, or whose trim it uses."""
    return sorted({*(index for index, _ in lot.upstream), *old.problem.jobs[lot.index].needs})


def _on_route(source: Lot, lot: Lot) -> bool:
    own = {share.component for share in lot.shares}
    return source.step == lot.step - 1 and any(s.component in own for s in source.shares)


def _link(catalog: Catalog, lot: int, begun: Begun, component: str, *, own: bool) -> Link:
    made, step = catalog.components[component], begun.lot.step
    if not own:
        return Link(lot, begun, 0, None)
    least, most = made.route[step].min_wait_minutes, longest_wait(catalog, made, step)
    return Link(lot, begun, least, None if most is None else max(most, least))


def _taken(shelf: list[tuple[Source, float]], grams: float) -> Iterator[Source]:
    while grams > _LEAST_GRAMS and shelf:
        source, left = shelf[0]
        part = min(grams, left)
        grams -= part
        if left - part > _LEAST_GRAMS:
            shelf[0] = (source, left - part)
        else:
            shelf.pop(0)
        yield source
