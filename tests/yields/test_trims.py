"""Shares of the trim: known ones are found again, all is a whole with the yield, odd ones wait."""

import datetime as dt
import json

import numpy as np
import pytest
from scipy import stats

from planner.kitchen.base import OwnShare, OwnYield
from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.kitchen.errors import KitchenErrors
from planner.kitchen.reading import read_kitchen
from planner.money.food import food_costs, waste_of
from planner.morning import PlanOptions, plan_morning
from planner.quantities.compute import kitchenry, quantities_of
from planner.yields.asking import QuestionKind
from planner.yields.belief import TRIM_BELIEF, Belief
from planner.yields.bench import BenchTest, Part, PartKind, kept_of
from planner.yields.decide import Hold, trim_in_use, trim_proposal_of
from planner.yields.edit import with_own_trim, with_own_yield
from planner.yields.judging import Answer, TakenTest, lesson
from planner.yields.keys import KitchenYield, YieldKey, yields_of
from planner.yields.repeats import Load
from planner.yields.trims import TrimTest, fitted, share_learned
from planner.yields.weighing import Reading
from seed_data import demo_bytes
from tests.kitchens.bench import DATE
from tests.money.test_costs import kitchen

_KITCHENS = 2000
_DAY = dt.date(2026, 11, 25)
_PEEL = YieldKey("onion", "peel")
_TRIM = "onion_trim"


def _known(data: bytes | None = None, key: YieldKey = _PEEL) -> KitchenYield:
    return yields_of(Catalog(read_kitchen(data or demo_bytes())))[key]


def _taken(
    share: float, count: int, *, off: float = 400.0, whole: bool = True, start: int = 0
) -> list[TakenTest]:
    return [
        TakenTest(
            key=f"t{start + number:03d}",
            date=_DAY + dt.timedelta(start + number),
            load=Load(4000, 4000 - off),
            trim=((_TRIM, off * share + number % 3),),
            trim_whole=whole,
        )
        for number in range(count)
    ]


def test_with_all_spreads_known_it_is_the_shrunken_ratio_of_sums() -> None:
    """The conjugate normal posterior, in closed form."""
    known = Belief(kitchen=(0.1,), supplier=(1e-9,), load=((0.05, 1.0),))
    tests = [TrimTest(200, {_TRIM: 150}, True), TrimTest(300, {_TRIM: 200}, True)]
    found = share_learned(0.6, _TRIM, tests, known).kitchen
    precision = 1 / 0.1**2 + 0.5 / 0.05**2
    mean = (0.6 / 0.1**2 + 0.5 / 0.05**2 * 350 / 500) / precision
    assert found.expected == pytest.approx(mean)
    assert found.low == pytest.approx(stats.norm.ppf(0.05, mean, precision**-0.5), abs=1e-6)


def test_intervals_cover_at_their_level_over_two_thousand_kitchens() -> None:
    """Kitchens drawn by the belief itself: 90 % intervals hold the truth in 88 to 92 of 100."""
    rng = np.random.default_rng(17)
    noises = np.array([noise for noise, _ in TRIM_BELIEF.load])
    weights = np.array([weight for _, weight in TRIM_BELIEF.load])
    weights /= weights.sum()
    held = 0
    for _ in range(_KITCHENS):
        usual = rng.uniform(0.3, 0.7)
        true = usual + rng.normal(0, rng.choice(TRIM_BELIEF.kitchen))
        theirs = min(max(true + rng.normal(0, rng.choice(TRIM_BELIEF.supplier)), 0.02), 0.98)
        noise = float(rng.choice(noises, p=weights))
        off = rng.uniform(0.1, 1.5, int(rng.integers(1, 9)))
        tests = []
        for grams in off:
            share = -1.0
            while not 0 <= share <= 1:  # Nobody keeps more than all, or less than nothing.
                share = theirs + rng.normal(0, noise / np.sqrt(grams))
            tests.append(TrimTest(grams * 1000, {_TRIM: grams * share * 1000}, True))
        found = share_learned(float(usual), _TRIM, tests).of("").yields
        held += 0.05 <= found.below(float(theirs)) <= 0.95
    assert 0.88 <= held / _KITCHENS <= 0.92


def test_intervals_hold_up_where_loads_come_apart_otherwise_than_believed() -> None:
    """Three kinds by Dirichlet's distribution, which the belief is not: 86 to 94 of 100."""
    rng = np.random.default_rng(18)
    kitchens, held, count = 500, 0, 0
    for _ in range(kitchens):
        usual = rng.dirichlet([4, 3, 3])
        true = rng.dirichlet(usual * 30)
        tests = []
        for off in rng.uniform(0.1, 1.5, 8):
            kinds = rng.dirichlet(np.maximum(true * (150 * off), 1e-3))
            grams = {
                name: float(part) * off * 1000 for name, part in zip("ab", kinds, strict=False)
            }
            tests.append(TrimTest(off * 1000, grams, True))
        for name, share, before in zip("ab", true, usual, strict=False):
            found = share_learned(float(before), name, tests).of("").yields
            held += 0.05 <= found.below(float(share)) <= 0.95
            count += 1
    assert 0.86 <= held / count <= 0.94


