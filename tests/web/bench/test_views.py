"""The bench's pages as values: the record, the form, the words of faults and questions."""

import datetime as dt
from dataclasses import replace

import pytest

from planner.kitchen.catalog import Catalog
from planner.kitchen.reading import read_kitchen
from planner.yields.asking import Fault, FaultKind, Question, QuestionKind, Slip
from planner.yields.bench import BenchTest, Part, PartKind
from planner.yields.costs import Price
from planner.yields.decide import Hold, Way
from planner.yields.judging import Standing
from planner.yields.keys import KitchenYield, YieldKey, yields_of
from planner.yields.record import BenchRecord, Portion
from planner.yields.weighing import Reading, unit_grams
from seed_data import demo_bytes
from web.bench.form import read_bench_form
from web.bench.form_view import bench_view
from web.bench.record_view import record_view
from web.bench.words import (
    fault_error,
    hold_words,
    question_words,
    standing_words,
    way_words,
    weight,
)
from web.language import LANGUAGES, speaking
from web.presenters.yields import beside_usual

_DAY = dt.date(2026, 3, 2)


@pytest.fixture(scope="module")
def onion() -> KitchenYield:
    return yields_of(Catalog(read_kitchen(demo_bytes())))[YieldKey("onion", "peel")]


def _loin() -> BenchRecord:
    """The lamb loin of tests/yields/test_bench.py."""
    pounds = unit_grams("lb")

    def part(name: str, kind: PartKind, weighed: float, value: float = 0.0) -> Part:
        return Part(name, kind, Reading(weighed, "lb", division=1 / 16), value / pounds)

    test = BenchTest(
        Reading(12.0, "lb", division=1 / 16),
        (
            part("fat", PartKind.WASTE, 3.0),
            part("kidneys", PartKind.CREDITED, 1.0, 6.10),
            part("flanks", PartKind.CREDITED, 1.5, 4.60),
            part("usable meat", PartKind.USABLE, 6.0),
        ),
        may_lose=True,
    )
    return BenchRecord(
        of="",
        food="Lamb loin",
        operation="Bone",
        cut="",
        supplier="A butcher",
        cook="Ada",
        scale="",
        date=_DAY,
        test=test,
        currency="USD",
        price=Price(6.65, "lb"),
        portion=Portion(5, "oz"),
    )


def test_a_record_says_what_an_auditor_checks() -> None:
    view = record_view(1, _loin(), [(1, "/1", _loin())])
    assert view.title == "Lamb loin: Bone"
    assert view.yield_percent == "50 %"
    assert [(part.name, part.net, part.share, part.worth) for part in view.parts] == [
        ("As purchased", "12 lb", "100 %", ""),
        ("fat", "3 lb", "25 %", ""),
        ("kidneys", "1 lb", "8.3 %", "6.10"),
        ("flanks", "1.5 lb", "12.5 %", "6.90"),
        ("usable meat", "6 lb", "50 %", ""),
    ]
    assert view.balance == "Lost to heat, draining or thawing: 0.5 lb, 4.2 % of gross."
    assert dict(view.costs) == {
        "Price as purchased": "6.65 USD / lb",
        "Cost of the load": "79.80 USD",
        "Less what is kept for use": "13.00 USD",
        "Cost of what is usable": "66.80 USD",
        "Cost per usable lb": "11.13 USD",
        "Cost factor": "1.674",
        "Cost of a portion of 5 oz": "3.48 USD",
        "Cost factor of a portion": "0.523",
    }
    assert view.together == ""


def test_tests_side_by_side_are_one_ratio_of_sums() -> None:
    first = _loin()
    larger = replace(first.test, gross=Reading(24.0, "lb"))
    second = replace(first, test=larger)
    view = record_view(2, second, [(1, "/1", first), (2, "/2", second)])
    # 12 lb of 36; the mean of the percentages would be 37.5.
    assert view.together.startswith("All 2 together: 33.3 % (usable of all over gross of all)")
    assert [test.current for test in view.beside] == [False, True]


