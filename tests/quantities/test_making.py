"""What of a component is made today: batches, pars, several days at once, draws on its inputs."""

from typing import Any

import pytest

from planner.kitchen.hours import DAY
from planner.quantities.types import Making, Reason
from tests.kitchens.bench import (
    File,
    bench,
    cook,
    cut_from,
    dish,
    food,
    making_of,
    need_of,
    needs_of,
    recipe,
    service,
    stock,
    work,
)

CLOSES, DINNER = 17 * 60, 18 * 60
TOMORROW = [service("dinner", {"plate": 1.0}), service("feast", {"plate": 1.0}, ahead=1)]
"""A kilo tonight, a kilo tomorrow night."""


def kitchen(*, component: File | None = None, **parts: Any) -> File:
    """Ham is pork trimmed at 0.8 and cut; a plate takes 100 g, ten plates a kilo."""
    trim = work("trim", yields=[{"food": "pork", "fraction": 0.8}])
    return bench(
        ingredients=[food("pork"), food("salt")],
        operations=[trim, work("cut"), work("brine", unattended_minutes=900)],
        components=[cut_from("pork", "ham", "trim", "cut", **(component or {}))],
        dishes=[dish("plate", {"ham": "100 g"})],
        **parts,
    )


def by_reason(file: File, component: str = "ham") -> dict[Reason, float]:
    grams: dict[Reason, float] = {}
    for making in need_of(file, component).makings:
        grams[making.want.reason] = grams.get(making.want.reason, 0.0) + making.grams
    return grams


def test_gross_is_net_over_the_yields_of_the_route() -> None:
    """A kilo of ham at 0.8 takes 1,250 g of pork."""
    need = need_of(kitchen(), "ham")
    assert [(i.item, i.grams) for i in need.inputs] == [("pork", pytest.approx(1250))]
    assert [(s.grams_in, s.grams_out, s.fraction) for s in need.steps] == [
        (pytest.approx(1250), pytest.approx(1000), 0.8),
        (pytest.approx(1000), pytest.approx(1000), 1.0),
    ]


def test_a_recipe_takes_its_inputs_by_the_batch() -> None:
    """A batch makes 4 kg of 3 kg pork and 50 g salt; a kilo is a quarter of it."""
    file = bench(
        ingredients=[food("pork"), food("salt")],
        operations=[work("mix")],
        components=[recipe("filling", "4 kg", {"pork": "3 kg", "salt": "50 g"}, "mix")],
        dishes=[dish("plate", {"filling": "100 g"})],
    )
    need = need_of(file, "filling")
    assert [(i.item, i.grams) for i in need.inputs] == [
        ("pork", pytest.approx(750)),
        ("salt", pytest.approx(12.5)),
    ]


def test_a_recipe_weighs_what_is_in_the_pot_and_loses_at_one_step_what_is_measured() -> None:
    """Six kilos are mixed and boiled into four: at the mixing step, where the pork goes in."""
    file = bench(
        ingredients=[food("pork")],
        operations=[work("mix"), work("boil")],
        components=[recipe("filling", "4 kg", {"pork": "6 kg"}, "mix", "boil")],
        dishes=[dish("plate", {"filling": "100 g"})],
    )
    assert in_and_out(file) == [(1500, 1000), (1000, 1000)]
    file["components"][0]["route"][0] = {"operation": "mix", "fraction": {"fraction": 1.0}}
    assert in_and_out(file) == [(1500, 1500), (1500, 1000)], "mixing states that it loses nothing"


def in_and_out(file: File) -> list[tuple[float, float]]:
    return [
        (round(step.grams_in, 6), round(step.grams_out, 6))
        for step in need_of(file, "filling").steps
    ]


def buttered(**parts: Any) -> File:
    """Potatoes are boiled in water and drained, then mashed with melted butter."""
    return bench(
        ingredients=[food("potato"), food("butter"), food("water", counted=False)],
        operations=[work("boil"), work("mash"), work("melt")],
        components=[
            cut_from("butter", "melted", "melt"),
            recipe(
                "puree",
                "1 kg",
                {"potato": "800 g", "water": "1 kg", "melted": "200 g"},
                {"operation": "boil", "fraction": {"fraction": 0.45}},
                "mash",
            ),
        ],
        dishes=[dish("plate", {"puree": "100 g"})],
        **parts,
    )


def joined_at_mash(file: File) -> File:
    file["components"][1]["inputs"][2]["after_step"] = 1
    return file


