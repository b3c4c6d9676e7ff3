"""The simulator itself: closed forms, no look ahead, the same draws for every way to plan."""

import datetime as dt
import re
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from planner.morning import plan_around
from planner.quantities.compute import kitchenry
from planner.yields.keys import YieldKey
from tests.bench.learning import season as seasons
from tests.bench.learning.__main__ import ARMS, FLATS
from tests.bench.learning.cooked import cook
from tests.bench.learning.house import COVERS, FIRST_DAY, MIX, house, on
from tests.bench.learning.planned import food_of, morning_of
from tests.bench.learning.report import BOOK, tables
from tests.bench.learning.season import Arm, Season, season
from tests.bench.learning.shelf import Held, Shelf
from tests.bench.learning.told import Slips
from tests.bench.learning.truth import WORLD, Truth, truth_of

STILL = WORLD.none()
LEARNED = Arm("all", yields=True, rates=True, sales=True)
PAGE = Path(__file__).parents[3] / "docs" / "learning.md"


def test_nothing_is_short_or_late_where_the_file_is_true_and_nothing_varies() -> None:
    found = season(Arm("file", flat=0.0), 0, 7, STILL)
    catalog = kitchenry(house(), FIRST_DAY).catalog
    pieces = sum(
        one.weights[0].weight.number for one in catalog.ingredients.values() if one.weights
    )
    kept = 0.0
    for day in found.days:
        assert (day.ran_out, day.away, day.minutes.late) == (0, 0, 0.0)
        # What is too much is at most the last piece of each, and the last portion of each dish.
        assert 0 <= day.pulled + kept - day.eaten <= pieces + kept + 300 * len(MIX)
        assert day.wasted <= pieces + kept + 300 * len(MIX)
        kept = day.kept


def test_what_comes_out_is_what_was_pulled_times_the_true_yields() -> None:
    kitchen, truth = house(), truth_of(house(), 0, STILL)
    peel, roast = YieldKey("potato", "peel"), YieldKey("potato", "roast")
    truth = replace(truth, yields={**truth.yields, peel: 0.7, roast: 0.5})
    kit, _, quantities, workload = food_of(kitchen, FIRST_DAY)
    shelf = Shelf()
    cooked = cook(kit.catalog, truth, 0, workload.lots, quantities.pulls, shelf, FIRST_DAY)
    assert shelf.grams("wedges") == pytest.approx(cooked.pulled["potato"] * 0.7 * 0.5)
    assert shelf.grams("rice_boiled") == pytest.approx(cooked.pulled["rice"] * 2.7)


@pytest.mark.parametrize("arm", [Arm("file"), LEARNED], ids=lambda arm: arm.name)
def test_no_food_is_lost_on_the_way(arm: Arm) -> None:
    kept = 0.0
    for day in season(arm, 3, 9).days:
        assert day.pulled + kept == pytest.approx(day.eaten + day.wasted + day.kept, abs=60)
        kept = day.kept


def test_the_same_seed_gives_the_same_days_and_another_one_others() -> None:
    assert season(LEARNED, 5, 6) == season(LEARNED, 5, 6)
    assert season(LEARNED, 5, 6).days != season(LEARNED, 6, 6).days


def test_what_comes_later_changes_nothing_of_before() -> None:
    assert season(LEARNED, 4, 8).days == season(LEARNED, 4, 11).days[:8]


