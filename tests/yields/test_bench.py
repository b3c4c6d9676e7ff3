"""Yield tests on the bench, against worked examples that were published."""

import pytest

from planner.yields.asking import FaultKind, QuestionKind, Slip, faults_of, questions_of, slips_of
from planner.yields.bench import BenchTest, Part, PartKind, balance_of
from planner.yields.costs import CreditError, Price, cents, costs_of
from planner.yields.weighing import SCALE_UNITS, Reading, unit_grams

_USABLE, _WASTE, _CREDITED = PartKind.USABLE, PartKind.WASTE, PartKind.CREDITED


def _pounds(pounds: float, ounces: float = 0.0) -> Reading:
    return Reading(pounds + ounces / 16, "lb", division=1 / 16)


def _kilos(kilos: float, tare: float = 0.0, division: float = 0.005) -> Reading:
    return Reading(kilos, "kg", tare, division)


def _per_pound(money: float) -> float:
    return money / unit_grams("lb")


def test_carrots_of_the_textbook() -> None:
    # BCcampus, Basic Kitchen and Food Service Management, Yield Testing: 1 kg gives 800 g.
    test = BenchTest(
        _kilos(1.0), (Part("carrot", _USABLE, _kilos(0.8)), Part("peel", _WASTE, _kilos(0.2)))
    )
    assert balance_of(test).percent == pytest.approx(80)
    assert not faults_of(test)
    assert not questions_of(test)


def test_salmon_of_the_textbook() -> None:
    # The same: 7.75 kg of sockeye salmon give 5 kg, 64.51 % (cut off, not rounded, there).
    test = BenchTest(_kilos(7.75), (Part("trim", _WASTE, _kilos(2.75)),))
    assert balance_of(test).percent == pytest.approx(64.516, abs=0.001)
    assert not balance_of(test).usable_weighed


def test_a_kilo_at_eight_dollars() -> None:
    # The same: 5 kg at $8.00 trimmed to 4 kg cost $10.00 per usable kilo.
    test = BenchTest(
        _kilos(5), (Part("usable", _USABLE, _kilos(4)), Part("trim", _WASTE, _kilos(1)))
    )
    costs = costs_of(test, Price(8.0, "kg"))
    assert (cents(costs.total), cents(costs.unit_cost)) == ("40.00", "10.00")
    assert costs.factor == pytest.approx(1.25)


def test_a_cost_factor_carries_a_new_price() -> None:
    # The same: 12.14 -> 13.00 raises the usable cost by 1.49. The factor, 1.73, is our arithmetic.
    test = BenchTest(_kilos(1.73), (Part("usable", _USABLE, _kilos(1.0)),), may_lose=True)
    costs = costs_of(test, Price(12.14, "kg"))
    assert cents(costs.factor * 13.00 - costs.unit_cost) == "1.49"


def test_striploin_of_an_exercise() -> None:
    # A cookery teacher's exercise (trade calculations, yield): 5.2 kg to 4.6 kg, at $11.95/kg; the
    # answers are our arithmetic.
    test = BenchTest(
        _kilos(5.2), (Part("striploin", _USABLE, _kilos(4.6)), Part("fat", _WASTE, _kilos(0.6)))
    )
    assert balance_of(test).percent == pytest.approx(88.46, abs=0.01)
    assert cents(costs_of(test, Price(11.95, "kg")).unit_cost) == "13.51"
    assert 85 * 0.170 / balance_of(test).fraction == pytest.approx(16.33, abs=0.005)


def test_butcher_test_card_of_a_lamb_loin() -> None:
    # A student's butcher test card, Exercise 6.3 (Scribd 705737293): 12 lb at $6.65.
    test = BenchTest(
        _pounds(12),
        (
            Part("fat", _WASTE, _pounds(3)),
            Part("kidneys", _CREDITED, _pounds(1), _per_pound(6.10)),
            Part("flanks", _CREDITED, _pounds(1, 8), _per_pound(4.60)),
            Part("usable meat", _USABLE, _pounds(6)),
        ),
        may_lose=True,  # 8 oz were lost in cutting
    )
    price = Price(6.65, "lb")
    costs = costs_of(test, price)
    assert cents(costs.total) == "79.80"
    assert cents(costs.usable) == "66.80"
    assert cents(costs.unit_cost) == "11.13"
    assert cents(costs.portion(unit_grams("oz"))) == "0.70"
    five_ounces = 5 * unit_grams("oz")
    assert cents(costs.portion(five_ounces)) == "3.48"
    assert costs.factor == pytest.approx(1.67, abs=0.005)
    assert costs.portion_factor(five_ounces, price) == pytest.approx(0.52, abs=0.005)
    balance = balance_of(test)
    assert balance.missing / balance.gross == pytest.approx(0.0417, abs=0.0001)
    assert balance.percent == pytest.approx(50)


