"""A plan with yields of the kitchen's own, and what its cooks' scales then teach."""

import datetime as dt
import json
from functools import cache

import pytest

from planner.floor.state import Floor, floor_of
from planner.floor.ticks import Act, Tick, Weighed, Weight
from planner.kitchen.base import OwnYield
from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.kitchen.reading import read_kitchen
from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan
from planner.quantities.types import Trace
from planner.sheet.batch_types import SheetBatch
from planner.sheet.build import build_sheet
from planner.sheet.types import KitchenSheet
from planner.why import explained
from planner.yields.asking import QuestionKind
from planner.yields.edit import with_own_yield
from planner.yields.from_floor import FloorTest, floor_tests
from planner.yields.keys import YieldKey, yields_of
from seed_data import small_bytes

_DAY = dt.date(2026, 11, 25)
_PEEL = YieldKey("onion", "peel")
_CARROT = YieldKey("carrot", "peel")
"""Nothing of its trim stands in for it."""


@cache
def _planned(own: bool, level: float = 0.5) -> tuple[Kitchen, Plan, KitchenSheet]:
    figure = OwnYield(fraction=0.8, spread=0.02, tests=12, decided=_DAY)
    file = json.loads(with_own_yield(small_bytes(), _CARROT, figure if own else None).data)
    file["rules"]["pull_level"] = level
    kitchen = read_kitchen(json.dumps(file).encode())
    plan = plan_morning(kitchen, _DAY, PlanOptions(deterministic_limit=0.05, workers=1))
    return kitchen, plan, build_sheet(kitchen, plan)


def _pulled(plan: Plan) -> float:
    return next(line.need.grams for line in plan.quantities.pulls if line.ingredient == "carrot")


def _texts(trace: Trace) -> list[str]:
    return [*trace.sources, *(text for child in trace.children for text in _texts(child))]


def test_the_plan_pulls_by_the_kitchens_own_yield() -> None:
    usual, own, sure = (_pulled(_planned(*how)[1]) for how in ((False,), (True,), (True, 0.9)))
    assert own == pytest.approx(usual * 0.89 / 0.8)
    assert sure == pytest.approx(usual * 0.89 / (0.8 - 1.28155 * 0.02), rel=1e-5)


def test_the_sheet_and_the_reasons_say_so() -> None:
    kitchen, plan, sheet = _planned(True)
    (figure,) = _batch(sheet, food="carrot").yields
    assert (figure.usual, figure.own, figure.used, figure.tests) == (0.89, 0.8, 0.8, 12)
    said = [text for trace in explained(kitchen, plan).values() for text in _texts(trace)]
    assert "usual 89 %, yours 80 % (12 tests)" in said
    assert _batch(_planned(False)[2], food="carrot").yields == ()


def _batch(sheet: KitchenSheet, operation: str = "peel", food: str = "onion") -> SheetBatch:
    return next(
        batch
        for cook in sheet.cooks
        for batch in cook.batches
        if batch.operation == operation and food in batch.food_name.lower()
    )


def _tick(batch: SheetBatch, number: int, weight: Weight | None, at: float = 500.0) -> Tick:
    tasks = tuple(task.id for task in batch.tasks)
    act = Act.DONE if weight is None else Act.WEIGHED
    return Tick(f"key-{number:05d}", act, at + number, batch.cook, tasks, weight=weight)


def _loads(batch: SheetBatch, *loads: tuple[Weighed, float], done: bool = True) -> list[Tick]:
    ticks = [
        _tick(batch, number * 5, Weight(kind, grams + 300, 300))
        for number, (kind, grams) in enumerate(loads)
    ]
    return [*ticks, _tick(batch, 99, None)] if done else ticks


def _found(floor: Floor, *, over: bool = False) -> tuple[FloorTest, ...]:
    kitchen, _, sheet = _planned(False)
    return floor_tests(Catalog(kitchen), [sheet], floor, over=over)


_GROSS, _USABLE, _TRIM = Weighed.GROSS, Weighed.USABLE, Weighed.TRIM


def _share(batch: SheetBatch, share: float) -> float:
    return batch.grams_in * share


def test_loads_of_a_batch_are_one_test() -> None:
    batch = _batch(_planned(False)[2])
    loads = [
        (_GROSS, _share(batch, 0.5)),
        (_GROSS, _share(batch, 0.4)),
        (_USABLE, _share(batch, 0.76)),
    ]
    (found,) = _found(floor_of(_loads(batch, *loads)))
    assert found.of == _PEEL
    assert found.taken.load.fraction == pytest.approx(0.76 / 0.9)
    assert found.taken.date == _DAY
    assert not found.taken.asked


def test_the_order_of_ticks_does_not_matter() -> None:
    batch = _batch(_planned(False)[2])
    ticks = _loads(batch, (_USABLE, _share(batch, 0.86)), (_GROSS, _share(batch, 1.0)))
    assert _found(floor_of(ticks)) == _found(floor_of(reversed(ticks)))
    (found,) = _found(floor_of(ticks))
    assert found.taken.load.fraction == pytest.approx(0.86)


def test_trim_alone_is_enough_where_nothing_else_goes() -> None:
    batch = _batch(_planned(False)[2])
    (found,) = _found(floor_of(_loads(batch, (_GROSS, 2000.0), (_TRIM, 260.0))))
    assert (found.usable, found.taken.load.fraction) == (None, pytest.approx(0.87))


