"""Whether a plan's quantities, lots and minutes add up, decided without the code that made them."""

from planner.check.balance import check_balance
from planner.check.cooling import check_cooling
from planner.check.facts import Facts
from planner.check.links import check_links
from planner.check.minutes import check_minutes
from planner.check.pulls import check_pulls
from planner.check.vessels import check_vessels
from planner.check.violation import Violation
from planner.check.wants import check_wants
from planner.kitchen.document import Kitchen
from planner.plan import Plan


def check_quantities(kitchen: Kitchen, plan: Plan) -> tuple[Violation, ...]:
    """Return every rule that the quantities of ``plan`` break; empty means that they add up.

    From portions to wants, steps, lots, pulls and minutes, each link is worked out anew from the
    kitchen file. Weights may differ by half a gram, or a millionth where that is more.
    """
    facts = Facts(kitchen)
    return (
        *check_wants(facts, plan),
        *check_balance(facts, plan),
        *check_pulls(facts, plan),
        *check_minutes(facts, plan),
        *check_vessels(facts, plan),
        *check_links(facts, plan),
        *check_cooling(facts, plan),
    )
