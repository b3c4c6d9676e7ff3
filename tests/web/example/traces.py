"""Reasons of quantities: those of the tiny kitchen's plan, and one too long to stand open."""

from planner.quantities.types import Trace
from planner.why import explained
from tests.kitchens.plans import planned_kitchen, tiny_plan

_DISH = "Braised beef, root vegetables, pickled walnuts, Dinner (in 1 day)"


def _deep(levels: int) -> Trace:
    """So many components, each into the next and into two dishes."""
    trace = Trace("25 portions x 247 g: 70 covers x 0.28 = 19.6 expected", 6175.0)
    for level in range(levels, 0, -1):
        wants = tuple(
            Trace(f"{_DISH}, want {level}.{number}: 6.38 kg", 6380.0) for number in (1, 2)
        )
        step = Trace(f"Peel {level}: 1.21 kg, yield 90 %", 1210.0, ("starting guess",))
        trace = Trace(f"Component {level}: make 6.18 kg", 6180.0, (), (trace, *wants, step))
    return trace


TRACES = {**explained(planned_kitchen(), tiny_plan()), "deep": _deep(8)}
