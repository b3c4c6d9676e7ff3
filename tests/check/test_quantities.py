"""The checker passes quantities that add up, and catches each single figure that does not."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from planner.check.quantities import check_quantities
from planner.check.violation import Rule
from planner.lots.types import LotShare
from planner.measures import AsPurchased
from planner.quantities.types import StockUse
from planner.schedule.problem import Hygiene, Wait
from tests.check.changed_plans import (
    DICE,
    DICE_MORE,
    PEEL,
    ROAST,
    ROAST_WORK,
    SIMMER,
    SIMMER_WORK,
    Checked,
    by_id,
    by_item,
    family,
    file,
    good,
    hold,
    job,
    lot,
    lot_by,
    need,
    problem,
    pull,
    steps_of,
    task,
    waits,
)
from tests.kitchens.seeds import planned_seed


def test_the_plan_worked_out_by_hand_adds_up() -> None:
    checked = good()
    assert check_quantities(checked.kitchen, checked.plan) == ()


@pytest.mark.parametrize("name", ["small", "demo"])
def test_plans_of_the_seed_kitchens_add_up(name: str) -> None:
    assert check_quantities(*planned_seed(name)) == ()


def cooled(new: Wait) -> Checked:
    """Onions peeled hot and diced cold, with a longest wait between."""
    checked = waits(without=(0, 1), new=new)
    by_id(checked.file["operations"], "peel").update(cautions=["hot surface"])
    by_id(checked.file["components"], "diced_onion")["route"][1].update(temperature_c=21)
    return checked


def test_hot_food_that_is_cold_in_time_whoever_dices_it_passes() -> None:
    """Twelve kilos a minute: the slower cook needs 14 minutes, so 106 are left."""
    checked = cooled(Wait(0, 1, 0, 106))
    found = [str(v) for v in check_quantities(checked.kitchen, checked.plan)]
    assert not [text for text in found if "dice-onion-1 may end" in text]


# Each entry: what is altered, the one rule that breaks, and words of the message.
MUTATIONS: dict[str, tuple[Callable[[], Checked], Rule, str]] = {
    "more comes out than the yield gives": (
        lambda: file(lambda f: by_id(f["operations"], "dice")["yields"][0].update(fraction=0.95)),
        Rule.BALANCE,
        "dice-onion-1: 1812.5 g at 0.95 give",
    ),
    "shares that do not make the lot": (
        lambda: lot(ROAST, shares=(LotShare("roast_thigh", 3500.0),)),
        Rule.BALANCE,
        "its shares make 3500.0 g, but 3510.0 g come out",
    ),
    "less goes in than is worked on": (
        lambda: lot_by(ROAST, lambda old: {"pulls": (("thigh", old.grams_in - 1),)}),
        Rule.BALANCE,
        "4679.0 g come in, but it works on 4680.0 g",
    ),
    "a recipe without its bones": (
        lambda: lot_by(SIMMER, lambda old: {"pulls": old.pulls[1:]}),
        Rule.BALANCE,
        "1880.0 g of bones come from nowhere (0.470 recipe batches)",
    ),
    "more bones than the recipe takes": (
        lambda: lot_by(SIMMER, lambda old: {"pulls": (*old.pulls, ("bones", 5.0))}),
        Rule.BALANCE,
        "5.0 g of bones are more than it uses",
    ),
    "an input of no use": (
        lambda: lot(ROAST, stock=(("stock", 0.1),)),
        Rule.BALANCE,
        "takes 0.1 g of stock, of no use to it",
    ),
    "a source of no use": (
        lambda: lot_by(SIMMER, lambda old: {"upstream": (*old.upstream, (PEEL, 0.1))}),
        Rule.BALANCE,
        "takes 0.1 g from peel-onion-1, of no use",
    ),
    "more trim than is taken off": (
        lambda: lot_by(PEEL, lambda old: {"trim": (("onion_ends", old.trim[0][1] + 1),)}),
        Rule.BALANCE,
        "of onion_ends are more than its part (0.6)",
    ),
    "more taken than a lot gives": (
        lambda: lot_by(DICE_MORE, lambda old: {"upstream": ((PEEL, old.grams_in + 5),)}),
        Rule.OVERDRAWN,
        "g are taken from peel-onion-1, which gives",
    ),
    "stock that nobody set apart": (
        lambda: need("diced_onion", stock=()),
        Rule.OVERDRAWN,
        "lots use 60.0 g of diced_onion from stock; there are 0.0 g",
    ),
    "stock that is not on hand": (
        lambda: file(lambda f: f["prepared"].pop(0)),
        Rule.OVERDRAWN,
        "2000.0 g of stock are taken from stock; 0.0 g are on hand and in date",
    ),
    "stock past its use-by": (
        lambda: file(lambda f: f["prepared"][0].update(use_by="2025-03-03")),
        Rule.OVERDRAWN,
        "0.0 g are on hand and in date",
    ),
    "bones nobody has": (
        lambda: file(lambda f: f["raw_stock"].pop(2)),
        Rule.OVERDRAWN,
        "bones: lots may take 1880.0 g, but 0.0 g are there",
    ),
    "work before the delivery": (
        lambda: file(lambda f: by_item(f["raw_stock"], "onion").update(amount="5 each")),
        Rule.OVERDRAWN,
        "g before 09:00, but 800.0 g are there",
    ),
    "fewer portions wanted than the dish takes": (
        lambda: file(
            lambda f: by_id(f["dishes"], "chicken_plate")["components"][0].update(amount="136 g")
        ),
        Rule.WANTS,
        "roast_thigh: chicken_plate at dinner takes 3536.0 g, but only 3510.0 g are wanted",
    ),
    "less made than wanted": (
        lambda: need("stock", stock=(StockUse("stock", 1990.0, "2025-03-06"),)),
        Rule.WANTS,
        "stock: 5760.0 g are wanted today, but lots make 3760.0 g and 1990.0 g are in stock",
    ),
    "a step that makes too little for the next": (
        lambda: need(
            "diced_onion",
            steps=(steps_of("diced_onion")[0], replace(steps_of("diced_onion")[1], grams_in=2e3)),
        ),
        Rule.WANTS,
        "step 1 (dice) works on 2000.0 g, but only",
    ),
    "lots that fall short of the step": (
        lambda: need("roast_thigh", steps=(replace(steps_of("roast_thigh")[0], grams_out=3512.0),)),
        Rule.WANTS,
        "lots make 3510.0 g, the step should make 3512.0 g",
    ),
    "a step that nobody needs": (
        lambda: need("roast_thigh", steps=()),
        Rule.WANTS,
        "roast_thigh: lots make 3510.0 g at step 0, which nobody needs",
    ),
    "a need with another yield": (
        lambda: need("roast_thigh", steps=(replace(steps_of("roast_thigh")[0], fraction=0.76),)),
        Rule.BALANCE,
        "the need of roast_thigh says a yield of 0.76, the kitchen 0.75",
    ),
    "fewer pulled than needed": (
        lambda: pull(
            "thigh",
            units=25.0,
            pulled=AsPurchased(4500.0),
            left_over=-180.0,
        ),
        Rule.PULL,
        "thigh: 4500.0 g pulled do not cover 4680.0 g",
    ),
    "half a thigh": (
        lambda: pull(
            "thigh",
            units=26.5,
            pulled=AsPurchased(4770.0),
            left_over=90.0,
        ),
        Rule.PULL,
        "26.5 x each of 180.0 g is not a whole number of units",
    ),
    "a piece too many": (
        lambda: pull(
            "thigh",
            units=27.0,
            pulled=AsPurchased(4860.0),
            left_over=180.0,
        ),
        Rule.PULL,
        "fewer would do",
    ),
    "left-over that is not there": (
        lambda: pull("thigh", left_over=90.0),
        Rule.PULL,
        "90.0 g left over",
    ),
    "a need that lots do not explain": (
        lambda: pull(
            "thigh",
            need=AsPurchased(4670.0),
            wanted_by=(("roast_thigh", 4670.0),),
            left_over=10.0,
        ),
        Rule.PULL,
        "lots take 4680.0 g and dishes 0.0 g, but the need is 4670.0 g",
    ),
    "takers that do not explain the need": (
        lambda: pull("thigh", wanted_by=(("roast_thigh", 4000.0),)),
        Rule.PULL,
        "those who want it make 4000.0 g",
    ),
    "a shortage that is none": (
        lambda: pull("thigh", short=3.0),
        Rule.PULL,
        "short by 3.0 g is said",
    ),
    "an item on no line": (
        lambda: pull("thigh", ingredient="bones"),
        Rule.PULL,
        "lots take 4680.0 g of thigh, which is on no pull line",
    ),
    "book minutes of another rate": (
        lambda: file(lambda f: by_id(f["operations"], "peel").update(minutes_per=3.1)),
        Rule.MINUTES,
        "peel-onion-1, work:",
    ),
    "a take-out that takes longer": (
        lambda: file(lambda f: by_id(f["operations"], "roast").update(finish_minutes=4)),
        Rule.MINUTES,
        "roast-thigh-1, finish: 3.00 book minutes",
    ),
    "a take-out slower than the pace": (
        lambda: task(ROAST_WORK + 1, minutes={0: 9}),
        Rule.MINUTES,
        "roast-thigh-1, finish: 9 min for ana, whose pace asks for 2.50",
    ),
    "minutes that a slow cook cannot keep": (
        lambda: task(0, minutes={0: 7, 1: 6}),
        Rule.MINUTES,
        "peel of onion: 6 min in 1 lots for ben, whose pace asks for 7.7",
    ),
    "minutes far above the pace": (
        lambda: task(0, minutes={0: 9, 1: 9}),
        Rule.MINUTES,
        "peel-onion-1: 9 min for ana",
    ),
    "no minutes at all": (
        lambda: task(2, minutes={0: 0, 1: 1}),
        Rule.MINUTES,
        "dice-onion-2, work: under a minute for ana",
    ),
    "a cook without the skill": (
        lambda: task(ROAST_WORK, minutes={0: 7, 1: 7}),
        Rule.ABLE,
        "ben may do roast-thigh-1, work, without the skill or the station",
    ),
    "a lot above its limit": (
        lambda: file(lambda f: by_id(f["operations"], "dice").update(lot_limit="1.5 kg")),
        Rule.LOT_SIZE,
        "dice-onion-1: 1812 g, but the lot limit is 1.5 kg",
    ),
    "a pot that overflows": (
        lambda: file(lambda f: by_id(f["equipment"], "pot").update(holds="3 l")),
        Rule.LOT_SIZE,
        "5875 g want 2 of pot; a lot has at most 1",
    ),
    "food that swells beyond its vessel": (
        lambda: lot(ROAST, grams_out=20_000.0),
        Rule.LOT_SIZE,
        "roast-thigh-1: 20000 g want",
    ),
    "one tray for two trays of thighs": (
        lambda: hold(8, units=1),
        Rule.LOT_SIZE,
        "4680 g want 2 of tray, 1 are held",
    ),
    "a pot given back while the stock simmers": (
        lambda: hold(7, last=SIMMER_WORK),
        Rule.LOT_SIZE,
        "simmer-stock-1 gives back pot before it is done",
    ),
    "a lot without what it takes from": (
        lambda: job(DICE, needs=()),
        Rule.NEEDS,
        "dice-onion-1 takes from peel-onion-1, but may be made without it",
    ),
    "trim of a lot that may not be made": (
        lambda: problem(
            lambda old: {
                "jobs": (
                    *old.jobs[:SIMMER],
                    replace(old.jobs[SIMMER], needs=(DICE_MORE,)),
                    *old.jobs[SIMMER + 1 :],
                ),
                "waits": tuple(w for w in old.waits if (w.before, w.after) != (0, 3)),
            }
        ),
        Rule.NEEDS,
        "g of onion_ends, but the lots it needs leave 0.0 g",
    ),
    "diced before it is peeled": (
        lambda: waits(without=(0, 1)),
        Rule.WAIT,
        "dice-onion-1 does not wait 0 min for peel-onion-1",
    ),
    "peeled onions that may lie too long": (
        lambda: file(
            lambda f: by_id(f["components"], "diced_onion")["route"][0].update(max_wait_minutes=30)
        ),
        Rule.WAIT,
        "may start more than 30 min after peel-onion-1",
    ),
    "stock off the stove too soon": (
        lambda: waits(without=(3, 4), new=Wait(3, 4, 170)),
        Rule.WAIT,
        "simmer-stock-1 may be taken out before 180 min",
    ),
    "thighs that may burn": (
        lambda: file(lambda f: by_id(f["operations"], "roast").update(finish_within_minutes=5)),
        Rule.WAIT,
        "roast-thigh-1 may be taken out later than 40 min",
    ),
    "another time on the stove than the route's": (
        lambda: lot(SIMMER, unattended=170),
        Rule.WAIT,
        "170 min by itself, the route says 180",
    ),
    "a cook who has not learnt the station": (
        lambda: file(lambda f: f["cooks"][0].update(stations=["board"])),
        Rule.ABLE,
        "without the skill or the station",
    ),
    "a job without a lot": (
        lambda: problem(lambda old: {"jobs": (*old.jobs, old.jobs[-1])}),
        Rule.WHOLE_JOB,
        "jobs to schedule",
    ),
    "a job with other tasks than its lot": (
        lambda: job(ROAST, tasks=(ROAST_WORK,)),
        Rule.WHOLE_JOB,
        "roast-thigh-1: its job has other tasks",
    ),
    "waiting for what is not needed": (
        lambda: waits(without=(0, 1), new=Wait(6, 0)),
        Rule.NEEDS,
        "peel-onion-1 waits for what it does not need",
    ),
    "an allergen that the lot does not name": (
        lambda: file(lambda f: by_id(f["ingredients"], "thigh").update(allergens=["milk"])),
        Rule.HYGIENE,
        "roast-thigh-1 does not name milk",
    ),
    "an allergen that the board is not told of": (
        lambda: file(lambda f: by_id(f["ingredients"], "thigh").update(allergens=["milk"])),
        Rule.HYGIENE,
        "roast-thigh-1, finish leaves milk that no clean is due for",
    ),
    "raw poultry that leaves nothing": (
        lambda: family(4, Hygiene()),
        Rule.HYGIENE,
        "roast-thigh-1 is raw poultry, but leaves nothing on the board",
    ),
    "hot food that may be cold at any time": (
        lambda: file(
            lambda f: (
                by_id(f["operations"], "peel").update(cautions=["hot surface"]),
                by_id(f["components"], "diced_onion")["route"][1].update(temperature_c=21),
            )
        ),
        Rule.COOLING,
        "dice-onion-1 may end any time after peel-onion-1 left its food hot",
    ),
    "hot food that may be cold too late": (
        lambda: cooled(new=Wait(0, 1, 0, 107)),
        Rule.COOLING,
        "dice-onion-1 may end 121 min after peel-onion-1 left its food hot; it must be cold within "
        "120 min",
    ),
    "onions called raw poultry": (
        lambda: family(0, Hygiene(raw_animal="poultry")),
        Rule.HYGIENE,
        "peel-onion-1 is raw of nothing, but leaves poultry",
    ),
}


@pytest.mark.parametrize("name", MUTATIONS)
def test_a_single_change_breaks_its_rule(name: str) -> None:
    change, rule, words = MUTATIONS[name]
    checked = change()
    found = check_quantities(checked.kitchen, checked.plan)
    assert any(each.rule is rule and words in each.text for each in found), [*map(str, found)]


def test_every_rule_of_quantities_has_a_change() -> None:
    """So that a rule added later is not left untested."""
    of_quantities = set(list(Rule)[list(Rule).index(Rule.BALANCE) :])
    assert of_quantities <= {rule for _, rule, _ in MUTATIONS.values()}