def test_what_is_not_weighed_tells_nothing_and_what_is_weighed_as_none_does() -> None:
    told = [TrimTest(300, {"a": 100}, True)] * 4
    unknown = [TrimTest(300, {"a": 100}, False)] * 4
    assert share_learned(0.5, "b", unknown).kitchen.tests == 0
    assert share_learned(0.5, "b", told).of("").expected < 0.2


def test_shares_leave_no_less_than_nothing_for_waste() -> None:
    assert fitted({"a": 0.7, "b": 0.2}) == {"a": 0.7, "b": 0.2}
    assert fitted({"a": 0.9, "b": 0.6, "c": -0.1}) == {
        "a": pytest.approx(0.6),
        "b": pytest.approx(0.4),
        "c": 0.0,
    }


def _reading(grams: float) -> Reading:
    return Reading(grams, "g", division=1)


def test_a_bench_test_says_what_its_trim_was_kept_as() -> None:
    parts = (
        Part("usable", PartKind.USABLE, _reading(3600)),
        Part("ends", PartKind.CREDITED, _reading(250), item=_TRIM),
        Part("skins", PartKind.WASTE, _reading(150)),
    )
    assert kept_of(BenchTest(_reading(4000), parts)) == (((_TRIM, 250.0),), True)
    # Weight is missing: what it was kept as nobody knows.
    assert kept_of(BenchTest(_reading(4100), parts)) == (((_TRIM, 250.0),), False)
    unnamed = Part("ends", PartKind.CREDITED, _reading(250))
    assert kept_of(BenchTest(_reading(4000), (parts[0], unnamed, parts[2]))) == ((), False)


def test_an_odd_share_waits_for_an_answer_and_then_counts() -> None:
    usual = {_TRIM: 0.6}
    odd = TakenTest("odd", _DAY, Load(4000, 3600), trim=((_TRIM, 10.0),), trim_whole=True)
    tests = _taken(0.6, 8, start=1)
    found = lesson(0.9, [*tests, odd], {}, trim=usual)
    (asked,) = [one for one in found.tests if one.questions]
    assert asked.test is odd
    assert [one.kind for one in asked.questions] == [QuestionKind.TRIM]
    without = lesson(0.9, tests, {}, trim=usual)
    assert found.trims[0].estimate.expected == without.trims[0].estimate.expected
    counted = lesson(0.9, [*tests, odd], {"odd": Answer.COUNTS}, trim=usual)
    assert counted.trims[0].estimate.expected < without.trims[0].estimate.expected - 0.01


def test_trim_that_weighs_more_than_was_taken_off_is_asked_about() -> None:
    more = TakenTest("more", _DAY, Load(4000, 3600), trim=((_TRIM, 480.0),), trim_whole=True)
    found = lesson(0.9, [more], {}, trim={_TRIM: 0.9})
    assert QuestionKind.TRIM in [one.kind for one in found.tests[0].questions]


def test_the_rule_takes_shares_that_enough_tests_say() -> None:
    known = _known()
    found = lesson(0.9, _taken(0.8, 8), {}, trim=trim_in_use(known))
    proposal = trim_proposal_of(known, found, (), _DAY)
    assert proposal is not None
    assert proposal.held is None
    own = proposal.own[_TRIM]
    assert own.share == pytest.approx(0.79, abs=0.02)
    assert own.low is not None
    assert own.high is not None
    assert own.low < own.share < own.high
    assert (own.tests, own.decided) == (8, _DAY)


@pytest.mark.parametrize(
    ("share", "count", "held"), [(0.8, 4, Hold.FEW), (0.6, 8, Hold.SMALL), (0.61, 8, Hold.SMALL)]
)
def test_the_rule_waits(share: float, count: int, held: Hold) -> None:
    known = _known()
    found = lesson(0.9, _taken(share, count), {}, trim=trim_in_use(known))
    proposal = trim_proposal_of(known, found, (), _DAY)
    assert proposal is not None
    assert proposal.held is held


def test_without_weighed_kinds_nothing_is_proposed() -> None:
    known = _known()
    plain = [TakenTest(f"p{n}", _DAY, Load(4000, 3600)) for n in range(6)]
    found = lesson(0.9, plain, {}, trim=trim_in_use(known))
    assert trim_proposal_of(known, found, (), _DAY) is None