def test_butcher_test_of_a_rib() -> None:
    # The textbook exercise on a rib of beef (solutioninn.com 25939216): 38 lb 12 oz at $3.19; the
    # answers are our arithmetic from its formulas.
    test = BenchTest(
        _pounds(38, 12),
        (
            Part("fat", _WASTE, _pounds(6, 8)),
            Part("bones", _CREDITED, _pounds(4, 4), _per_pound(0.32)),
            Part("short ribs", _CREDITED, _pounds(3, 4), _per_pound(1.49)),
            Part("chopped beef", _CREDITED, _pounds(2, 8), _per_pound(1.59)),
            Part("oven-ready rib", _USABLE, _pounds(22)),
        ),
    )
    costs = costs_of(test, Price(3.19, "lb"))
    assert (cents(costs.total), cents(costs.credit)) == ("123.61", "10.18")
    assert cents(costs.unit_cost) == "5.16"
    assert costs.factor == pytest.approx(1.6163, abs=0.0001)
    # Its breakdown leaves a quarter pound to "loss in cutting": the balance is open and asked for.
    (asked,) = questions_of(test)
    assert asked.kind is QuestionKind.BALANCE
    assert asked.value == pytest.approx(0.25 * unit_grams("lb"))


def test_butcher_test_of_a_roast_ready_rib() -> None:
    # A cook's page on the butcher's test (thekitchenbadass.wordpress.com): 28 lb at $1.30, trim
    # worth $8.00. The page subtracts to $22.40, a slip: 36.40 - 8.00 is 28.40.
    test = BenchTest(
        _pounds(28),
        (
            Part("fat", _CREDITED, _pounds(3), _per_pound(0.10)),
            Part("bones", _CREDITED, _pounds(4), _per_pound(0.30)),
            Part("usable trim", _CREDITED, _pounds(5), _per_pound(1.30)),
            Part("roast-ready rib", _USABLE, _pounds(16)),
        ),
    )
    costs = costs_of(test, Price(1.30, "lb"))
    assert (cents(costs.total), cents(costs.credit), cents(costs.usable)) == (
        "36.40",
        "8.00",
        "28.40",
    )
    assert cents(costs.unit_cost) == "1.78"


def test_several_usable_parts_share_the_cost_by_weight() -> None:
    test = BenchTest(
        _kilos(10),
        (
            Part("loin", _USABLE, _kilos(4)),
            Part("rack", _USABLE, _kilos(3)),
            Part("bones", _CREDITED, _kilos(3), 1.0 / 1000),
        ),
    )
    assert costs_of(test, Price(10.0, "kg")).unit_cost == pytest.approx(97 / 7)


def test_credit_cannot_take_up_the_price() -> None:
    test = BenchTest(
        _kilos(1), (Part("a", _USABLE, _kilos(0.5)), Part("b", _CREDITED, _kilos(0.5), 1.0))
    )
    with pytest.raises(CreditError, match=r"500\.00 is credited on a load that cost 8\.00"):
        costs_of(test, Price(8.0, "kg"))


def test_half_a_cent_goes_up() -> None:
    assert [cents(money) for money in (1.005, 2.675, 1.0049, -0.004)] == [
        "1.01",
        "2.68",
        "1.00",
        "-0.00",
    ]


def test_what_the_scale_cannot_tell_apart_is_not_asked() -> None:
    def test(missing: float) -> BenchTest:
        return BenchTest(
            _kilos(1.2, tare=0.2),  # read twice, 5 g steps: 5 g
            (Part("usable", _USABLE, _kilos(0.8)), Part("trim", _WASTE, _kilos(0.2 - missing))),
        )

    assert balance_of(test(0.010)).tolerance == pytest.approx(10)
    assert not questions_of(test(0.010))
    (asked,) = questions_of(test(0.011))
    assert (asked.kind, round(asked.value)) == (QuestionKind.BALANCE, 11)


