"""From ticks of a released sheet to batches to learn from, and to a plan that knows better."""

import math
from dataclasses import replace

import numpy as np
import pytest

from planner.floor.review import BatchReview, batch_reviews
from planner.floor.state import floor_of
from planner.floor.ticks import Act, Tick
from planner.kitchen.document import Kitchen
from planner.kitchen.work import Per
from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan
from planner.quantities.compute import kitchenry
from planner.rates.apply import with_rates
from planner.rates.chances import service_chances
from planner.rates.fit import learn_skill
from planner.rates.ticked import Gathering, LotWork
from planner.rates.types import Key, Kind
from planner.sheet.build import build_sheet
from planner.sheet.types import KitchenSheet
from tests.kitchens.bench import DATE, bench, cook, cut_from, dish, food, read, work

QUICK = PlanOptions(deterministic_limit=0.2, workers=1, remedies=False)


def kitchen() -> Kitchen:
    return read(
        bench(
            rules={"lot_minutes": 8},  # so that batches have several lots
            ingredients=[food("onion"), food("carrot"), food("leek")],
            operations=[
                work("peel", set_up_minutes=2, minutes_per=5),
                work("dice", set_up_minutes=3),
            ],
            components=[
                cut_from(name, f"{name}_dice", "peel", "dice")
                for name in ("onion", "carrot", "leek")
            ],
            dishes=[
                dish("soup", {"onion_dice": "150 g", "carrot_dice": "250 g", "leek_dice": "80 g"})
            ],
            cooks=[cook("ana"), cook("ben", skills=[{"skill": "hands", "pace": 0.9}])],
        )
    )


@pytest.fixture(scope="module")
def plan() -> Plan:
    return plan_morning(kitchen(), DATE, QUICK)


@pytest.fixture(scope="module")
def sheet(plan: Plan) -> KitchenSheet:
    return build_sheet(kitchen(), plan)


def lots_of(plan: Plan) -> dict[str, LotWork]:
    return {lot.id: LotWork(lot.component, lot.step, lot.grams_in) for lot in plan.workload.lots}


def reviews(sheet: KitchenSheet, times: float, dice: np.random.Generator) -> list[BatchReview]:
    """Every batch ticked: its set-up and hands-on minutes ``times`` over, more or less."""
    ticks = []
    for one in sheet.cooks:
        at = 480.0
        for batch in one.batches:
            tasks = tuple(task.id for task in batch.tasks)
            took = (batch.set_up + times * batch.hands_on) * math.exp(dice.normal(0, 0.15))
            key = f"{batch.cook}{batch.number}"
            ticks.append(Tick(key, Act.BEGUN, at, batch.cook, tasks))
            ticks.append(Tick(f"{key}.", Act.DONE, at + took, batch.cook, tasks))
            at += took + 2
    return list(batch_reviews(sheet, floor_of(ticks)))


def test_ticked_mornings_teach_the_rates_that_they_were_worked_at(
    plan: Plan, sheet: KitchenSheet
) -> None:
    kit, dice = kitchenry(kitchen(), DATE), np.random.default_rng(2)
    gathering = Gathering()
    for _ in range(25):
        gathering.add(kit, lots_of(plan), reviews(sheet, 1.6, dice))
    ticked = gathering.ticked()
    assert ticked.left_out == ()
    skill = learn_skill(ticked.by_skill["hands"], ticked.books)
    changed, _ = with_rates(kitchen(), [skill])
    again = plan_morning(changed, DATE, QUICK)
    hands, set_ups = (
        sum(getattr(cook, kind) for cook in plan.labor.cooks) for kind in ("hands_on", "set_up")
    )
    # Of one quantity each day set-up and rate cannot be told apart, and their sum can.
    assert again.labor.total == pytest.approx(set_ups + 1.6 * hands, rel=0.08)
    assert again.labor.total > 1.2 * plan.labor.total


def test_a_batch_knows_its_figures_and_units(plan: Plan, sheet: KitchenSheet) -> None:
    gathering = Gathering()
    gathering.add(
        kitchenry(kitchen(), DATE), lots_of(plan), reviews(sheet, 1.0, np.random.default_rng(1))
    )
    found = gathering.ticked().by_skill["hands"]
    peeled = [o for o in found if o.rate == Key(Kind.RATE, operation="peel", food="carrot")]
    assert sum(one.units for one in peeled) == pytest.approx(2.5)  # kilos: ten covers of 250 g
    assert all(one.set_up == Key(Kind.SET_UP, operation="peel") for one in peeled)


def test_batches_ticked_together_are_asked_about_and_not_learned_from(
    plan: Plan, sheet: KitchenSheet
) -> None:
    own = reviews(sheet, 1.0, np.random.default_rng(1))
    first, second = (one for one in own[:2])
    assert first.batch.cook == second.batch.cook
    at_once = [replace(first, done=700.0), replace(second, begun=699.9, done=700.2), *own[2:]]
    gathering = Gathering()
    gathering.add(kitchenry(kitchen(), DATE), lots_of(plan), at_once)
    left_out = gathering.ticked().left_out
    assert [one.source for one in left_out] == [f"{DATE} {first.batch.cook} {n}" for n in (1, 2)]
    assert {one.why for one in left_out} == {
        "it was ticked together with other batches of this cook"
    }