def test_an_input_goes_in_at_the_step_it_names() -> None:
    """810 g of 1,800 g stay in the sieve; the butter joins them and 10 g stick to the pot."""
    file = joined_at_mash(buttered())
    assert [(s.grams_in, s.grams_out) for s in need_of(file, "puree").steps] == [
        (pytest.approx(1800), pytest.approx(810)),
        (pytest.approx(1010), pytest.approx(1000)),
    ]
    (making,) = need_of(file, "puree").makings
    assert [(d.item, d.step, d.due) for d in making.draws] == [
        ("potato", 0, making.starts[0]),
        ("water", 0, making.starts[0]),
        ("melted", 1, making.starts[1]),
    ]
    (want,) = need_of(file, "melted").wants
    assert want.due == making.starts[1] > making.starts[0]


def test_what_was_begun_yesterday_still_takes_what_goes_in_later() -> None:
    """The potatoes were boiled and drained; only butter is wanted."""
    file = joined_at_mash(buttered(prepared=[stock("puree", "810 g", after_step=1)]))
    (making,) = need_of(file, "puree").makings
    assert making.grams == pytest.approx(1000)
    assert [(d.item, round(d.grams, 6)) for d in making.draws] == [("melted", 200)]
    assert need_of(file, "melted").to_make == pytest.approx(200)


def test_part_made_food_beside_a_whole_batch_takes_its_own_butter() -> None:
    """A batch is a kilo at least: 100 g less are begun for 100 g in the sieve, but no less made."""
    file = joined_at_mash(buttered(prepared=[stock("puree", "81 g", after_step=1)]))
    file["components"][1]["batch_minimum"] = "1 kg"
    need = need_of(file, "puree")
    assert need.to_make == pytest.approx(1100)
    assert {i.item: round(i.grams, 6) for i in need.inputs} == {
        "potato": 800,
        "water": 1000,
        "melted": 220,
    }


def test_what_goes_in_tomorrow_is_made_for_tomorrow() -> None:
    """The potatoes rest over night, so the butter is melted tomorrow."""
    file = joined_at_mash(buttered(services=TOMORROW, rules={"lookahead_days": 1}))
    file["operations"][0].update(unattended_minutes=900)
    begun = [m for m in need_of(file, "puree").makings if m.want.day == 1]
    assert [(m.first_step, m.last_step) for m in begun] == [(0, 1)]
    assert {draw.item for draw in begun[0].draws} == {"potato", "water"}
    wants = [want for want in need_of(file, "melted").wants if want.day == 1]
    assert [want.grams for want in wants] == [pytest.approx(begun[0].grams * 0.2)]


def test_a_batch_minimum_rounds_up_and_says_so() -> None:
    file = kitchen(component={"batch_minimum": "3 kg"})
    assert by_reason(file) == {
        Reason.DISH: pytest.approx(1000),
        Reason.BATCH: pytest.approx(2000),
    }
    (note,) = need_of(file, "ham").notes
    assert "2000 g" in note
    assert "at least 3 kg" in note


def test_a_batch_multiple_rounds_up_to_whole_ones() -> None:
    file = kitchen(component={"batch_multiple": "400 g"})
    assert need_of(file, "ham").to_make == pytest.approx(1200)
    assert "multiples of 400 g" in need_of(file, "ham").notes[0]


def test_minimum_and_multiple_together_give_a_multiple_no_less_than_the_minimum() -> None:
    file = kitchen(component={"batch_minimum": "1500 g", "batch_multiple": "400 g"})
    assert need_of(file, "ham").to_make == pytest.approx(1600)


def test_a_quantity_that_is_a_multiple_already_stays() -> None:
    """Ten plates of 100 g are a kilo, whatever the last binary digit says."""
    file = kitchen(component={"batch_multiple": "200 g"})
    assert need_of(file, "ham").to_make == pytest.approx(1000)
    assert need_of(file, "ham").notes == ()


def test_nothing_wanted_is_not_rounded_up_to_a_batch() -> None:
    file = kitchen(component={"batch_minimum": "3 kg"}, prepared=[stock("ham", "1 kg")])
    assert need_of(file, "ham").to_make == 0


def test_part_made_stock_is_not_rounded_up_to_a_batch() -> None:
    """The batch was begun on another day."""
    file = kitchen(
        component={"batch_minimum": "3 kg"}, prepared=[stock("ham", "1 kg", after_step=1)]
    )
    assert need_of(file, "ham").to_make == pytest.approx(1000)


