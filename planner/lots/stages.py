"""Stages: one operation on one food, pooled over everything that passes through it.

Components that start with the same movements on the same food share those stages: onions for five
dishes are peeled together and part only where they are cut differently.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from itertools import pairwise

from planner.kitchen.catalog import Catalog
from planner.kitchen.foods import Component
from planner.kitchen.route import longest_wait
from planner.lots.batching import StageKey
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.supply import Allotment, DrawKey
from planner.quantities.types import ComponentNeed, Credit, InputDraw, Making


@dataclass(frozen=True, slots=True)
class Portion:
    """Part of a making with one kind of supply: grams of it finished, when its raw food is there.

    ``releases`` says per step when the raw food that goes in there is there; ``missing`` are the
    ids of raw food nobody has.
    """

    component: str
    making: Making
    making_index: int
    grams: float
    draws: tuple[InputDraw, ...]
    credits: tuple[Credit, ...]
    releases: tuple[tuple[int, int], ...]
    """(step, minutes)."""
    missing: tuple[str, ...] = ()
    missed: bool = False
    """An earlier day should have begun it, or a component in it."""

    @property
    def release(self) -> int:
        """When all of its raw food is there (minutes)."""
        return max((at for _, at in self.releases), default=0)


@dataclass(frozen=True, slots=True)
class StageNeed:
    """What one portion wants of one stage.

    ``fresh_from`` is the earliest that food which must be fresh may be finished (minutes), at the
    last step and at those that it follows within minutes; None for any other.
    """

    portion: Portion
    step: int
    grams_in: float
    grams_out: float
    fresh_from: int | None = None

    @property
    def due(self) -> int:
        """When the portion's last step of the day is due."""
        return self.portion.making.due


@dataclass(slots=True)
class Stage:
    """All needs of one operation on one food; ``before`` is the stage it takes from."""

    key: StageKey
    component: Component
    step: int
    before: StageKey | None
    needs: list[StageNeed] = field(default_factory=list)


def portions_of(need: ComponentNeed, allotted: dict[DrawKey, list[Allotment]]) -> list[Portion]:
    """Cut a component's makings where the supply of their raw food changes."""
    found: list[Portion] = []
    for index, making in enumerate(need.makings):
        keys = [(need.component, index, draw.item, draw.step) for draw in making.draws]
        parts = {key: allotted[key] for key in keys if key in allotted}
        cuts = sorted({0.0, 1.0, *(round(p.end, 9) for ps in parts.values() for p in ps)})
        for begin, end in pairwise(cuts):
            if end - begin <= 1e-6:
                continue
            middle = (begin + end) / 2
            used = {
                (item, step): supply
                for (_, _, item, step), ps in parts.items()
                if (supply := next((p.supply for p in ps if p.begin <= middle <= p.end), None))
            }
            share = end - begin
            found.append(
                Portion(
                    component=need.component,
                    making=making,
                    making_index=index,
                    grams=making.grams * share,
                    draws=tuple(replace(d, grams=d.grams * share) for d in making.draws),
                    credits=tuple(replace(c, grams=c.grams * share) for c in making.credits),
                    missed=making.missed or any(s.late for s in used.values()),
                    releases=tuple(
                        sorted((step, s.at) for (_, step), s in used.items() if s.available)
                    ),
                    missing=tuple(
                        sorted(
                            {
                                lacked
                                for (item, _), s in used.items()
                                if not s.available
                                for lacked in s.lacks or (item,)
                            }
                        )
                    ),
                )
            )
    return found


def stages_of(
    kit: Kitchenry, portions: Iterable[Portion], *, pooled: bool
) -> dict[StageKey, Stage]:
    """Group what every portion wants, step by step.

    Not ``pooled``, every dish has its stages to itself, as a kitchen works that preps dish by dish.
    """
    stages: dict[StageKey, Stage] = {}
    for portion in portions:
        component = kit.catalog.components[portion.component]
        making = portion.making
        flow = kit.flows.of(component)
        for index in range(making.first_step, making.last_step):
            through = flow[index]
            wanted = StageNeed(
                portion,
                index,
                portion.grams * through.grams_in,
                portion.grams * through.grams_out,
                _fresh_from(kit.catalog, component, index, making),
            )
            key = stage_key(kit, component, index, portion, pooled=pooled)
            if key not in stages:
                before = (
                    stage_key(kit, component, index - 1, portion, pooled=pooled) if index else None
                )
                stages[key] = Stage(key, component, index, before)
            stages[key].needs.append(wanted)
    for stage in stages.values():
        stage.needs.sort(key=lambda n: (bool(n.portion.missing), n.due, n.portion.release))
    return stages


def _fresh_from(catalog: Catalog, component: Component, step: int, making: Making) -> int | None:
    last = len(component.route) - 1
    if component.fresh_hours is None or any(
        longest_wait(catalog, component, index) is None for index in range(step, last)
    ):
        return None
    return making.want.doors - round(component.fresh_hours * 60)


def stage_key(
    kit: Kitchenry, component: Component, step: int, portion: Portion, *, pooled: bool
) -> StageKey:
    """Name a stage by what leads up to it, and by all that sets its work apart.

    Recipes share with nobody.
    """
    if component.makes is None:
        taken = component.inputs[0]
        words = ["+".join((taken.item, *sorted(taken.may_use)))]
        for index in range(step + 1):
            words += _words(kit, component, index)
    else:
        words = [component.id, *(taken.operation for taken in component.route[: step + 1])]
        words.append(str(step))
    if not pooled:
        dishes = sorted({f"{s.service}/{s.dish}" for s in portion.making.want.shares})
        words.append(dishes[0] if dishes else "")
    return tuple(words)


def _words(kit: Kitchenry, component: Component, index: int) -> tuple[str, ...]:
    """What two components must have in common at a step to be worked on as one."""
    step, effort = component.route[index], kit.efforts.of(component, index)
    last = index == len(component.route) - 1
    figures = (
        effort.fraction,
        effort.minutes_per_gram,
        effort.minutes_per_lot,
        effort.unattended,
        effort.largest,
        0 if last else step.min_wait_minutes,
        longest_wait(kit.catalog, component, index),
        step.hold,
        step.temperature_c,
        component.fresh_hours if last else None,
    )
    return step.operation, step.cut or "", repr(figures)
