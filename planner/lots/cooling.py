"""Cooling chains as waits: the lot that brings food down starts in time after the hot one."""

from collections.abc import Iterable, Iterator, Sequence

from planner.kitchen.catalog import Catalog
from planner.kitchen.cooling import CoolingChain, cooling_chains
from planner.lots.draft import Draft
from planner.lots.tasks import LotWork
from planner.schedule.problem import Task, Wait


def chains_into(catalog: Catalog, components: Iterable[str], step: int) -> tuple[CoolingChain, ...]:
    """Chains that end with a step, of all components that are worked on together."""
    found = dict.fromkeys(
        chain
        for name in components
        for chain in cooling_chains(catalog, catalog.components[name])
        if chain.cold == step
    )
    return tuple(found)


def latest_after(chain: CoolingChain, hot: LotWork | None, cold: Task, alone: int) -> int:
    """Most minutes from the hot lot's last task (from its first: ``from_start``) to ``cold``.

    ``alone`` are the unattended minutes of the cold lot; its hands-on minutes are taken to be those
    of the slowest cook, so that it is down in time whoever does it. ``hot`` goes on by itself for
    its tail after its last task.
    """
    slowest = max(cold.minutes.values(), default=0)
    tail = 0 if hot is None or chain.from_start else hot.tail
    return tail + chain.limit.minutes - slowest - alone


def cooling_waits(
    catalog: Catalog,
    drafts: Sequence[Draft],
    work: dict[int, LotWork],
    tasks: Sequence[Task],
) -> Iterator[Wait]:
    """Yield a wait with a maximum from every hot lot to the lot that brings its food down."""
    for draft in drafts:
        names = [part.need.portion.component for part in draft.slices]
        for chain in chains_into(catalog, names, draft.stage.step):
            cold = work[draft.index]
            for lot in _behind(drafts, draft, chain.hot):
                hot = work[lot]
                most = latest_after(chain, hot, tasks[cold.first], cold.unattended)
                if not chain.from_start:
                    yield Wait(hot.last, cold.first, hot.tail, most)
                elif lot != draft.index:
                    slowest = max(tasks[hot.first].minutes.values(), default=0)
                    yield Wait(hot.first, cold.first, 0, most - slowest)


def merged(waits: Iterable[Wait]) -> list[Wait]:
    """One wait for each pair of tasks: the longest least and the shortest most."""
    found: dict[tuple[int, int], Wait] = {}
    for wait in waits:
        pair = wait.before, wait.after
        known = found.get(pair, wait)
        limits = [w.maximum for w in (known, wait) if w.maximum is not None]
        least = max(known.minimum, wait.minimum)
        found[pair] = Wait(*pair, least, min(limits, default=None))
    return list(found.values())


def _behind(drafts: Sequence[Draft], draft: Draft, step: int) -> list[int]:
    """Lots of an earlier step of a lot's own route that its food comes from."""
    found = {draft.index}
    for _ in range(draft.stage.step - step):
        found = {
            lot
            for index in found
            for lot in drafts[index].upstream
            if drafts[lot].stage.key == drafts[index].stage.before
        }
    return sorted(found)