def test_trim_of_which_only_some_was_weighed_makes_no_good_yield() -> None:
    """One bowl of three on the scale would say 96 % of onions that are usual at 88 %."""
    batch = _batch(_planned(False)[2])
    for gross, trim, asked in (
        (2000.0, 80.0, True),
        (2000.0, 170.0, False),
        (2000.0, 400.0, False),
        (600.0, 260.0, True),  # trim of all, and a part of what went in
    ):
        (found,) = _found(floor_of(_loads(batch, (_GROSS, gross), (_TRIM, trim))))
        kinds = [question.kind for question in found.taken.asked]
        assert (QuestionKind.PARTLY in kinds) is asked, (gross, trim)


def test_what_is_not_done_waits_until_the_day_is_over() -> None:
    batch = _batch(_planned(False)[2])
    ticks = _loads(batch, (_GROSS, 2000.0), (_USABLE, 1700.0), done=False)
    assert _found(floor_of(ticks)) == ()
    assert len(_found(floor_of(ticks), over=True)) == 1


def test_a_weight_that_is_taken_back_does_not_count() -> None:
    batch = _batch(_planned(False)[2])
    ticks = _loads(batch, (_GROSS, 2000.0), (_USABLE, 1700.0), (_USABLE, 900.0))
    back = Tick("key-back-1", Act.TAKEN_BACK, 600.0, batch.cook, takes_back="key-00010")
    (found,) = _found(floor_of([*ticks, back]))
    assert found.usable == pytest.approx(1700)


@pytest.mark.parametrize(
    ("gross", "usable", "trim", "kind"),
    [
        (1.0, 0.86 / 2.2046, None, QuestionKind.UNIT),  # lb for kg
        (1.0, 0.86 / 28.3495, None, QuestionKind.UNIT),  # oz for g
        (1.0, 0.86 * 2.2046, None, QuestionKind.UNIT),
        (1.0, 0.70, 0.02, QuestionKind.BALANCE),
        (1.0, 1.04, None, QuestionKind.BALANCE),
        (0.5, 0.86, None, QuestionKind.PARTLY),
    ],
)
def test_what_does_not_fit_is_asked(
    gross: float, usable: float, trim: float | None, kind: QuestionKind
) -> None:
    batch = _batch(_planned(False)[2])
    loads = [(_GROSS, _share(batch, gross)), (_USABLE, _share(batch, usable))]
    loads += [(_TRIM, _share(batch, trim))] if trim else []
    (found,) = _found(floor_of(_loads(batch, *loads)))
    assert kind in [question.kind for question in found.taken.asked]


@pytest.mark.parametrize("factor", [2.2046, 1 / 2.2046, 1 / 28.3495, 1 / 1000])
def test_trim_alone_in_another_unit_is_asked(factor: float) -> None:
    """The yield hardly tells: a few grams of trim in place of ounces make it 99 %."""
    batch = _batch(_planned(False)[2])
    (usual,) = (one for one in _planned(False)[0].operations if one.id == "peel")
    off = 1 - next(one.fraction for one in usual.yields if one.food == "onion")
    loads = [(_GROSS, 2000.0), (_TRIM, 2000.0 * off * factor)]
    (found,) = _found(floor_of(_loads(batch, *loads)))
    assert QuestionKind.UNIT in [question.kind for question in found.taken.asked]


def test_kinds_of_trim_are_kept_apart() -> None:
    batch = _batch(_planned(False)[2])
    (kind, _name), *_others = next(
        one.kinds for key, one in yields_of(Catalog(_planned(False)[0])).items() if key == _PEEL
    )
    tasks = tuple(task.id for task in batch.tasks)
    kept = [Weight(_TRIM, 90.0, item=kind), Weight(_TRIM, 60.0, item=kind), Weight(_TRIM, 50.0)]
    ticks = _loads(batch, (_GROSS, 2000.0), (_USABLE, 1800.0)) + [
        Tick(f"trim-{number}", Act.WEIGHED, 520.0 + 5 * number, batch.cook, tasks, weight=weight)
        for number, weight in enumerate(kept)
    ]
    (found,) = _found(floor_of(ticks))
    assert found.taken.trim == ((kind, 150.0),)
    assert found.taken.trim_whole
    (part,) = _found(floor_of(ticks[:-1]))
    assert not part.taken.trim_whole, "a quarter of what was taken off was not weighed"


def test_a_load_that_is_told_twice_is_asked() -> None:
    batch = _batch(_planned(False)[2])
    again = Tick(
        "another-phone", Act.WEIGHED, 501.0, batch.cook, (batch.tasks[0].id,),
        weight=Weight(_GROSS, 2300.0, 300.0),
    )  # fmt: skip
    ticks = _loads(batch, (_GROSS, 2000.0), (_USABLE, 1700.0))
    (found,) = _found(floor_of([*ticks, again]))
    assert QuestionKind.TWICE in [question.kind for question in found.taken.asked]


def test_a_batch_without_weights_or_with_half_of_them_is_no_test() -> None:
    batch = _batch(_planned(False)[2])
    assert _found(floor_of(_loads(batch, (_USABLE, 1700.0)))) == ()
    assert _found(floor_of(_loads(batch, (_GROSS, 1700.0)))) == ()
    unknown = Tick("other-key", Act.WEIGHED, 1.0, "x", ("no-task",), weight=Weight(_GROSS, 5.0))
    assert _found(floor_of([unknown])) == ()
