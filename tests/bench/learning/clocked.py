"""A planned morning as it goes: true minutes through the plan's own network. Minutes."""

from collections.abc import Mapping
from dataclasses import dataclass

from planner.lots.types import Part
from planner.plan import Plan
from planner.quantities.kitchenry import Kitchenry
from planner.rates.figures import step_figures
from planner.rates.mornings import Doubt, simulate
from planner.rates.network import network_of
from tests.bench.learning.cooked import Cooked
from tests.bench.learning.truth import Truth


@dataclass(frozen=True, slots=True)
class Clocked:
    """When each task's food was first touched and let go, and its set-up before it, by task."""

    starts: Mapping[int, float]
    ends: Mapping[int, float]
    set_ups: Mapping[int, float]


def clock(book: Kitchenry, truth: Truth, day: int, plan: Plan, cooked: Cooked) -> Clocked:
    """Let the cooks do their sheets from top to bottom.

    ``book`` is the kitchen of the first day: its figures times the truth's factors are the true
    ones, whatever is planned with by now. The order of the plan is kept.
    """
    network = network_of(plan.workload.problem, plan.solution.timetable)
    doubts, works, set_ups = [], [], []
    for node in network.nodes:
        lot = plan.workload.lots[plan.workload.problem.tasks[node.task].lot]
        figures = step_figures(book, book.catalog.components[lot.component], lot.step)
        person = plan.workload.cooks[node.worker]
        slowness = truth.slowness(person, figures.operation.skill)
        luck = truth.batch_factor(day, f"{lot.component} {lot.step}")
        if any(t.task == node.task and t.part is Part.WORK for t in lot.tasks):
            units = cooked.grams_in[lot.index] * figures.units_per_gram + figures.units_per_lot
            minutes = figures.fixed_per_lot
            if figures.rate is not None:
                minutes += units * figures.rate.value * truth.rate_factor(figures.rate.key)
        else:
            minutes = float(node.work)
        works.append(minutes * slowness * luck)
        operation = figures.operation
        true_set_up = operation.set_up_minutes * truth.set_up_factor(operation.id) * luck
        set_ups.append(true_set_up if node.set_up else 0.0)
        doubts.append(
            Doubt(
                keys=(),
                spread=0.0,
                ratio=works[-1] / max(node.work, 1e-9),
                set_up_ratio=true_set_up / max(node.set_up, 1),
            )
        )
    ends = simulate(network, doubts, {}, mornings=1)[:, 0]
    return Clocked(
        {
            node.task: float(ends[at]) - works[at] - node.paused
            for at, node in enumerate(network.nodes)
        },
        {node.task: float(ends[at]) for at, node in enumerate(network.nodes)},
        {node.task: set_ups[at] for at, node in enumerate(network.nodes)},
    )
