"""A plan of the tiny kitchen made by hand, every number of it checkable on paper.

Ben peels 10:14, dices 10:28; Ana simmers the stock from 10:50, roasts thighs meanwhile, takes both
out after 14:00. The food it is about is in ``plan_food``.
"""

from planner.kitchen.document import Kitchen
from planner.lots.types import Workload
from planner.plan import CookMinutes, Labor, Plan
from planner.schedule.problem import (
    Changeovers,
    Family,
    Hold,
    Hygiene,
    Job,
    Problem,
    Promise,
    Resource,
    Rest,
    Serving,
    Task,
    Wait,
    Worker,
)
from planner.schedule.timetable import (
    Assignment,
    Bound,
    Lead,
    Progress,
    Score,
    Solution,
    Status,
    Term,
    Timetable,
)
from tests.kitchens.plan_food import CLOSE, DATE, DUE, PLATES, SOUPS, demands, lots, quantities
from tests.kitchens.tiny import tiny_kitchen

ANA, BEN = 0, 1


def planned_kitchen() -> Kitchen:
    """The tiny kitchen with diced onion left over from yesterday and containers to label."""
    document = tiny_kitchen()
    document["units"].append({"name": "sixth pan", "equals": "1.6 l"})
    document["prepared"].append(
        {
            "item": "diced_onion",
            "amount": "60 g",
            "made": "2025-03-03",
            "use_by": "2025-03-04",
        }
    )
    for component in document["components"]:
        if component["id"] == "diced_onion":
            component["container"] = "sixth pan"
            component["density"] = {"g_per_ml": 0.5}
        if component["id"] == "stock":
            component["container"] = "l"
    return Kitchen.model_validate(document)


def tiny_plan() -> Plan:
    """Return the plan; it keeps every rule of the schedule, and nothing in it is short or late."""
    workload = Workload(lots=lots(), problem=_problem(), cooks=("ana", "ben"))
    timetable = Timetable(_assignments())
    labor = _labor(timetable)
    score = Score(0, 0, labor.total, 0, 855 - 480)
    return Plan(
        kitchen="Tiny kitchen",
        date=DATE,
        demands=demands(),
        quantities=quantities(),
        workload=workload,
        solution=Solution(
            timetable=timetable,
            score=score,
            status=Status.FEASIBLE,
            bounds=(
                Bound(Term.SHORT, 0, 0, "nothing is short"),
                Bound(Term.TARDINESS, 0, 0, "nothing is late"),
                Bound(Term.LABOR, score.labor, score.labor - 4, "least minutes of every task"),
                Bound(Term.FRESHNESS, 0, 0, "nothing waits"),
                Bound(Term.FINISH, score.finish, 300, "longest chain"),
            ),
            history=(Progress(0.1, score, "construction"),),
            seconds=0.2,
            deterministic_time=0.05,
            seed=1,
        ),
        labor=labor,
        troubles=(),
        remedies=(),
    )


