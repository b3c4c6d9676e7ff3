"""From traces to the plan file."""

from planner.kitchen.document import Kitchen
from planner.plan import Plan
from planner.plan_file.traces import PlanTrace
from planner.quantities.types import Trace
from planner.why import explained


def plan_traces(kitchen: Kitchen, plan: Plan) -> dict[str, PlanTrace]:
    """Why each component needed and each ingredient pulled comes to what it does, by id."""
    return {item: _trace(trace) for item, trace in explained(kitchen, plan).items()}


def _trace(trace: Trace) -> PlanTrace:
    return PlanTrace(
        text=trace.text,
        grams=trace.grams,
        sources=trace.sources,
        children=tuple(_trace(child) for child in trace.children),
    )
