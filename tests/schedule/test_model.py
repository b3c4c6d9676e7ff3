"""The model's levels and weights by themselves."""

from planner.schedule.model import ROUGH_LEVELS, _weights
from planner.schedule.objective import Expressions
from planner.schedule.timetable import TERMS


def test_a_step_of_an_earlier_term_outweighs_all_later_ones_together() -> None:
    most = {term: 3 + place for place, term in enumerate(TERMS)}
    expressions = Expressions(dict.fromkeys(TERMS, 0), most)
    for level in (*ROUGH_LEVELS, TERMS):
        weights = _weights(expressions, level)
        for place, term in enumerate(level):
            later = level[place + 1 :]
            assert weights[term] > sum(weights[other] * most[other] for other in later)