def test_the_inputs_of_what_is_rounded_up_are_drawn_too() -> None:
    file = kitchen(component={"batch_minimum": "2 kg"})
    assert [i.grams for i in need_of(file, "ham").inputs] == [pytest.approx(2500)]


def test_a_par_brings_up_what_is_there_and_what_is_made() -> None:
    """5 kg par, 1.5 kg on hand of which a kilo is for tonight: 3.5 kg are made."""
    file = kitchen(component={"par": "5 kg"}, prepared=[stock("ham", "1500 g")])
    assert by_reason(file) == {Reason.PAR: pytest.approx(3500)}
    assert "par of 5 kg" in need_of(file, "ham").notes[0]


def test_what_is_made_for_tonight_counts_towards_the_par() -> None:
    file = kitchen(component={"par": "5 kg"})
    assert by_reason(file) == {Reason.DISH: pytest.approx(1000), Reason.PAR: pytest.approx(4000)}


def tomorrow_at_dawn(ham: str) -> File:
    """Ham with a par, for breakfast tomorrow before anybody is in: it is made today."""
    breakfast = service("breakfast", {"plate": 1.0}, ahead=1, opens="07:00", closes="10:00")
    rules = {"lookahead_days": 1}
    return kitchen(component={"par": ham}, services=[breakfast], rules=rules)


def test_what_is_made_today_for_tomorrow_counts_towards_todays_par() -> None:
    assert by_reason(tomorrow_at_dawn("5 kg")) == {
        Reason.DISH: pytest.approx(1000),
        Reason.PAR: pytest.approx(4000),
    }
    assert by_reason(tomorrow_at_dawn("800 g")) == {Reason.DISH: pytest.approx(1000)}


def test_a_shelf_that_holds_tomorrows_food_is_up_to_par_today() -> None:
    """Counted again when it is made, the same food asks for nothing more."""
    again = {**tomorrow_at_dawn("5 kg"), "prepared": [stock("ham", "5 kg")]}
    assert need_of(again, "ham").to_make == 0


def test_a_par_below_the_need_changes_nothing() -> None:
    file = kitchen(component={"par": "800 g"})
    assert by_reason(file) == {Reason.DISH: pytest.approx(1000)}
    assert need_of(file, "ham").notes == ()


def test_stock_past_its_use_by_is_no_part_of_the_par() -> None:
    old = stock("ham", "4 kg", made="2025-03-01", use_by="2025-03-03")
    file = kitchen(component={"par": "5 kg"}, prepared=[old])
    assert need_of(file, "ham").to_make == pytest.approx(5000)


def test_a_par_is_filled_by_the_end_of_the_day() -> None:
    making = next(
        m
        for m in need_of(kitchen(component={"par": "5 kg"}), "ham").makings
        if m.want.reason is Reason.PAR
    )
    assert (making.due, making.finishes, making.missed) == (CLOSES, True, False)
    assert making.want.shares == (), "no dish goes short without it"


def with_an_empty_menu_for_ham(**parts: Any) -> File:
    """Ham brines for a night and has a par of 5 kg; tonight's only dish is of beef."""
    file = bench(
        ingredients=[food("pork"), food("beef")],
        operations=[work("cut"), work("brine", unattended_minutes=900)],
        components=[
            cut_from("pork", "ham", "brine", "cut", par="5 kg"),
            cut_from("beef", "steak", "cut"),
        ],
        dishes=[dish("grill", {"steak": "200 g"})],
        rules={"lookahead_days": 2},
    )
    return {**file, **parts}


def test_a_par_of_what_takes_a_night_is_begun_today_and_nobody_missed_anything() -> None:
    file = with_an_empty_menu_for_ham()
    making = making_of(file, "ham")
    assert (making.first_step, making.last_step, making.finishes) == (0, 1, False)
    assert not making.missed
    assert needs_of(file).alerts == ()


def test_what_is_in_the_brine_for_the_par_is_finished_and_not_begun_again() -> None:
    file = with_an_empty_menu_for_ham(prepared=[stock("ham", "5 kg", after_step=1)])
    making = making_of(file, "ham")
    assert (making.first_step, making.finishes) == (1, True)
    assert making.grams == pytest.approx(5000)
    assert [(u.after_step, u.grams) for u in need_of(file, "ham").stock] == [
        (1, pytest.approx(5000))
    ]