def _problem() -> Problem:
    raw, clean = Hygiene(raw_animal="poultry"), Hygiene()
    return Problem(
        start=480,
        horizon=CLOSE,
        workers=(
            Worker("ana", 480, 960, 1020, ((480, 490),), 20.0, rests=(Rest(30, 720, 720),)),
            Worker("ben", 600, 1080, 1140, ((600, 610), (1020, 1080)), 18.0),
        ),
        resources=(
            Resource("station:board", 2, contact=True),
            Resource("station:stove", 1),
            Resource("equipment:pot", 1),
            Resource("equipment:tray", 2),
        ),
        families=(
            Family("peel", "onion", "board", clean, 4),
            Family("dice", "onion/medium_dice", "board", clean, 3),
            Family("simmer", "stock", "stove", raw, 5),
            Family("simmer:finish", "stock", "stove", clean, 0),
            Family("roast", "thigh", "stove", raw, 5),
            Family("roast:finish", "thigh", "stove", clean, 0),
        ),
        tasks=(
            Task("peel-onion-1", 0, 0, {ANA: 7, BEN: 9}, 480),
            Task("dice-onion-1", 1, 1, {ANA: 11, BEN: 14}, 480, due=DUE, until=CLOSE),
            Task("dice-onion-2", 2, 1, {ANA: 1, BEN: 1}, 480),
            Task("simmer-stock-1", 3, 2, {ANA: 5}, 480),
            Task("simmer-stock-1:finish", 3, 3, {ANA: 7}, 480, due=DUE, until=CLOSE),
            Task("roast-thigh-1", 4, 4, {ANA: 7}, 480),
            Task("roast-thigh-1:finish", 4, 5, {ANA: 3}, 480, due=DUE, until=CLOSE),
        ),
        jobs=(
            Job("peel-onion-1", (0,), (), _serves("diced_onion", SOUPS, PLATES)),
            Job("dice-onion-1", (1,), (0,), _serves("diced_onion", SOUPS, PLATES)),
            Job("dice-onion-2", (2,), (0,), ()),
            Job("simmer-stock-1", (3, 4), (0, 2), (Serving(0, "stock", 16),)),
            Job("roast-thigh-1", (5, 6), (), (Serving(1, "roast_thigh", PLATES),)),
        ),
        waits=(Wait(0, 1), Wait(0, 2), Wait(0, 3), Wait(2, 3), Wait(3, 4, 180), Wait(5, 6, 35)),
        holds=(
            Hold(0, 0, 0),
            Hold(0, 1, 1),
            Hold(0, 2, 2),
            Hold(1, 3, 3),
            Hold(1, 4, 4),
            Hold(1, 5, 5),
            Hold(1, 6, 6),
            Hold(2, 3, 4),
            Hold(3, 5, 6, units=2),
        ),
        promises=(
            Promise("dinner/onion_soup", SOUPS),
            Promise("dinner/chicken_plate", PLATES),
        ),
        changeovers=Changeovers(1, 2, 3, 1, 5),
    )


def _serves(component: str, soups: int, plates: int) -> tuple[Serving, ...]:
    return Serving(0, component, soups), Serving(1, component, plates)


def _assignments() -> tuple[Assignment, ...]:
    return (
        Assignment(0, BEN, 614, 623, Lead(set_up=4), ((0, 0),)),
        Assignment(1, BEN, 628, 642, Lead(set_up=3, changeover=2), ((1, 0),)),
        Assignment(2, BEN, 642, 643, Lead(), ((2, 0),)),
        Assignment(3, ANA, 650, 655, Lead(set_up=5)),
        Assignment(5, ANA, 807, 814, Lead(set_up=5, changeover=2)),
        Assignment(4, ANA, 840, 847, Lead(changeover=2, hand_wash=1)),
        Assignment(6, ANA, 852, 855, Lead(changeover=2)),
    )


def _labor(timetable: Timetable) -> Labor:
    cooks = (
        _cook_minutes(timetable, ANA, "ana", "Ana", paid=480, breaks=30, on_line=0, wage=20.0),
        _cook_minutes(timetable, BEN, "ben", "Ben", paid=480, breaks=0, on_line=60, wage=18.0),
    )
    total = sum(cook.hands_on + cook.set_up + cook.changeover for cook in cooks)
    return Labor(cooks, total, total + 9, 0, 0)


def _cook_minutes(
    timetable: Timetable,
    worker: int,
    cook: str,
    name: str,
    *,
    paid: int,
    breaks: int,
    on_line: int,
    wage: float,
) -> CookMinutes:
    mine = [one for one in timetable.assignments if one.worker == worker]
    hands_on = sum(one.end - one.start for one in mine)
    set_up = sum(one.lead.set_up for one in mine)
    lead = sum(one.lead.total for one in mine)
    first = min(one.start - one.lead.total for one in mine)
    last = max(one.end for one in mine)
    # Ana's break lies inside her morning; Ben is on the line after he is done.
    inside = breaks if worker == ANA else 0
    return CookMinutes(
        cook=cook,
        name=name,
        hands_on=hands_on,
        set_up=set_up,
        changeover=lead - set_up,
        waiting=last - first - inside - hands_on - lead,
        breaks=breaks,
        on_line=on_line,
        overtime=0,
        paid=paid,
        wages=paid / 60 * wage,
        station_set_up=10,
    )
