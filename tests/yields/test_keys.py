"""Which yields a kitchen has, how one comes into its file, and what decides."""

import datetime as dt
import json
from typing import Any

import numpy as np
import pytest

from planner.kitchen.base import OwnYield
from planner.kitchen.catalog import Catalog
from planner.kitchen.reading import KitchenErrors, read_kitchen
from planner.kitchen.route import stated_fraction
from planner.yields.decide import Hold, by_hand, proposal_of
from planner.yields.drift import drifts_of
from planner.yields.edit import with_own_yield
from planner.yields.judging import TakenTest, lesson
from planner.yields.keys import YieldKey, yields_of
from planner.yields.repeats import Load
from seed_data import demo_bytes

_TODAY = dt.date(2026, 11, 25)
_PEEL = YieldKey("onion", "peel")
_DICE = YieldKey("onion", "dice", "small_dice")


def _demo() -> bytes:
    return demo_bytes()


def _own(**fields: Any) -> OwnYield:
    return OwnYield(**{"fraction": 0.84, "tests": 12, "spread": 0.02, "decided": _TODAY, **fields})


def test_a_yield_is_shared_by_every_cut_of_a_food() -> None:
    known = yields_of(Catalog(read_kitchen(_demo())))
    assert len(known[_PEEL].used_by) == 3
    assert known[_PEEL].usual.fraction == 0.9
    assert known[_DICE].used_by == ("Onion, small dice",)
    assert known[_DICE].usual.fraction == 0.98
    assert known[YieldKey("penne", "boil")].may_gain
    assert not known[_PEEL].may_gain


def test_names_of_yields_read_back() -> None:
    for key in (_PEEL, _DICE):
        assert YieldKey.parse(str(key)) == key
    for bad in ("onion", "", "/peel", "a/b/c/d"):
        with pytest.raises(ValueError, match="food/operation"):
            YieldKey.parse(bad)


def test_a_yield_of_one_cut_leaves_the_others() -> None:
    made = with_own_yield(_demo(), _DICE, _own(fraction=0.9))
    catalog = Catalog(read_kitchen(made.data))
    small, large = (catalog.components[name] for name in ("onion_small", "onion_large"))
    used = stated_fraction(catalog, small, 1)
    assert used is not None
    assert used.fraction == pytest.approx(0.9)
    assert used.source == "usual 98 %, yours 90 % (12 tests)"
    other = stated_fraction(catalog, large, 1)
    assert other is not None
    assert other.fraction == 0.98


def test_caution_goes_down_by_the_spread() -> None:
    file = json.loads(with_own_yield(_demo(), _PEEL, _own()).data)
    file["rules"]["pull_level"] = 0.9
    catalog = Catalog(read_kitchen(json.dumps(file).encode()))
    used = stated_fraction(catalog, catalog.components["onion_small"], 0)
    assert used is not None
    # 1.2816 standard deviations: the normal distribution's tables.
    assert used.fraction == pytest.approx(0.84 - 1.2816 * 0.02, abs=1e-5)
    assert used.source == "usual 90 %, yours 84 % (12 tests), pulled at 81 %"


def test_put_in_and_taken_out_the_file_reads_as_before() -> None:
    before = read_kitchen(_demo())
    made = with_own_yield(_demo(), _PEEL, _own())
    assert made.changed
    assert not with_own_yield(made.data, _PEEL, _own()).changed
    assert read_kitchen(with_own_yield(made.data, _PEEL, None).data) == before


def test_a_fraction_at_a_step_is_found_there() -> None:
    key = YieldKey("chicken_stock", "brown_bones")
    made = with_own_yield(_demo(), key, _own(fraction=0.8))
    catalog = Catalog(read_kitchen(made.data))
    used = stated_fraction(catalog, catalog.components["chicken_stock"], 0)
    assert used is not None
    assert used.fraction == pytest.approx(0.8)


def test_where_no_yield_is_stated_one_is_added() -> None:
    key = YieldKey("romaine", "wash")
    file = json.loads(_demo())
    wash = next(one for one in file["operations"] if one["id"] == "wash")
    wash["yields"] = [one for one in wash["yields"] if one["food"] != "romaine"]
    made = with_own_yield(json.dumps(file).encode(), key, _own())
    catalog = Catalog(read_kitchen(made.data))
    used = stated_fraction(catalog, catalog.components["romaine_washed"], 0)
    assert used is not None
    assert used.source == "usual 100 %, yours 84 % (12 tests)"


def test_no_such_yield() -> None:
    with pytest.raises(LookupError, match="no yield onion/fly"):
        with_own_yield(_demo(), YieldKey("onion", "fly"), None)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"fraction": 6.0}, r"onion.*implausible: 1 kg in would give 6 kg|implausible"),
        ({"low": 0.9}, "lies outside its own range"),
        ({"high": 0.8}, "lies outside its own range"),
    ],
)
def test_a_bad_own_yield_is_refused(change: dict[str, float], words: str) -> None:
    with pytest.raises(KitchenErrors, match=words):
        with_own_yield(_demo(), _PEEL, _own(**change))


