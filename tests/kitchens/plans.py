"""A plan of the tiny kitchen made by hand, every number of it checkable on paper.

Ben peels 10:14, dices 10:28; Ana simmers the stock from 10:50, roasts thighs meanwhile, takes both
out after 14:00. Onion ends and 60 g of yesterday's diced onion go into the stock.
"""

import datetime as dt
import math

from planner.demand.types import DishDemand
from planner.kitchen.document import Kitchen
from planner.lots.types import Lot, LotShare, LotTask, Part, Workload
from planner.measures import AsPurchased
from planner.plan import CookMinutes, Labor, Plan
from planner.quantities.types import (
    Alert,
    ComponentNeed,
    Credit,
    InputNeed,
    Making,
    PullLine,
    Quantities,
    Reason,
    Share,
    StepNeed,
    StockUse,
    Supply,
    Want,
)
from planner.schedule.problem import (
    Changeovers,
    Family,
    Hold,
    Hygiene,
    Job,
    Problem,
    Promise,
    Resource,
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
from tests.kitchens.tiny import tiny_kitchen

DATE = dt.date(2025, 3, 4)
DUE, DOORS, CLOSE = 17 * 60, 17 * 60 + 30, 21 * 60 + 30
SOUPS, PLATES = 24, 26
DINNER_ONION = SOUPS * 40.0 + PLATES * 30.0
STOCK_WANTED = SOUPS * 240.0
STOCK_MADE = STOCK_WANTED - 2000.0
RECIPES = STOCK_MADE / 8000.0
STOCK_IN = RECIPES * 12_500.0
"""Bones, onion and water; what is lost is bones strained off and steam."""
ONION_IN_STOCK = RECIPES * 500.0
PREPARED_ONION = 60.0
PEELED, DICED, ENDS = 0.9, 0.96, 0.1 * 0.6
ONION_AP = (DINNER_ONION + ONION_IN_STOCK - PREPARED_ONION) / (PEELED * DICED + ENDS)
"""Every gram pulled gives its diced part and its ends: both stand for onion wanted."""
ONION_ENDS = ONION_AP * ENDS
STOCK_ONION = ONION_IN_STOCK - PREPARED_ONION - ONION_ENDS
THIGHS_AP, THIGHS = PLATES * 180.0, PLATES * 135.0
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
    workload = Workload(lots=_lots(), problem=_problem(), cooks=("ana", "ben"))
    timetable = Timetable(_assignments())
    labor = _labor(timetable)
    score = Score(0, 0, labor.total, 0, 855 - 480)
    return Plan(
        kitchen="Tiny kitchen",
        date=DATE,
        demands=_demands(),
        quantities=_quantities(),
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


def _demands() -> tuple[DishDemand, ...]:
    return tuple(
        DishDemand(
            service="dinner",
            service_name="Dinner",
            dish=dish,
            dish_name=name,
            date=DATE,
            doors=DOORS,
            due=DUE,
            until=CLOSE,
            expected=expected,
            buffer=total - int(expected),
            total=total,
            weight=1,
            lateness_weight=1,
            reason=f"40 covers x {expected / 40:g} = {expected:g} expected; 90 % level -> {total}",
        )
        for dish, name, expected, total in (
            ("onion_soup", "Onion soup", 20.0, SOUPS),
            ("chicken_plate", "Chicken plate", 24.0, PLATES),
        )
    )


def _want(dish: str, name: str, portions: int, grams_each: float, expected: float) -> Want:
    grams = portions * grams_each
    return Want(
        reason=Reason.DISH,
        consumer=dish,
        consumer_name=f"{name}, Dinner",
        grams=grams,
        expected=expected * grams_each,
        buffer=grams - expected * grams_each,
        due=DUE,
        until=CLOSE,
        doors=DOORS,
        day=0,
        shares=(Share("dinner", dish, portions, grams),),
    )


def _making(want: Want, grams: float, steps: int, due: int = DUE) -> Making:
    return Making(want, grams, 0, steps, due, CLOSE, finishes=True)


def _quantities() -> Quantities:
    soup_onion = _want("onion_soup", "Onion soup", SOUPS, 40.0, 20.0)
    plate_onion = _want("chicken_plate", "Chicken plate", PLATES, 30.0, 24.0)
    stock_onion = Want(
        reason=Reason.COMPONENT,
        consumer="stock",
        consumer_name="Chicken stock",
        grams=PREPARED_ONION + STOCK_ONION,
        expected=PREPARED_ONION + STOCK_ONION,
        buffer=0.0,
        due=645,
        until=CLOSE,
        doors=DOORS,
        day=0,
    )
    soup_stock = _want("onion_soup", "Onion soup", SOUPS, 240.0, 20.0)
    plate_thigh = _want("chicken_plate", "Chicken plate", PLATES, 135.0, 24.0)
    diced = DINNER_ONION + STOCK_ONION
    needs = (
        ComponentNeed(
            component="diced_onion",
            name="Diced onion",
            wants=(soup_onion, plate_onion, stock_onion),
            stock=(StockUse("diced_onion", PREPARED_ONION, "2025-03-04"),),
            to_make=diced,
            makings=(
                _making(soup_onion, soup_onion.grams, 2),
                _making(plate_onion, plate_onion.grams, 2),
                _making(stock_onion, STOCK_ONION, 2, 645),
            ),
            steps=(
                StepNeed(0, "peel", ONION_AP, ONION_AP * PEELED, PEELED, "starting guess"),
                StepNeed(1, "dice", ONION_AP * PEELED, diced, DICED, "starting guess"),
            ),
            inputs=(InputNeed("onion", ONION_AP),),
        ),
        ComponentNeed(
            component="stock",
            name="Chicken stock",
            wants=(soup_stock,),
            stock=(StockUse("stock", 2000.0, "2025-03-06"),),
            to_make=STOCK_MADE,
            makings=(_making(soup_stock, STOCK_MADE, 1),),
            steps=(StepNeed(0, "simmer", STOCK_IN, STOCK_MADE, 0.64, "measured output"),),
            inputs=(
                InputNeed("bones", RECIPES * 4000.0),
                InputNeed(
                    "diced_onion",
                    PREPARED_ONION + STOCK_ONION,
                    (Credit("onion_ends", "diced_onion", 0, ONION_ENDS),),
                ),
                InputNeed("water", RECIPES * 8000.0),
            ),
        ),
        ComponentNeed(
            component="roast_thigh",
            name="Roast thighs",
            wants=(plate_thigh,),
            stock=(),
            to_make=THIGHS,
            makings=(_making(plate_thigh, THIGHS, 1),),
            steps=(StepNeed(0, "roast", THIGHS_AP, THIGHS, 0.75, "starting guess"),),
            inputs=(InputNeed("thigh", THIGHS_AP),),
        ),
    )
    return Quantities(
        needs=needs,
        pulls=(
            _pull("onion", "Onions", ONION_AP, 160.0, "each", 10_000.0, "bag", 12.0, "diced_onion"),
            _pull("thigh", "Chicken thighs", THIGHS_AP, 180.0, "each", 10_800.0, "case", 70.0,
                  "roast_thigh"),
            _pull("bones", "Chicken bones", RECIPES * 4000.0, 1.0, "g", 10_000.0, "box", 15.0,
                  "stock"),
        ),
        alerts=(Alert("credit", "onion_ends", "Onion ends stand in for onion in the stock."),),
        ahead=("Stock for Wednesday starts tomorrow.",),
        by_component={need.component: need for need in needs},
    )  # fmt: skip


def _pull(
    item: str,
    name: str,
    need: float,
    unit: float,
    pull_unit: str,
    pack: float,
    pack_unit: str,
    cost: float,
    component: str,
) -> PullLine:
    units = math.ceil(need / unit - 1e-9)
    return PullLine(
        ingredient=item,
        name=name,
        need=AsPurchased(need),
        pulled=AsPurchased(units * unit),
        units=float(units),
        pull_unit=pull_unit,
        packs=units * unit / pack,
        pack_unit=pack_unit,
        left_over=units * unit - need,
        cost=cost * units * unit / pack,
        storage="walk-in",
        on_hand=20_000.0,
        supplies=(Supply(need, 0, "on hand"),),
        short=0.0,
        wanted_by=((component, need),),
        trace=f"{need:.0f} g AP -> {units} x {pull_unit} of {unit:.0f} g = {units * unit:.0f} g",
    )


def _lots() -> tuple[Lot, ...]:
    dinner = (("dinner", "onion_soup", SOUPS), ("dinner", "chicken_plate", PLATES))
    peeled = ONION_AP * PEELED
    return (
        Lot(
            index=0, id="peel-onion-1", operation="peel", food="onion", component="diced_onion",
            step=0, cut=None, grams_in=ONION_AP, grams_out=peeled,
            shares=(LotShare("diced_onion", peeled),), tasks=(LotTask(0, Part.WORK, 6.5),),
            unattended=0, due=DUE, until=CLOSE, release=0, finishes=False,
            pulls=(("onion", ONION_AP),), trim=(("onion_ends", ONION_ENDS),), dishes=dinner,
        ),
        Lot(
            index=1, id="dice-onion-1", operation="dice", food="onion", component="diced_onion",
            step=1, cut="medium_dice", grams_in=DINNER_ONION / DICED, grams_out=DINNER_ONION,
            shares=(LotShare("diced_onion", DINNER_ONION),), tasks=(LotTask(1, Part.WORK, 10.9),),
            unattended=0, due=DUE, until=CLOSE, release=0, finishes=True,
            upstream=((0, DINNER_ONION / DICED),), dishes=dinner,
        ),
        Lot(
            index=2, id="dice-onion-2", operation="dice", food="onion", component="diced_onion",
            step=1, cut="medium_dice", grams_in=STOCK_ONION / DICED, grams_out=STOCK_ONION,
            shares=(LotShare("diced_onion", STOCK_ONION),), tasks=(LotTask(2, Part.WORK, 0.3),),
            unattended=0, due=645, until=CLOSE, release=0, finishes=True,
            upstream=((0, STOCK_ONION / DICED),), dishes=(("dinner", "onion_soup", SOUPS),),
        ),
        Lot(
            index=3, id="simmer-stock-1", operation="simmer", food="stock", component="stock",
            step=0, cut=None, grams_in=STOCK_IN, grams_out=STOCK_MADE,
            shares=(LotShare("stock", STOCK_MADE),),
            tasks=(LotTask(3, Part.WORK, 6.0), LotTask(4, Part.FINISH, 8.0)),
            unattended=180, due=DUE, until=CLOSE, release=0, finishes=True,
            upstream=((2, STOCK_ONION),),
            pulls=(("bones", RECIPES * 4000.0), ("water", RECIPES * 8000.0)),
            stock=(("diced_onion", PREPARED_ONION), ("onion_ends", ONION_ENDS)),
            dishes=(("dinner", "onion_soup", 16),),
        ),
        Lot(
            index=4, id="roast-thigh-1", operation="roast", food="thigh", component="roast_thigh",
            step=0, cut=None, grams_in=THIGHS_AP, grams_out=THIGHS,
            shares=(LotShare("roast_thigh", THIGHS),),
            tasks=(LotTask(5, Part.WORK, 7.8), LotTask(6, Part.FINISH, 3.0)),
            unattended=35, due=DUE, until=CLOSE, release=0, finishes=True,
            pulls=(("thigh", THIGHS_AP),), dishes=(("dinner", "chicken_plate", PLATES),),
        ),
    )  # fmt: skip


def _problem() -> Problem:
    raw, clean = Hygiene(raw_animal="poultry"), Hygiene()
    return Problem(
        start=480,
        horizon=CLOSE,
        workers=(
            Worker("ana", 480, 960, 1020, ((480, 490), (720, 750)), 20.0),
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