def test_a_balance_that_closes_or_cannot_be_checked_says_so() -> None:
    closed = BenchTest(
        Reading(1000, "g", division=5),
        (
            Part("a", PartKind.USABLE, Reading(900, "g", division=5)),
            Part("b", PartKind.WASTE, Reading(98, "g", division=5)),
        ),
    )
    view = record_view(1, replace(_loin(), test=closed, price=None), [])
    assert view.balance == "Gross less all parts: 2 g, within the 7.5 g that the scale explains."
    assert view.costs == ()
    trim_only = replace(closed, parts=closed.parts[1:])
    view = record_view(1, replace(_loin(), test=trim_only, price=None), [])
    assert view.balance.startswith("The usable part was not weighed")
    assert view.parts[-1].net == "902 g"
    swollen = replace(closed, parts=closed.parts[:1], gross=Reading(450, "g"), may_gain=True)
    view = record_view(1, replace(_loin(), test=swollen, price=None), [])
    assert view.balance == "Taken up: 450 g."


def test_weights_that_need_another_unit_are_read_in_it(onion: KitchenYield) -> None:
    fields = {
        "unit": "g", "division": "5", "gross": "4,2", "gross_unit": "kg", "gross_tare": "0,2",
        "u0": "1 3/4", "u0_unit": "lb", "u1": "2781", "t0": "425.2", "t0_name": " skins  and ends ",
    }  # fmt: skip
    form = read_bench_form(fields, onion, _DAY, "USD")
    assert form.errors == {}
    assert form.record is not None
    test = form.record.test
    assert test.gross.grams == pytest.approx(4000)
    assert test.gross.division == pytest.approx(0.005)
    assert [part.name for part in test.parts] == ["usable", "usable", "skins and ends"]
    assert test.parts[0].reading.grams == pytest.approx(793.8, abs=0.1)


def test_the_form_offers_the_scripts_units_and_keeps_what_was_typed(onion: KitchenYield) -> None:
    fields = {"gross": "4000", "u0": "9000", "t3": "5", "sent": "x", "unit": "g"}
    form = read_bench_form(fields, onion, _DAY, "USD")
    view = bench_view(onion, ("Ada",), fields, form)
    assert view.title == "Yellow onion: Peel"
    assert view.gross.shown.value == "4000"
    assert view.more_trim_open
    assert [(label, error.value) for _id, label, error in view.wrong] == [
        ("Usable part 1, scale shows", "9000 g")
    ]
    assert not view.may_lose


def test_a_food_of_no_file_needs_a_name() -> None:
    form = read_bench_form({"gross": "100", "u0": "80", "t0": "20"}, None, _DAY, "USD")
    assert form.record is None
    assert list(form.errors) == ["food"]


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_kind_has_its_words(language: str) -> None:
    slip = Slip("gross", "g", "oz")
    with speaking(language):
        said = [
            *(hold_words(hold) for hold in (None, *Hold)),
            *(way_words(way) for way in Way),
            *(standing_words(standing) for standing in Standing),
            *(fault_error(Fault(kind, "gross", 5.0, 3.0, "g")).message for kind in FaultKind),
            *(
                question_words(Question(kind, "gross", 5.0, 3.0, slip), str)
                for kind in QuestionKind
            ),
            question_words(Question(QuestionKind.BALANCE, "gross", -5.0, 3.0), str),
        ]
    assert all(said)
    assert len(set(said)) == len(said)


def test_words() -> None:
    assert weight(-50.04, "g") == "\N{MINUS SIGN}50 g"
    assert weight(-0.001, "g") == "0 g"
    assert beside_usual(0.88, 0.84, 12) == "usual 88 %, yours 84 % (12 tests)"
    assert beside_usual(0.88, 0.84, 1) == "usual 88 %, yours 84 % (1 test)"
    with speaking("es"):
        assert beside_usual(0.88, 0.84, 12) == "habitual 88 %, el suyo 84 % (12 pruebas)"
    error = fault_error(
        Fault(FaultKind.MORE_OUT, "parts.0", 9000, 4000, "g", Slip("parts.0", "g", "oz"))
    )
    assert error.remedy.startswith("In oz instead of g it would fit.")