def test_an_entry_of_an_unknown_cut_is_refused() -> None:
    file = json.loads(_demo())
    dice = next(one for one in file["operations"] if one["id"] == "dice")
    dice["yields"].append({"food": "onion", "cut": "cubes", "fraction": 0.9})
    with pytest.raises(KitchenErrors, match="no cut has this id"):
        read_kitchen(json.dumps(file).encode())
    dice["yields"][-1] = {"food": "onion", "cut": "small_dice", "fraction": 0.9}
    dice["yields"].append({"food": "onion", "cut": "small_dice", "fraction": 0.8})
    with pytest.raises(KitchenErrors, match="'onion, cut small_dice' is listed here twice"):
        read_kitchen(json.dumps(file).encode())


def _tests(
    fraction: float, count: int, supplier: str = "", seed: int = 1, start: int = 0
) -> list[TakenTest]:
    rng = np.random.default_rng(seed)
    return [
        TakenTest(
            f"{supplier}{start + index:02d}",
            _TODAY - dt.timedelta(30 - start - index),
            Load(3000, 3000 * (fraction + float(rng.normal(0, 0.01)))),
            supplier,
        )
        for index in range(count)
    ]


def _proposed(tests: list[TakenTest], data: bytes | None = None) -> Any:
    known = yields_of(Catalog(read_kitchen(data or _demo())))[_PEEL]
    drifts = drifts_of(known.usual.fraction, tests)
    return proposal_of(known, lesson(known.usual.fraction, tests, {}), drifts, _TODAY)


def test_the_rule_takes_what_enough_tests_say() -> None:
    found = _proposed(_tests(0.84, 8))
    assert found.held is None
    assert found.own.fraction == pytest.approx(0.84, abs=0.01)
    assert found.own.low < found.own.fraction < found.own.high
    assert found.own.tests == 8


@pytest.mark.parametrize(
    ("tests", "held"),
    [
        (_tests(0.84, 4), Hold.FEW),
        (_tests(0.9, 8), Hold.SMALL),
        ([*_tests(0.84, 8), TakenTest("odd", _TODAY, Load(3000, 1000))], Hold.QUESTIONS),
        ([*_tests(0.9, 8), *_tests(0.84, 8, seed=2, start=8)], Hold.DRIFT),
    ],
)
def test_the_rule_waits(tests: list[TakenTest], held: Hold) -> None:
    assert _proposed(tests).held is held


def test_the_rule_waits_while_tests_scatter() -> None:
    fractions = (0.99, 0.78, 0.97, 0.80, 0.98, 0.72)
    tests = [
        TakenTest(f"s{index}", _TODAY, Load(1000, 1000 * fraction))
        for index, fraction in enumerate(fractions)
    ]
    assert _proposed(tests).held is Hold.UNSURE


def test_no_tests_no_proposal() -> None:
    assert _proposed([]) is None


def test_the_supplier_of_today_has_its_own() -> None:
    file = json.loads(_demo())
    onion = next(one for one in file["ingredients"] if one["id"] == "onion")
    onion["purchase"]["supplier"] = "Green Lane"
    tests = [*_tests(0.86, 8, "Green Lane"), *_tests(0.80, 8, "Mill Road", seed=3)]
    found = _proposed(tests, json.dumps(file).encode())
    assert found.own.supplier == "Green Lane"
    assert found.own.fraction == pytest.approx(0.86, abs=0.01)
    assert _proposed(tests).own.fraction == pytest.approx(0.84, abs=0.02)


def test_a_load_of_a_new_supplier_is_less_sure_than_one_of_the_old() -> None:
    file = json.loads(_demo())
    onion = next(one for one in file["ingredients"] if one["id"] == "onion")
    tests = _tests(0.86, 8, "Green Lane")
    of_supplier = {}
    for supplier in ("Green Lane", "Mill Road"):
        onion["purchase"]["supplier"] = supplier
        of_supplier[supplier] = _proposed(tests, json.dumps(file).encode()).own
    old, new = of_supplier["Green Lane"], of_supplier["Mill Road"]
    assert (old.supplier, new.supplier) == ("Green Lane", "")
    assert new.spread > old.spread
    assert new.high - new.low > old.high - old.low


def test_no_more_comes_out_than_went_in() -> None:
    own = _proposed(_tests(1.0, 8)).own
    assert own.fraction <= 1
    assert own.high <= 1


def test_by_hand() -> None:
    own = by_hand(0.82, _TODAY)
    assert (own.fraction, own.spread, own.tests, own.decided) == (0.82, 0, 0, _TODAY)
    with pytest.raises(ValueError, match="greater than 0"):
        by_hand(0, _TODAY)