def test_what_was_not_timed_or_is_no_more_in_the_file_says_so(
    plan: Plan, sheet: KitchenSheet
) -> None:
    own = reviews(sheet, 1.0, np.random.default_rng(1))
    gathering = Gathering()
    kit = kitchenry(kitchen(), DATE)
    gathering.add(kit, lots_of(plan), [replace(own[0], took=None)])
    gathering.add(kit, {}, own[1:2])
    assert [one.why for one in gathering.ticked().left_out] == [
        "its begin or its end was not ticked",
        "the kitchen file has no such food or step any more",
    ]


def test_rates_of_another_unit_are_not_mixed_with_those_of_today(
    plan: Plan, sheet: KitchenSheet
) -> None:
    """Minutes a kilo where the file counts by the piece by now would make a plan of hours."""
    gathering = Gathering(per={"peel": Per.EACH, "dice": Per.KG})
    gathering.add(
        kitchenry(kitchen(), DATE), lots_of(plan), reviews(sheet, 1.0, np.random.default_rng(1))
    )
    ticked = gathering.ticked()
    rates = {one.rate.operation for one in ticked.by_skill["hands"] if one.rate}
    assert rates == {"dice"}
    assert {one.why for one in ticked.left_out} == {
        "the kitchen file counts this work by another unit by now"
    }


def test_what_went_wrong_teaches_no_quicker_rate(plan: Plan, sheet: KitchenSheet) -> None:
    """Half the food was fit to use and took half the time: the cook was not twice as quick."""
    own = reviews(sheet, 1.0, np.random.default_rng(1))
    whole = own[0].planned + own[0].batch.set_up
    gathering = Gathering()
    for took in (0.5 * whole, 1.5 * whole):
        wrong = replace(own[0], took=took, problems=("Food is not fit to use",))
        gathering.add(kitchenry(kitchen(), DATE), lots_of(plan), [wrong])
    ticked = gathering.ticked()
    assert [one.minutes for one in ticked.by_skill["hands"]] == [1.5 * whole]
    assert [one.why for one in ticked.left_out] == [
        "something was wrong with it, and it was quick: perhaps less was made"
    ]


def test_a_kitchen_that_ticks_at_the_first_cut_keeps_its_set_ups(
    plan: Plan, sheet: KitchenSheet
) -> None:
    gathering = Gathering()
    own = reviews(sheet, 1.0, np.random.default_rng(1))
    gathering.add(kitchenry(kitchen(), DATE), lots_of(plan), own, set_up_ticked=False)
    assert all(one.set_up is None for one in gathering.ticked().by_skill["hands"])


def test_a_service_is_surer_the_later_it_opens_and_the_quicker_the_work(
    plan: Plan, sheet: KitchenSheet
) -> None:
    kit = kitchenry(kitchen(), DATE)
    (easy,) = service_chances(kit, plan, mornings=500)
    assert (easy.service, easy.chance, easy.short) == ("dinner", 1.0, False)
    end = max(item.end for item in plan.solution.timetable.assignments)
    tight = replace(plan, demands=tuple(replace(one, due=end) for one in plan.demands))
    (risky,) = service_chances(kit, tight, mornings=2000)
    assert 0.2 < risky.chance < 0.75
    assert risky.late_at_worst > 0
    gathering, dice = Gathering(), np.random.default_rng(2)
    for _ in range(10):
        gathering.add(kit, lots_of(plan), reviews(sheet, 0.7, dice))
    ticked = gathering.ticked()
    skill = learn_skill(ticked.by_skill["hands"], ticked.books)
    (known,) = service_chances(kit, tight, [skill], mornings=2000)
    assert known.chance > risky.chance + 0.2
    assert known.learned == 1.0


def test_ticks_out_of_order_and_clocks_that_are_wrong_teach_nothing(
    plan: Plan, sheet: KitchenSheet
) -> None:
    """*Done* before *Start* is left out and said; a clock five hours off is told from the rest."""
    kit, dice = kitchenry(kitchen(), DATE), np.random.default_rng(4)
    honest, wrong = Gathering(), Gathering()
    for day in range(20):
        days = reviews(sheet, 1.0, dice)
        honest.add(kit, lots_of(plan), days)
        first, second, *others = days
        if day == 10:
            tasks = tuple(task.id for task in first.batch.tasks)
            ticks = [
                Tick("done-first", Act.DONE, 480.0, first.batch.cook, tasks),
                Tick("begun-later", Act.BEGUN, 500.0, first.batch.cook, tasks),
            ]
            turned = batch_reviews(sheet, floor_of(ticks))
            first = next(one for one in turned if one.batch.number == first.batch.number)
            second = replace(second, took=(second.took or 0.0) + 300)
        wrong.add(kit, lots_of(plan), [first, second, *others])
    found = wrong.ticked()
    assert [one.why for one in found.left_out] == ["its begin or its end was not ticked"]
    skills = [learn_skill(one.by_skill["hands"], one.books) for one in (honest.ticked(), found)]
    assert max(abs(one.observation.minutes - one.usual) for one in skills[1].doubtful) > 250
    values = [{figure.key: figure.value for figure in skill.figures} for skill in skills]
    assert values[1] == pytest.approx(values[0], rel=0.05)
