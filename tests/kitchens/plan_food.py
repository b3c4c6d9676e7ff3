"""What the hand-made plan of the tiny kitchen makes: guests, grams, pulls and lots of food.

24 soups and 26 plates, by the recipes of the tiny kitchen. Onion ends and 60 g of yesterday's diced
onion go into the stock.
"""

import datetime as dt
import math

from planner.demand.types import DishDemand
from planner.lots.types import Lot, LotShare, LotTask, Part
from planner.measures import AsPurchased
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


def demands() -> tuple[DishDemand, ...]:
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


def quantities() -> Quantities:
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
            steps=(StepNeed(0, "simmer", STOCK_IN, STOCK_MADE, 0.64, "starting guess"),),
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
        supplies=(Supply(20_000.0, 0, "on hand"),),
        short=0.0,
        wanted_by=((component, need),),
        trace=f"{need:.0f} g AP -> {units} x {pull_unit} of {unit:.0f} g = {units * unit:.0f} g",
    )


def lots() -> tuple[Lot, ...]:
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
