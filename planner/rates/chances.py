"""How likely each service is ready on time, by the plan and by what is known of its minutes."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from planner.lots.types import Lot, Part
from planner.plan import Plan
from planner.quantities.kitchenry import Kitchenry
from planner.rates.apply import Use, planned_value
from planner.rates.figures import set_up_figure, slowness_figure, step_figures
from planner.rates.mornings import Doubt, Floats, simulate
from planner.rates.network import Network, Node, network_of
from planner.rates.types import Key, Kind, Learned, ServiceChance, SkillRates
from planner.rates.under_way import UnderWay

GUESSED = {Kind.RATE: 0.15, Kind.SET_UP: 0.3, Kind.SLOWNESS: 0.1}
"""Standard deviation of the logarithm of a figure that nobody has ticked: starting guess."""
GUESSED_SPREAD = 0.25
"""The same of a batch's minutes about what the figures say: starting guess."""
MORNINGS = 4000
_LATE_SHARE = 0.9


def service_chances(
    kit: Kitchenry,
    plan: Plan,
    learned: Iterable[SkillRates] = (),
    *,
    mornings: int = MORNINGS,
    seed: int = 1,
    under_way: UnderWay | None = None,
) -> tuple[ServiceChance, ...]:
    """Chances of the services of the planned day, in the order of their opening.

    ``kit`` is of the kitchen that was planned. Rates that nobody has ticked are as uncertain as
    guesses are (``GUESSED``). Of a day ``under_way`` what is done is done, what runs goes on from
    there, and services that are over have no chances.
    """
    problem, timetable = plan.workload.problem, plan.solution.timetable
    network = network_of(problem, timetable, under_way)
    known = _Known.of(learned)
    of_keys: dict[Key, float] = {}
    doubts = [_doubt(kit, plan, network, at, known, of_keys) for at in range(len(network.nodes))]
    ends = simulate(network, doubts, of_keys, mornings=mornings, seed=seed)
    found: list[ServiceChance] = []
    for demand in sorted(plan.demands, key=lambda one: one.doors):
        if demand.date != plan.date or any(demand.service == one.service for one in found):
            continue
        if under_way is not None and demand.until <= under_way.now:
            continue
        due = min(d.due for d in plan.demands if d.service == demand.service)
        lots = [lot for lot in plan.workload.lots if _is_for(lot, demand.service)]
        made = [lot for lot in lots if all(task.task in network.place for task in lot.tasks)]
        if not made:
            continue
        ready = np.array([_ready(lot, network, ends) for lot in made])
        last = ready.max(axis=0)
        # A lot that is planned to the minute is not late by a rounding.
        chance = float((last <= due + 0.5).mean())
        latest = np.bincount(ready.argmax(axis=0), minlength=len(made)).argmax()
        found.append(
            ServiceChance(
                service=demand.service,
                name=demand.service_name,
                due=due,
                chance=chance,
                late_at_worst=max(0.0, float(np.quantile(last, _LATE_SHARE)) - due),
                learned=_learned_share(made, network, doubts, known),
                last=kit.catalog.name(made[int(latest)].component),
                short=len(made) < len(lots),
                since=None if under_way is None else under_way.now,
            )
        )
    return tuple(found)


def _is_for(lot: Lot, service: str) -> bool:
    return any(name == service for name, _, _ in lot.dishes)


def _ready(lot: Lot, network: Network, ends: Floats) -> Floats:
    """When a lot is done, what it does by itself included."""
    finish = [task for task in lot.tasks if task.part is Part.FINISH]
    if finish:
        taken_out: Floats = ends[network.place[finish[-1].task]]
        return taken_out
    work = next(task for task in lot.tasks if task.part is Part.WORK)
    done: Floats = ends[network.place[work.task]] + lot.unattended
    return done


@dataclass(frozen=True)
class _Known:
    figures: Mapping[Key, Learned]
    spreads: Mapping[str, float]

    @classmethod
    def of(cls, learned: Iterable[SkillRates]) -> "_Known":
        skills = tuple(learned)
        return cls(
            {figure.key: figure for skill in skills for figure in skill.figures},
            {skill.skill: skill.spread for skill in skills},
        )


def _doubt(
    kit: Kitchenry, plan: Plan, network: Network, at: int, known: _Known, of_keys: dict[Key, float]
) -> Doubt:
    node = network.nodes[at]
    lot = plan.workload.lots[plan.workload.problem.tasks[node.task].lot]
    figures = step_figures(kit, kit.catalog.components[lot.component], lot.step)
    operation = figures.operation
    spread = known.spreads.get(operation.skill, GUESSED_SPREAD)
    cook = slowness_figure(kit.catalog, plan.workload.cooks[node.worker], operation.skill)
    is_work = any(t.task == node.task and t.part is Part.WORK for t in lot.tasks)
    ratio = set_up_ratio = 1.0
    keys = []
    for book in (figures.rate if is_work else None, cook):
        if book is not None:
            keys.append(book.key)
            ratio *= _of_book(book.key, book.value, spread, known, of_keys)
    set_up = set_up_figure(operation)
    if set_up is not None:
        set_up_ratio = _of_book(set_up.key, set_up.value, spread, known, of_keys)
    if node.begun is not None and node.work != _planned(plan, node):
        ratio = 1.0  # Somebody has said how long it takes.
    return Doubt(tuple(keys), spread, ratio, None if set_up is None else set_up.key, set_up_ratio)


def _planned(plan: Plan, node: Node) -> int:
    return plan.workload.problem.tasks[node.task].minutes[node.worker]


def _of_book(
    key: Key, planned: float, spread: float, known: _Known, of_keys: dict[Key, float]
) -> float:
    """What a figure comes to on average / what was planned with; its doubt is noted."""
    figure = known.figures.get(key)
    if figure is None:
        of_keys[key] = GUESSED[key.kind]
        return 1.0
    of_keys[key] = figure.doubt
    return planned_value(figure, spread, Use()) / planned


def _learned_share(lots: list[Lot], network: Network, doubts: list[Doubt], known: _Known) -> float:
    total = learned = 0
    for lot in lots:
        for task in lot.tasks:
            at = network.place[task.task]
            total += network.nodes[at].work
            if any(k.kind is Kind.RATE and k in known.figures for k in doubts[at].keys):
                learned += network.nodes[at].work
    return learned / total if total else 0.0
