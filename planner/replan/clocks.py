"""Cooling clocks that run on over a replan, where the rest of the food is counted anew."""

from collections.abc import Iterator, Mapping, Sequence

from planner.kitchen.catalog import Catalog
from planner.lots.cooling import chains_into
from planner.lots.types import Lot, Workload
from planner.replan.begun import Begun, on_route
from planner.replan.hot import behind, clock_of, slowest
from planner.replan.links import Link


def clocks(
    catalog: Catalog,
    old: Workload,
    new: Workload,
    begun: Mapping[int, Begun],
    links: Sequence[Link],
) -> Iterator[Link]:
    """Limits for new lots whose food came hot out of a begun one, whatever lies between.

    ``links`` say which new lots take from which begun ones; what those took from is in ``old``.
    """
    for lot in new.lots:
        components = [share.component for share in lot.shares]
        for chain in chains_into(catalog, components, lot.step):
            own = slowest(new.problem, lot) + lot.unattended
            for source in _sources(new, lot, links):
                for hot in behind(old, source.begun.lot, chain.hot):
                    if hot.index in begun:
                        since, most = clock_of(old.problem, hot, chain)
                        yield Link(lot.index, begun[hot.index], 0.0, 0, most - own, since=since)


def _sources(new: Workload, lot: Lot, links: Sequence[Link]) -> list[Link]:
    """Links by which a lot, and those it goes on from, take part-made food of its route."""
    here, found = {lot.index}, []
    while here:
        found += [
            link
            for link in links
            if link.lot in here and on_route(link.begun.lot, new.lots[link.lot])
        ]
        here = {
            index
            for one in here
            for index, _ in new.lots[one].upstream
            if on_route(new.lots[index], new.lots[one])
        }
    return found