def test_what_is_eaten_tonight_is_no_part_of_tomorrows_par() -> None:
    """Five kilos are in the brine. One is for tonight, four are finished for today's par, and one
    is begun so that there are five tomorrow.
    """
    file = with_an_empty_menu_for_ham(prepared=[stock("ham", "5 kg", after_step=1)])
    file["dishes"][0]["components"].append({"item": "ham", "amount": "100 g"})
    found = [
        (m.want.reason, m.first_step, round(m.grams), m.finishes)
        for m in need_of(file, "ham").makings
    ]
    assert found == [
        (Reason.DISH, 1, 1000, True),
        (Reason.PAR, 1, 4000, True),
        (Reason.PAR, 0, 1000, False),
    ]


def test_later_days_are_made_with_todays_batch_where_the_kitchen_wants_it() -> None:
    file = kitchen(component={"make_for_days": 2}, services=TOMORROW, rules={"lookahead_days": 1})
    assert by_reason(file) == {Reason.DISH: pytest.approx(1000), Reason.DAYS: pytest.approx(1000)}
    assert need_of(file, "ham").notes == ("made for 2 days at once",)
    ahead = next(m for m in need_of(file, "ham").makings if m.want.reason is Reason.DAYS)
    assert (ahead.due, ahead.finishes) == (CLOSES, True)
    assert needs_of(file).ahead == ()


def test_one_day_at_a_time_leaves_tomorrow_for_tomorrow() -> None:
    file = kitchen(services=TOMORROW, rules={"lookahead_days": 1})
    assert by_reason(file) == {Reason.DISH: pytest.approx(1000)}
    assert needs_of(file).ahead == ("Wed 5 Mar: Ham.",)


def test_shelf_life_bounds_the_days_that_one_batch_serves() -> None:
    """Used on its day only: tomorrow's is made tomorrow."""
    file = kitchen(
        component={"make_for_days": 3, "shelf_life_days": 1},
        services=TOMORROW,
        rules={"lookahead_days": 1},
    )
    assert by_reason(file) == {Reason.DISH: pytest.approx(1000)}


def test_several_days_are_only_made_where_a_batch_is_made_today() -> None:
    """Tonight is on hand, so today no batch is made that tomorrow's could join."""
    file = kitchen(
        component={"make_for_days": 2},
        services=TOMORROW,
        prepared=[stock("ham", "1 kg")],
        rules={"lookahead_days": 1},
    )
    assert need_of(file, "ham").to_make == 0


def test_where_nobody_is_in_today_nothing_is_made_ahead() -> None:
    """Tonight's ham cannot be cut, so neither can tomorrow's be with it."""
    shifts = [{"date": "2025-03-05", "start": "08:00", "end": "17:00"}]
    file = kitchen(
        component={"make_for_days": 2},
        services=TOMORROW,
        rules={"lookahead_days": 1},
        cooks=[cook("ana", shifts=shifts)],
    )
    assert Reason.DAYS not in by_reason(file)
    assert needs_of(file).ahead == ("Wed 5 Mar: Ham.",)


def test_what_is_made_for_several_days_draws_its_inputs_today() -> None:
    file = kitchen(component={"make_for_days": 2}, services=TOMORROW, rules={"lookahead_days": 1})
    (line,) = needs_of(file).pulls
    assert line.need.grams == pytest.approx(2500)


def making_for(file: File, consumer: str) -> Making:
    (found,) = (m for m in need_of(file, "ham").makings if m.want.consumer == consumer)
    return found


def test_an_input_is_due_when_its_consumer_starts() -> None:
    """Soup boils for ten minutes a kilo before six; the ham in it is due when that begins."""
    file = kitchen()
    file["operations"].append(work("boil", minutes_per=0, unattended_minutes=120))
    file["components"].append(recipe("soup", "1 kg", {"ham": "500 g"}, "boil"))
    file["dishes"] = [dish("bowl", {"soup": "100 g"})]
    file["services"] = [service("lunch", {"bowl": 1.0}, opens="15:00")]
    soup = making_of(file, "soup")
    assert soup.start == 13 * 60
    ham = making_for(file, "soup")
    assert (ham.grams, ham.due) == (pytest.approx(500), 13 * 60)
    assert ham.want.reason is Reason.COMPONENT
    assert [(s.dish, s.portions) for s in ham.want.shares] == [("bowl", 10)]


def test_what_is_begun_today_for_tomorrow_is_due_by_its_latest_start() -> None:
    file = kitchen(
        services=[service("feast", {"plate": 1.0}, ahead=1)], rules={"lookahead_days": 1}
    )
    file["components"][0]["route"].append({"operation": "brine"})
    making = making_of(file, "ham")
    assert making.last_step == 3
    assert making.finishes, "it is in the brine by itself over night"
    assert making.due == DAY + DINNER
    assert not making.missed
