"""Lots in the making: what goes into each, and where it comes from."""

import math
from collections import defaultdict
from dataclasses import dataclass, field

from planner.kitchen.cooling import is_cooling
from planner.kitchen.hours import DAY
from planner.kitchen.route import food_yield, longest_wait
from planner.lots.batching import Batches, Batching, StageKey
from planner.lots.divide import Division, Slice, Sliced, divide
from planner.lots.flow import Source, merged, take
from planner.lots.stages import Stage
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.types import Quantities, Reason

_LEAST_TRIM = 0.5
"""Grams; for less nobody waits."""


@dataclass(slots=True)
class Draft(Sliced):
    """A lot before it has tasks."""

    index: int
    stage: Stage
    slices: tuple[Slice, ...]
    upstream: dict[int, float] = field(default_factory=dict)
    """Grams taken from other lots, by lot index."""
    beside: set[int] = field(default_factory=set)
    """Lots whose trim it uses."""
    pulls: dict[str, float] = field(default_factory=lambda: defaultdict(float))
    stock: dict[str, float] = field(default_factory=lambda: defaultdict(float))

    @property
    def due(self) -> int:
        """Earliest due of what is in it."""
        return min(part.need.due for part in self.slices)

    @property
    def missed(self) -> bool:
        """Whether an earlier day should have begun it."""
        return any(part.need.portion.missed for part in self.slices)

    @property
    def missing(self) -> tuple[str, ...]:
        """Ids of raw food for it that nobody has."""
        return tuple(sorted({item for part in self.slices for item in part.need.portion.missing}))


def draft_lots(
    kit: Kitchenry,
    quantities: Quantities,
    stages: dict[StageKey, Stage],
    batching: Batching,
) -> list[Draft]:
    """Divide every stage into lots and link each to what it takes from."""
    drafts: list[Draft] = []
    by_stage: dict[StageKey, list[Draft]] = {}
    for key in _before_first(stages):
        stage = stages[key]
        made = [
            Draft(len(drafts) + i, stage, division.slices)
            for i, division in enumerate(_divisions(kit, stage, by_stage, batching))
        ]
        by_stage[key] = made
        drafts += made
    _link_steps(kit, drafts)
    _link_components(kit, drafts, quantities)
    _link_trim(kit, drafts)
    return drafts


def _before_first(stages: dict[StageKey, Stage]) -> list[StageKey]:
    """Stages so that each comes after the one it takes from."""
    return sorted(stages, key=lambda key: (stages[key].step, key))


def _divisions(
    kit: Kitchenry, stage: Stage, by_stage: dict[StageKey, list[Draft]], batching: Batching
) -> list[Division]:
    component, step = stage.component, stage.step
    effort = kit.efforts.of(component, step)
    largest = effort.vessel if batching.has(stage.key, Batches.WHOLE) else effort.largest
    before = by_stage.get(stage.before, []) if stage.before is not None else []
    hurried = step > 0 and (
        longest_wait(kit.catalog, component, step - 1) is not None
        or is_cooling(kit.catalog, component, step)
    )
    if not (hurried and before):
        return divide(
            stage.needs,
            largest,
            apart=batching.has(stage.key, Batches.APART),
            together=batching.has(stage.key, Batches.TOGETHER),
            pieces=2 if batching.has(stage.key, Batches.HALVED) else 1,
        )
    # What must go on within minutes keeps to the lots it comes in, or two batches of one step
    # would have to be ready at the same time.
    wanted = {(id(n.portion), n.step): n for n in stage.needs}
    found: list[Division] = []
    for draft in before:
        mine = [
            wanted[id(part.need.portion), step]
            for part in draft.slices
            if (id(part.need.portion), step) in wanted
        ]
        parts = [
            Slice(
                need,
                need.grams_in * part.grams_out / part.need.grams_out,
                need.grams_out * part.grams_out / part.need.grams_out,
            )
            for need, part in zip(
                mine,
                [p for p in draft.slices if (id(p.need.portion), step) in wanted],
                strict=True,
            )
        ]
        found += _cut(parts, largest)
    covered = {id(part.need.portion) for draft in before for part in draft.slices}
    rest = [need for need in stage.needs if id(need.portion) not in covered]
    return found + divide(rest, largest)


def _cut(parts: list[Slice], largest: float) -> list[Division]:
    """One lot of these slices, or as many like it as the vessel asks for."""
    total = sum(part.grams_in for part in parts)
    if not parts:
        return []
    count = 1 if math.isinf(largest) else max(1, math.ceil(total / largest - 1e-9))
    share = [Slice(part.need, part.grams_in / count, part.grams_out / count) for part in parts]
    return [Division(tuple(share))] * count


