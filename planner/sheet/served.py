"""Which part of a dish's portions is served: the plan may leave some of them short."""

from collections import defaultdict
from collections.abc import Mapping

from planner.sheet.view import PlanView


def served_parts(view: PlanView) -> Mapping[tuple[str, str], float]:
    """Part of the portions that is served, from 0 to 1, by (service, dish)."""
    short: dict[tuple[str, str], int] = defaultdict(int)
    for trouble in view.plan.short:
        if trouble.dish:
            short[trouble.service, trouble.dish] += trouble.portions
    return {
        (one.service, one.dish): max(0, one.total - short[one.service, one.dish]) / one.total
        for one in view.plan.demands
        if one.total
    }