def test_no_plan_knows_the_guests_or_the_crates_of_its_day(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    known = season(LEARNED, 4, 24)
    orders, yields = Truth.orders, Truth.usual_yield

    def other_orders(self: Truth, day: int, weekday: int) -> tuple[int, tuple[str, ...]]:
        return (30, ("soup_bowl",) * 30) if day == 23 else orders(self, day, weekday)

    def other_yields(self: Truth, day: int, key: YieldKey) -> float:
        return 0.5 if day == 23 else yields(self, day, key)

    monkeypatch.setattr(Truth, "orders", other_orders)
    monkeypatch.setattr(Truth, "usual_yield", other_yields)
    otherwise = season(LEARNED, 4, 24)
    assert otherwise.days[:23] == known.days[:23]
    assert otherwise.days[23].pulled == known.days[23].pulled
    assert otherwise.days[23].wanted == 30


def test_all_ways_meet_the_same_guests(monkeypatch: pytest.MonkeyPatch) -> None:
    met: list[tuple[int, tuple[str, ...]]] = []
    orders = Truth.orders

    def heard(self: Truth, day: int, weekday: int) -> tuple[int, tuple[str, ...]]:
        met.append(orders(self, day, weekday))
        return met[-1]

    monkeypatch.setattr(Truth, "orders", heard)
    for arm in ARMS:
        season(arm, 1, 2)
    first, *others = [met[n : n + 2] for n in range(0, len(met), 2)]
    assert len(others) == len(ARMS) - 1
    assert all(other == first for other in others)


def test_draws_do_not_depend_on_what_was_drawn_before() -> None:
    one, other = truth_of(house(), 7), truth_of(house(), 7)
    key = YieldKey("onion", "peel")
    late = one.load_yield(9, key, 2000, "x")
    other.orders(3, 3)
    assert other.load_yield(9, key, 2000, "x") == late
    assert one.load_yield(9, key, 2000, "y") != late


def test_truth_lies_evenly_about_the_file() -> None:
    key, kitchen = YieldKey("onion", "peel"), house()
    drawn = [truth_of(kitchen, seed) for seed in range(400)]
    off = [truth.yields[key] - 0.9 for truth in drawn]
    assert sum(off) / len(off) == pytest.approx(0.0, abs=0.01)
    guests = [truth.covers[0] / COVERS[0] for truth in drawn]
    assert sum(guests) / len(guests) == pytest.approx(1.0, abs=0.02)


def test_half_of_the_kitchens_get_a_new_crop() -> None:
    changed = [truth_of(house(), seed) for seed in range(10)]
    assert Counter(one.changes is None for one in changed) == {True: 5, False: 5}
    for one in changed:
        if one.changes is not None:
            moved = sum(one.later[key] != value for key, value in one.yields.items())
            assert 1 <= moved <= 3, "one that is at its bound stays there"


def test_a_guest_who_finds_something_missing_takes_nothing() -> None:
    shelf = Shelf([Held(name, 100.0, FIRST_DAY, FIRST_DAY, 2.0) for name in "ab"])
    served, raw = shelf.serve(
        ("both", "both", "one"), {"both": {"a": 60, "b": 40}, "one": {"b": 60}}
    )
    assert served.sold == {"both": 1, "one": 1}
    assert (served.turned_away, served.ran_out, served.out) == (1, {"a"}, {"both"})
    assert raw == 2 * (60 + 40 + 60)
    assert shelf.clear(FIRST_DAY) == 80.0, "40 g of a, of which 2 g were bought for each"
    assert shelf.held == []


def test_what_keeps_is_there_tomorrow() -> None:
    shelf = Shelf([Held("a", 100.0, FIRST_DAY, FIRST_DAY + dt.timedelta(1), 1.0)])
    assert shelf.clear(FIRST_DAY) == 0
    (stock,) = shelf.counted()
    assert (stock.item, stock.amount.number, stock.use_by) == (
        "a",
        100.0,
        FIRST_DAY + dt.timedelta(1),
    )


def test_plans_of_the_bench_pass_the_planner_s_checks() -> None:
    saturday = FIRST_DAY + dt.timedelta(5)
    staffed, plan, early = morning_of(on(house(), saturday), saturday)
    assert early > 0, "a full Saturday does not fit the usual hours"
    plan_around(staffed, saturday, plan.workload, plan.solution)


def test_wrong_weights_are_asked_about() -> None:
    """Ounces typed in as grams are off by a factor: none of them may count."""
    arm = Arm("yields", yields=True)
    units = season(arm, 2, 18, slips=Slips(tare=0.0, unit=0.3)).weights
    assert units.wrong > 15
    assert units.unasked == 0
    none = season(arm, 2, 8, slips=Slips(tare=0.0, unit=0.0)).weights
    assert (none.wrong, none.asked, none.unasked) == (0, 0, 0)
    assert none.tests > 30


def test_the_page_is_in_the_script_s_format() -> None:
    runs = {arm.name: [season(arm, seed, 2) for seed in range(2)] for arm in ARMS}
    flat: dict[float, list[Season]] = {
        share: [season(Arm("flat", flat=share, timed=False), seed, 2) for seed in range(2)]
        for share in FLATS
    }
    page = PAGE.read_text()
    for name, text in tables(runs, flat).items():
        written = re.search(rf"<!-- {name} -->\n(.*?)<!-- end -->", page, re.DOTALL)
        assert written is not None, name
        rows, heads = written[1].splitlines(), text.splitlines()
        assert rows[:2] == heads[:2]
        assert {row.count("|") for row in rows} == {heads[0].count("|")}
    assert BOOK in page
    assert seasons.FLAT == 0.10