def _link_steps(kit: Kitchenry, drafts: list[Draft]) -> None:
    """Each step takes its own food from the step before it; part-made food comes from stock.

    Of a lot that holds food for several components, each goes on with its own part.
    """
    made: dict[tuple[int, int], list[Source]] = defaultdict(list)
    for draft in drafts:
        for part in draft.slices:
            made[id(part.need.portion), draft.stage.step].append(
                Source(draft.index, part.grams_out)
            )
    for draft in drafts:
        for part in draft.slices:
            portion = part.need.portion
            if draft.stage.step == 0:
                continue
            # The rest of what goes in is the recipe's inputs that join here.
            carried = kit.flows.of(kit.catalog.components[portion.component])[draft.stage.step - 1]
            wanted = carried.grams_out * portion.grams * _part_of_need(part)
            if portion.making.first_step == draft.stage.step:
                draft.stock[portion.component] += wanted
                continue
            for lot, grams in take(made[id(portion), draft.stage.step - 1], wanted):
                if lot is not None:
                    draft.upstream[lot] = draft.upstream.get(lot, 0.0) + grams


def _link_components(kit: Kitchenry, drafts: list[Draft], quantities: Quantities) -> None:
    """Inputs come from the shelf if they are raw food, from their last lots if components."""
    takers = _takers(kit, drafts)
    for need in quantities.needs:
        for want in need.wants:
            if want.reason is not Reason.COMPONENT:
                takers[need.component].append(_Taker(want.due, -1, want.grams))
    for item, entries in takers.items():
        need = quantities.by_component[item]
        last = len(kit.catalog.components[item].route) - 1
        finals = [d for d in drafts if d.stage.step == last and _out_of(d, item) > 0]
        finals.sort(key=lambda one: (bool(one.missing), one.missed, one.due, one.index))
        sources = [
            Source(None, sum(use.grams for use in need.stock if use.after_step is None)),
            *(Source(draft.index, _out_of(draft, item)) for draft in finals),
        ]
        for entry in sorted(entries, key=_Taker.turn):
            taken = merged(take(sources, entry.grams))
            if entry.lot < 0:
                continue  # onto a plate: what is left is for the next in line
            for lot, grams in taken.items():
                if lot is None:
                    drafts[entry.lot].stock[item] += grams
                else:
                    upstream = drafts[entry.lot].upstream
                    upstream[lot] = upstream.get(lot, 0.0) + grams


@dataclass(frozen=True, slots=True)
class _Taker:
    """A lot (or a dish: -1) that takes grams of a component at ``due``.

    One that ``lacks`` something cannot be made, and leaves what there is to the others.
    """

    due: int
    lot: int
    grams: float
    lacks: bool = False
    missed: bool = False

    def turn(self) -> tuple[int, bool, bool, int, int]:
        """Place in the queue: by day, what can be made and in time first, then by due."""
        return self.due // DAY, self.lacks, self.missed, self.due, self.lot


def _takers(kit: Kitchenry, drafts: list[Draft]) -> dict[str, list[_Taker]]:
    """Lots that take components; what they take of raw food is noted on them."""
    takers: dict[str, list[_Taker]] = defaultdict(list)
    for draft in drafts:
        for part in draft.slices:
            portion = part.need.portion
            for draw in portion.draws:
                # A by-product may stand in for all of it.
                if draw.step != draft.stage.step or draw.grams <= 1e-9:
                    continue
                grams = draw.grams * _part_of_need(part)
                if draw.item in kit.catalog.ingredients:
                    draft.pulls[draw.item] += grams
                else:
                    takers[draw.item].append(
                        _Taker(draw.due, draft.index, grams, bool(draft.missing), portion.missed)
                    )
    return takers


def _part_of_need(part: Slice) -> float:
    """Fraction of its need that a slice is."""
    return part.grams_out / part.need.grams_out if part.need.grams_out else 0.0


def _out_of(draft: Draft, component: str) -> float:
    return sum(p.grams_out for p in draft.slices if p.need.portion.component == component)


def _link_trim(kit: Kitchenry, drafts: list[Draft]) -> None:
    """A lot that uses another's trim comes after it."""
    heaps: dict[tuple[str, str, int], list[Source]] = defaultdict(list)
    for draft in sorted(drafts, key=lambda one: (bool(one.missing), one.missed, one.index)):
        for part in draft.slices:
            for item, grams in trim_of(kit, draft, part):
                key = (item, part.need.portion.component, draft.stage.step)
                heaps[key].append(Source(draft.index, grams))
    for draft in drafts:
        for part in draft.slices:
            for credit in part.need.portion.credits:
                if credit.into_step != draft.stage.step:
                    continue
                grams = credit.grams * _part_of_need(part)
                key = (credit.by_product, credit.from_component, credit.from_step)
                if key in heaps:
                    for lot, taken in take(heaps[key], grams):
                        if lot is not None and taken > _LEAST_TRIM:
                            draft.beside.add(lot)
                draft.stock[credit.by_product] += grams


def trim_of(kit: Kitchenry, draft: Draft, part: Slice) -> list[tuple[str, float]]:
    """Usable by-products (item, grams) that a slice leaves."""
    component = kit.catalog.components[part.need.portion.component]
    entry = food_yield(kit.catalog, component, draft.stage.step)
    loss = part.grams_in - part.grams_out
    if entry is None or loss <= 0:
        return []
    return [(trim.item, loss * trim.in_use) for trim in entry.trim]