def test_heat_may_take_weight_but_not_give_it() -> None:
    roast = BenchTest(_kilos(2), (Part("roast", _USABLE, _kilos(1.5)),), may_lose=True)
    assert not questions_of(roast, 0.75)
    assert not faults_of(roast, 0.75)
    swollen = BenchTest(_kilos(2), (Part("roast", _USABLE, _kilos(2.1)),), may_lose=True)
    assert [fault.kind for fault in faults_of(swollen)] == [FaultKind.MORE_OUT]
    beans = BenchTest(_kilos(1), (Part("beans", _USABLE, _kilos(2.0)),), may_gain=True)
    assert not faults_of(beans, 2.0)
    assert not questions_of(beans, 2.0)


def test_a_container_heavier_than_the_load() -> None:
    test = BenchTest(_kilos(0.4, tare=0.5), (Part("usable", _USABLE, _kilos(0.3)),))
    (fault,) = faults_of(test)
    assert (fault.kind, fault.field, fault.value, fault.against) == (
        FaultKind.TARE,
        "gross",
        0.5,
        0.4,
    )


@pytest.mark.parametrize("part", [0.0, -1.0])
def test_nothing_on_the_scale(part: float) -> None:
    test = BenchTest(_kilos(1), (Part("usable", _USABLE, Reading(part, "kg")),))
    assert [(fault.kind, fault.field) for fault in faults_of(test)] == [
        (FaultKind.NOTHING, "parts.0")
    ]


def test_no_part_and_nothing_but_trim() -> None:
    assert [one.kind for one in faults_of(BenchTest(_kilos(1), ()))] == [FaultKind.NO_PARTS]
    trim = BenchTest(_kilos(1), (Part("trim", _WASTE, _kilos(1.2)),))
    assert [one.kind for one in faults_of(trim)] == [FaultKind.ALL_TRIM]


@pytest.mark.parametrize("meant", SCALE_UNITS)
@pytest.mark.parametrize("said", SCALE_UNITS)
@pytest.mark.parametrize("field", ["gross", "parts.0", "parts.1"])
def test_one_weight_in_another_unit_is_found(field: str, said: str, meant: str) -> None:
    # The factors between them: 28.35 (oz, g), 2.2046 (lb, kg), 16, 453.6, 1000, 35.27.
    grams = {"gross": 4000.0, "parts.0": 3500.0, "parts.1": 500.0}

    def reading(one: str) -> Reading:
        in_grams = Reading(grams[one], "g", division=1.0)
        return Reading(grams[one] / unit_grams(meant), said) if one == field else in_grams

    test = BenchTest(
        reading("gross"),
        (Part("onion", _USABLE, reading("parts.0")), Part("skins", _WASTE, reading("parts.1"))),
    )
    found = slips_of(test, 0.88)
    assert found == (() if said == meant else (Slip(field, said, meant),))
    if found:
        asked = [fault.slip for fault in faults_of(test, 0.88)] + [
            question.slip for question in questions_of(test, 0.88)
        ]
        assert found[0] in asked


def test_without_trim_the_usual_yield_tells_a_unit() -> None:
    # 2.2 lb written where the scale showed kilograms: 38 % of what 86 % is usual.
    test = BenchTest(
        Reading(5.0, "kg"), (Part("onion", _USABLE, Reading(4.3, "lb")),), may_lose=True
    )
    assert slips_of(test, 0.86) == (Slip("gross", "kg", "lb"), Slip("parts.0", "lb", "kg"))
    assert slips_of(test, None) == ()


@pytest.mark.parametrize(("unit", "said"), [("oz", "g"), ("lb", "kg"), ("kg", "lb"), ("g", "kg")])
def test_trim_alone_in_another_unit_is_asked(unit: str, said: str) -> None:
    """400 g come off 4 kg at a usual 90 %; read in another unit the yield still looks like one."""
    right = 400 / unit_grams(unit)
    test = BenchTest(Reading(4000, "g"), (Part("ends", PartKind.WASTE, Reading(right, said)),))
    kinds = [question.kind for question in questions_of(test, 0.9)]
    faults = [fault.slip for fault in faults_of(test, 0.9)]
    assert kinds == [QuestionKind.UNIT] or (faults and faults[0] is not None)
    honest = BenchTest(Reading(4000, "g"), (Part("ends", PartKind.WASTE, Reading(520, "g")),))
    assert questions_of(honest, 0.9) == ()


def test_units_are_those_of_the_handbook() -> None:
    # NIST Handbook 44, Appendix C: 1 lb = 453.59237 g, 16 oz.
    assert unit_grams("lb") == pytest.approx(453.59237)
    assert unit_grams("lb") / unit_grams("oz") == pytest.approx(16)
    with pytest.raises(ValueError, match="cup: a scale shows one of g, kg, oz, lb"):
        unit_grams("cup")