def test_put_in_and_taken_out_the_file_reads_as_before() -> None:
    own = OwnShare(share=0.7, low=0.6, high=0.8, tests=6, decided=_DAY)
    made = with_own_trim(demo_bytes(), _PEEL, {_TRIM: own})
    assert made.changed
    assert _known(made.data).trim[0].own == own
    assert not with_own_trim(made.data, _PEEL, {_TRIM: own}).changed
    back = with_own_trim(made.data, _PEEL, {})
    assert read_kitchen(back.data) == read_kitchen(demo_bytes())


def test_a_kind_that_the_file_does_not_state_is_added_and_goes_again() -> None:
    own = OwnShare(share=0.3, tests=6, decided=_DAY)
    made = with_own_trim(demo_bytes(), _PEEL, {"leek_tops": own})
    assert [(one.item, one.share, one.in_use) for one in _known(made.data).trim] == [
        (_TRIM, 0.6, 0.6),
        ("leek_tops", 0.0, 0.3),
    ]
    back = with_own_trim(made.data, _PEEL, {})
    assert read_kitchen(back.data) == read_kitchen(demo_bytes())


def test_shares_that_come_to_more_than_all_are_refused() -> None:
    own = OwnShare(share=0.9, tests=6, decided=_DAY)
    with pytest.raises(KitchenErrors, match=r"add up to 1\.5 of what is taken off"):
        with_own_trim(demo_bytes(), _PEEL, {"leek_tops": own})


@pytest.mark.parametrize("change", [{"low": 0.8}, {"high": 0.6}])
def test_a_share_outside_its_own_range_is_refused(change: dict[str, float]) -> None:
    file = json.loads(demo_bytes())
    peel = next(one for one in file["operations"] if one["id"] == "peel")
    own = {"share": 0.7, "decided": "2026-11-25", **change}
    next(one for one in peel["yields"] if one["food"] == "onion")["trim"][0]["own"] = own
    with pytest.raises(KitchenErrors, match="lies outside its own range"):
        read_kitchen(json.dumps(file).encode())


def test_a_yield_of_a_step_has_no_trim() -> None:
    key = next(
        key for key, one in yields_of(Catalog(read_kitchen(demo_bytes()))).items() if not one.kinds
    )
    with pytest.raises(LookupError):
        with_own_trim(demo_bytes(), key, {_TRIM: OwnShare(share=0.5, decided=_DAY)})


def test_own_yield_and_own_shares_stand_side_by_side() -> None:
    own = OwnShare(share=0.7, tests=6, decided=_DAY)
    first = with_own_trim(demo_bytes(), _PEEL, {_TRIM: own}).data
    both = with_own_yield(first, _PEEL, OwnYield(fraction=0.84, decided=_DAY)).data
    known = _known(both)
    assert known.usual.own is not None
    assert known.trim[0].own == own


def test_lots_leave_and_plans_count_on_the_share_in_use() -> None:
    """The same kitchen with a usual and with an own share of the skins: grams kept follow it."""
    kept = {}
    for share in (None, 0.75):
        file = kitchen().model_dump(mode="json")
        trim = file["operations"][0]["yields"][0]["trim"][0]
        trim["own"] = None if share is None else {"share": share, "decided": "2026-11-25"}
        found = Kitchen.model_validate(file)
        # It raises where the checker, which reads the file by itself, comes to other grams.
        plan = plan_morning(found, DATE, PlanOptions(seconds=0, workers=1, remedies=False))
        peeled = [lot for lot in plan.workload.lots if lot.operation == "peel"]
        loss = sum(lot.grams_in - lot.grams_out for lot in peeled)
        kept[share] = sum(grams for lot in peeled for _, grams in lot.trim) / loss
        costs = food_costs(kitchenry(found, DATE))
        (waste,) = waste_of(kitchenry(found, DATE), {"dice": 720.0}, costs)
        assert waste.kept == pytest.approx(100 * (share or 0.25))
    assert kept == {None: pytest.approx(0.25), 0.75: pytest.approx(0.75)}


def test_by_products_stand_in_by_the_share_in_use() -> None:
    """Of the demo's stock: what onion ends give it follows their share."""
    own = OwnShare(share=0.9, tests=6, decided=_DAY)
    credited = []
    for data in (demo_bytes(), with_own_trim(demo_bytes(), _PEEL, {_TRIM: own}).data):
        _, quantities = quantities_of(kitchenry(read_kitchen(data), _DAY))
        credited.append(
            sum(
                credit.grams
                for need in quantities.needs
                for making in need.makings
                for credit in making.credits
                if credit.by_product == _TRIM
            )
        )
    assert credited[1] == pytest.approx(credited[0] * 0.9 / 0.6, rel=0.01)
