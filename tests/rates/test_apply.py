"""What was learned stands where the planner looks, and the file's own figures can be had back."""

import math
from statistics import NormalDist

import pytest

from planner.kitchen.document import Kitchen
from planner.quantities.compute import kitchenry
from planner.rates.apply import Use, figure_in, planned_value, taken_back, with_rates
from planner.rates.figures import slowness_figure, step_figures
from planner.rates.types import Key, Kind, Learned, SkillRates
from tests.kitchens.bench import DATE, bench, cook, cut_from, dish, food, read, work


def kitchen() -> Kitchen:
    return read(
        bench(
            ingredients=[food("onion"), food("carrot")],
            operations=[
                work("dice", set_up_minutes=3, rates=[{"food": "carrot", "minutes_per": 6}])
            ],
            components=[
                cut_from("onion", "onions", "dice"),
                cut_from("carrot", "carrots", "dice"),
                cut_from("onion", "fine", {"operation": "dice", "minutes_per": 20}),
            ],
            dishes=[dish("soup", {"onions": "50 g", "carrots": "50 g", "fine": "5 g"})],
            cooks=[cook("ana", skills=[{"skill": "hands", "pace": 1.25}])],
        )
    )


def learned(
    *figures: tuple[Key, float, float], batches: float = 9, doubt: float = 0.0
) -> SkillRates:
    found = tuple(Learned(key, value, book, doubt, batches) for key, value, book in figures)
    return SkillRates("hands", found, 0.0, cooks_spread=0.2, forgotten=0.05, batches=round(batches))


ONION = Key(Kind.RATE, operation="dice", food="onion")
CARROT = Key(Kind.RATE, operation="dice", food="carrot")
FINE = Key(Kind.RATE, operation="dice", food="fine", step=0)
SET_UP = Key(Kind.SET_UP, operation="dice")
ANA = Key(Kind.SLOWNESS, cook="ana", skill="hands")


def test_a_figure_is_known_by_where_it_stands() -> None:
    kit = kitchenry(kitchen(), DATE)
    found = {
        name: step_figures(kit, kit.catalog.components[name], 0).rate
        for name in ("onions", "carrots", "fine")
    }
    assert {name: (one and (one.key, one.value)) for name, one in found.items()} == {
        "onions": (ONION, 10.0),
        "carrots": (CARROT, 6.0),
        "fine": (FINE, 20.0),
    }
    ana = slowness_figure(kit.catalog, "ana", "hands")
    assert ana is not None
    assert ana.value == pytest.approx(0.8)


def test_every_learned_figure_is_what_the_planner_then_reads() -> None:
    told = learned(
        (ONION, 12, 10), (CARROT, 5, 6), (FINE, 30, 20), (SET_UP, 4.6, 3), (ANA, 0.9, 0.8)
    )
    changed, changes = with_rates(kitchen(), [told])
    kit = kitchenry(changed, DATE)
    minutes = [
        kit.efforts.of(kit.catalog.components[name], 0).minutes_per_gram * 1000
        for name in ("onions", "carrots", "fine")
    ]
    assert minutes == pytest.approx([12, 5, 30])
    assert kit.catalog.operations["dice"].set_up_minutes == 5
    assert kit.catalog.cooks["ana"].skills[0].pace == pytest.approx(1 / 0.9, abs=1e-3)
    assert {one.key for one in changes} == {ONION, CARROT, FINE, SET_UP, ANA}
    assert Kitchen.model_validate(changed.model_dump()) == changed


def test_the_kitchen_itself_stays_and_each_change_names_what_was() -> None:
    before = kitchen()
    _, changes = with_rates(before, [learned((ONION, 12, 10))])
    assert before == kitchen()
    assert [(one.before, one.after) for one in changes] == [(10.0, 12.0)]


def test_few_batches_change_nothing() -> None:
    changed, changes = with_rates(kitchen(), [learned((ONION, 12, 10), batches=4)], Use(least=5))
    assert changes == ()
    assert changed == kitchen()


def test_the_mean_adds_up_and_a_quantile_is_as_sure_as_it_says() -> None:
    figure = Learned(ONION, 10, 10, doubt=0.3, batches=9)
    sd = math.hypot(0.3, 0.4)
    assert planned_value(figure, 0.4, Use()) == pytest.approx(10 * math.exp(sd**2 / 2))
    sure = planned_value(figure, 0.4, Use(quantile=0.8))
    assert NormalDist(math.log(10), sd).cdf(math.log(sure)) == pytest.approx(0.8)


def test_a_cautious_set_up_is_not_rounded_down() -> None:
    key = Key(Kind.SET_UP, operation="dice")
    skill = SkillRates("hands", (Learned(key, 4.2, 3.0, 0.05, 9.0),), 0.02, 0.2, 0.05, 9)
    for use, minutes in ((Use(), 4), (Use(quantile=0.6), 5)):
        changed, _ = with_rates(kitchen(), [skill], use)
        assert changed.operations[0].set_up_minutes == minutes


def test_no_quantile_below_the_middle() -> None:
    with pytest.raises(ValueError, match=r"from 0\.5 to below 1, not 0\.2"):
        Use(quantile=0.2)


def test_what_was_taken_over_can_be_taken_back_to_the_letter() -> None:
    before = kitchen()
    told = learned(
        (ONION, 12, 10), (CARROT, 5, 6), (FINE, 30, 20), (SET_UP, 4.6, 3), (ANA, 0.9, 0.8)
    )
    changed, changes = with_rates(before, [told])
    assert [figure_in(changed, one.key) for one in changes] == pytest.approx(
        [one.after for one in changes]
    )
    assert taken_back(changed, before, [one.key for one in changes]) == before
    partly = taken_back(changed, before, [CARROT])
    assert figure_in(partly, CARROT) == 6
    assert figure_in(partly, ONION) == pytest.approx(12)


def test_what_a_file_does_not_know_has_no_figure() -> None:
    assert figure_in(kitchen(), Key(Kind.RATE, operation="fry", food="onion")) is None
    assert figure_in(kitchen(), Key(Kind.RATE, operation="dice", food="fine", step=4)) is None
    assert figure_in(kitchen(), Key(Kind.SLOWNESS, cook="zoe", skill="hands")) is None
    assert figure_in(kitchen(), Key(Kind.RATE, operation="dice", food="leek")) is None
    assert figure_in(kitchen(), ONION) == 10, "as the operation says of every food"


def test_what_was_ticked_of_foods_and_steps_that_are_gone_changes_nothing() -> None:
    leek = Key(Kind.RATE, operation="dice", food="leek")
    no_rate = Key(Kind.RATE, operation="dice", food="onions", step=0)
    other = Key(Kind.RATE, operation="chop", food="fine", step=0)
    figures = [Learned(key, 8.0, 10.0, 0.1, 9.0) for key in (leek, no_rate, other)]
    skill = SkillRates("hands", tuple(figures), 0.2, 0.2, 0.05, 9)
    assert with_rates(kitchen(), [skill]) == (kitchen(), ())
