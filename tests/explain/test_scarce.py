"""What more of a scarce thing is worth, where it is known by construction."""

from dataclasses import replace
from typing import Any

from planner.explain.candidates import candidates
from planner.explain.scarce import Scarce, scarce_things
from planner.schedule.search import SearchOptions
from tests.explain.test_words import ham, morning_of
from tests.kitchens.bench import File, cook, delivery, work

TRIES = SearchOptions(deterministic_limit=0.2, workers=1)


def found(file: File) -> Scarce:
    return scarce_things(morning_of(file), TRIES)


def late_saved(scarce: Scarce) -> dict[str, int]:
    return {one.text: one.late for one in scarce.values}


def one_burner(burners: int = 1, **parts: Any) -> File:
    """Two pots of an hour each (59 by themselves), for 09:30; hands are next to nothing."""
    pot = work(
        "boil",
        minutes_per=0,
        each_lot_minutes=1,
        unattended_minutes=58,
        finish_minutes=1,
        lot_limit="3 kg",
        equipment=[{"equipment": "burner"}],
    )
    burner = {"id": "burner", "name": "Burner", "count": burners}
    return ham("boil", operations=[pot], equipment=[burner], service={"opens": "09:30"}, **parts)


def test_one_more_burner_saves_exactly_the_minutes_late() -> None:
    """On one burner the second pot is out at 10:00, 30 late; on two, at 09:01."""
    scarce = found(one_burner())
    assert scarce.unchanged.left.late == 30
    saved = late_saved(scarce)
    assert saved["one more of Burner (2 in place of 1)"] == 30
    assert late_saved(found(one_burner(2))).get("one more of Burner (3 in place of 2)", 0) == 0


def test_more_hands_do_not_help_where_a_burner_binds() -> None:
    saved = late_saved(found(one_burner(cooks=[cook("ana"), cook("ben")])))
    assert not any(minutes for text, minutes in saved.items() if "cook with the skill" in text)


def test_an_earlier_start_saves_as_much_as_it_is_earlier_and_no_more() -> None:
    """Two pots end at 10:00: all in 30 minutes earlier is just in time, an hour more so."""
    saved = late_saved(found(one_burner()))
    assert saved["everybody in 30 min earlier"] == 30
    assert saved["an hour more of Ana, in from 07:00"] == 30


def two_hours_of_hands(opens: str = "09:00", **parts: Any) -> File:
    """Two hours of cutting in lots of 20 minutes, one cook, due an hour in: all of them late."""
    return ham(
        operations=[work("cut", minutes_per=20, lot_limit="1 kg")],
        service={"opens": opens},
        **parts,
    )


def test_an_hour_of_a_skill_and_what_it_brings_is_what_the_solver_finds_with_it() -> None:
    """With a second pair of hands for an hour, lots end at 20, 40, 60 twice over: none is late."""
    scarce = found(two_hours_of_hands())
    assert scarce.unchanged.left.late == 20 + 40 + 60
    saved = late_saved(scarce)
    assert saved["an hour of one more cook with the skill 'hands', from 08:00"] == 120
    # From 07:30 on, the last two of six lots end at 09:10 and 09:30.
    assert saved["everybody in 30 min earlier"] == 120 - (10 + 30)


def test_who_has_nothing_to_do_with_it_is_not_tried() -> None:
    """Ben can only slice, and nothing is sliced."""
    cooks = [cook("ana"), cook("ben", skills=[{"skill": "slicing"}])]
    texts = [one.text for one in candidates(morning_of(two_hours_of_hands(cooks=cooks)))]
    assert any("Ana" in text for text in texts)
    assert not any("Ben" in text or "slicing" in text for text in texts)


def test_a_delivery_that_binds_saves_what_it_comes_earlier() -> None:
    file = ham(
        raw_stock=[],
        deliveries=[delivery("pork", "9 kg", "09:15")],
        operations=[work("cut", minutes_per=0, each_lot_minutes=30)],
        service={"opens": "09:25"},
    )
    scarce = found(file)
    saved = late_saved(scarce)
    assert scarce.unchanged.left.late == 20
    assert saved["the delivery of 09:15 30 min earlier"] == 20
    # Who waits for the delivery gains nothing by being in earlier.
    assert saved.get("everybody in 30 min earlier", 0) == 0


def test_what_is_short_for_want_of_hands_gains_portions() -> None:
    """Of no use after 09:30: of 2 hours of work 1.5 are done; an hour of more hands does more."""
    scarce = found(two_hours_of_hands(opens="09:00") | closes("09:30"))
    (value,) = (one for one in scarce.values if "one more cook" in one.text)
    assert scarce.unchanged.left.portions == 15, "a quarter of 60"
    assert value.portions == 15


def closes(at: str) -> File:
    file = two_hours_of_hands()
    return {"services": [file["services"][0] | {"closes": at}]}


def test_where_nothing_is_late_labor_is_what_can_be_saved() -> None:
    """An hour of work for Ana, in from 08:00; 40 min for Ben, in from 09:00. It is due at 09:30.

    Ben would be late; half an hour earlier, he is not, and saves 20 minutes of work.
    """
    file = ham(
        operations=[work("cut", minutes_per=0, each_lot_minutes=60)],
        cooks=[cook("ana"), cook("ben", "09:00", skills=[{"skill": "hands", "pace": 1.5}])],
        service={"opens": "09:30"},
    )
    scarce = found(file)
    assert scarce.unchanged.left.late == 0
    assert scarce.unchanged.labor == 60
    by_text = {one.text: one.labor for one in scarce.values}
    assert by_text["everybody in 30 min earlier"] == 20


def test_what_no_longer_fits_the_budget_is_named_not_tried() -> None:
    morning = morning_of(one_burner())
    seconds = iter(range(0, 10_000, 3))
    tries = replace(TRIES, seconds=2.0)
    scarce = scarce_things(morning, tries, budget=6.0, clock=lambda: float(next(seconds)))
    texts = [one.text for one in candidates(morning)]
    assert sorted([*(one.text for one in scarce.values), *scarce.untried]) == sorted(texts)
    assert [one.text for one in scarce.values] == texts[:1]


def test_values_come_best_first() -> None:
    scores = [one.outcome.score for one in found(one_burner()).values]
    assert [(s.short, s.tardiness, s.labor) for s in scores] == sorted(
        (s.short, s.tardiness, s.labor) for s in scores
    )
