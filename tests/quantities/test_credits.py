"""By-products that stand in for raw food: in time, once, and never from what they replace."""

from typing import Any

import pytest

from planner.quantities.types import Credit
from tests.kitchens.bench import (
    PLENTY,
    File,
    bench,
    cut_from,
    day,
    delivery,
    dish,
    food,
    making_of,
    need_of,
    needs_of,
    raw,
    recipe,
    service,
    work,
)

LOSS = 1000 / 0.8 * 0.2
"""Grams that trimming takes off for a kilo of ham: 250 g."""
ENDS = LOSS * 0.6
"""Of which this much is of use: 150 g."""


def kitchen(*, simmers: int = 60, **parts: Any) -> File:
    """Ham is trimmed pork whose ends may go into a soup in place of beef.

    Ten plates take a kilo of ham, ten bowls a kilo of soup, which takes a kilo of beef. The soup is
    put on at 16:50 for 18:00; trimming takes 13 minutes from 08:00.
    """
    trim = work(
        "trim",
        yields=[{"food": "pork", "fraction": 0.8, "trim": [{"item": "ends", "share": 0.6}]}],
    )
    soup = recipe("soup", "1 kg", {"beef": "1 kg"}, "simmer")
    soup["inputs"][0]["may_use"] = ["ends"]
    return bench(
        ingredients=[food("pork"), food("beef"), food("ends", by_product=True)],
        operations=[trim, work("simmer", unattended_minutes=simmers)],
        components=[cut_from("pork", "ham", "trim"), soup],
        dishes=[dish("plate", {"ham": "100 g"}), dish("bowl", {"soup": "100 g"})],
        **parts,
    )


def beef(file: File) -> float:
    """Grams of beef that the soup takes."""
    return {i.item: i.grams for i in need_of(file, "soup").inputs}["beef"]


def credited(file: File) -> float:
    """Grams of ends that stand in for beef."""
    return sum(credit.grams for credit in making_of(file, "soup").credits)


def test_the_usable_share_of_what_is_trimmed_stands_in_for_raw_food() -> None:
    file = kitchen()
    assert making_of(file, "soup").credits == (Credit("ends", "ham", 0, pytest.approx(ENDS)),)
    assert beef(file) == pytest.approx(1000 - ENDS)


def test_the_pull_list_is_less_by_what_the_trim_saves() -> None:
    need = {line.ingredient: line.need.grams for line in needs_of(kitchen()).pulls}
    assert need == {"pork": pytest.approx(1250), "beef": pytest.approx(1000 - ENDS)}


def test_an_input_that_names_no_by_product_gets_none() -> None:
    file = kitchen()
    file["components"][1]["inputs"][0]["may_use"] = []
    assert credited(file) == 0
    assert beef(file) == pytest.approx(1000)


def test_trim_is_counted_on_as_cautiously_as_food_is_pulled() -> None:
    """Of a poor load more is taken off, of a rich one less: both are to be enough."""
    file = kitchen(rules={"pull_level": 0.9})
    own = {"fraction": 0.8, "spread": 0.03, "tests": 9, "decided": "2026-03-01"}
    file["operations"][0]["yields"][0]["own"] = own
    pork = {line.ingredient: line.need.grams for line in needs_of(file).pulls}["pork"]
    assert pork == pytest.approx(1000 / (0.8 - 1.28155 * 0.03), rel=1e-5)
    assert credited(file) == pytest.approx((1000 / (0.8 + 1.28155 * 0.03) - 1000) * 0.6, rel=1e-4)
    assert beef(file) == pytest.approx(1000 - credited(file))


def test_no_more_stands_in_than_is_wanted() -> None:
    file = kitchen(services=[service("dinner", {"plate": 100.0 / 10, "bowl": 0.1})])
    assert credited(file) == pytest.approx(100), "100 g of soup take 100 g, of 1,500 g of ends"
    assert beef(file) == 0


def test_each_gram_stands_in_once() -> None:
    """Lunch and dinner both want soup; the ends that are there in time go to the first."""
    lunch = service("lunch", {"plate": 0.0, "bowl": 1.0}, opens="16:00", closes="17:00")
    dinner = service("dinner", {"plate": 1.0, "bowl": 1.0})
    needs = needs_of(kitchen(services=[lunch, dinner])).by_component["soup"]
    by_due = sorted(needs.makings, key=lambda making: making.due)
    assert [sum(c.grams for c in making.credits) for making in by_due] == [
        pytest.approx(ENDS),
        0,
    ]


def test_trim_that_comes_too_late_is_not_counted_on() -> None:
    """For soup at 09:30 the pot goes on at 08:20; trimming is over at 08:13, plus an hour."""
    early = service("dinner", {"plate": 1.0, "bowl": 1.0}, opens="09:30")
    assert credited(kitchen(services=[early])) == 0


def test_trim_of_food_that_is_delivered_is_there_after_the_delivery() -> None:
    """Pork at 14:00 leaves ends by 15:13; the pot for six o'clock is put on at 15:50 or 14:50."""
    for alone, expected in ((120, ENDS), (180, 0)):
        file = kitchen(simmers=alone)
        file["raw_stock"] = [raw("beef", PLENTY)]
        file["deliveries"] = [delivery("pork", "10 kg", "14:00")]
        assert credited(file) == pytest.approx(expected)


def test_food_that_nobody_has_leaves_no_trim() -> None:
    """Half of the pork is missing, and with it half of the ends."""
    file = kitchen()
    file["raw_stock"] = [raw("beef", PLENTY), raw("pork", "625 g")]
    assert credited(file) == pytest.approx(ENDS / 2)
    file["raw_stock"] = [raw("beef", PLENTY)]
    assert credited(file) == 0


def test_trim_of_food_that_must_be_fresh_comes_as_late_as_the_food() -> None:
    """Cut no sooner than an hour before doors, so no ends before 17:00: too late for the pot."""
    file = kitchen()
    file["components"][0]["fresh_hours"] = 1
    assert credited(file) == 0
    file["components"][0]["fresh_hours"] = 2
    assert credited(file) == pytest.approx(ENDS)


def test_trim_of_what_is_made_of_something_slow_comes_after_it() -> None:
    """The ham is trimmed from a shoulder that cooks for eight hours first."""
    file = kitchen()
    file["operations"].append(work("cook", unattended_minutes=480))
    file["components"].append(cut_from("pork", "shoulder", "cook"))
    file["components"][0]["inputs"][0]["item"] = "shoulder"
    file["operations"][0]["yields"][0]["food"] = "shoulder"
    assert credited(file) == 0
    file["operations"][-1]["unattended_minutes"] = 30
    assert credited(file) == pytest.approx(ENDS)


def test_a_by_product_on_hand_stands_in_at_any_time() -> None:
    early = service("dinner", {"plate": 1.0, "bowl": 1.0}, opens="09:30")
    file = kitchen(services=[early])
    file["raw_stock"].append(raw("ends", "400 g"))
    assert making_of(file, "soup").credits == (Credit("ends", "on hand", -1, pytest.approx(400)),)
    assert beef(file) == pytest.approx(600)


def test_a_by_product_past_its_use_by_stands_in_for_nothing() -> None:
    file = kitchen()
    file["raw_stock"].append(raw("ends", "400 g", received=day(-4), use_by=day(-1)))
    assert credited(file) == pytest.approx(ENDS)


def test_a_by_product_that_has_not_come_yet_stands_in_for_nothing() -> None:
    file = kitchen()
    file["raw_stock"].append(raw("ends", "400 g", received=day(1)))
    assert credited(file) == pytest.approx(ENDS)


def test_no_credit_eats_what_it_is_made_of() -> None:
    """Ends of ham for ham in the soup: less ham would leave fewer ends."""
    file = kitchen()
    file["components"][1] = recipe("soup", "1 kg", {"ham": "1 kg"}, "simmer")
    file["components"][1]["inputs"][0]["may_use"] = ["ends"]
    assert credited(file) == 0
    assert need_of(file, "ham").to_make == pytest.approx(2000)


def circular(*, second: str) -> File:
    """The soup may use ends of the ham, which is cut from ``second``, made of soup or not."""
    file = kitchen()
    file["ingredients"].append(food("herbs"))
    file["components"].append(recipe("brined", "1 kg", {second: "1 kg"}, "simmer"))
    file["components"][0]["inputs"][0]["item"] = "brined"
    file["operations"][0]["yields"][0]["food"] = "brined"
    file["operations"][1]["unattended_minutes"] = 0
    file["raw_stock"].append(raw("herbs", PLENTY))
    return file


def test_nothing_waits_for_the_trim_of_what_is_made_of_it() -> None:
    """Ham cut from meat that lay in the soup: the soup must be there before the ends."""
    assert credited(circular(second="herbs")) == pytest.approx(ENDS)
    need = need_of(circular(second="soup"), "soup")
    assert [making.credits for making in need.makings] == [(), ()]


def test_two_components_do_not_wait_for_each_others_trim() -> None:
    """Each may use the other's ends instead of its own raw food; only one of them gets to."""
    trims = [
        work(
            f"trim_{item}",
            yields=[
                {"food": item, "fraction": 0.8, "trim": [{"item": f"{item}_ends", "share": 1}]}
            ],
        )
        for item in ("pork", "beef")
    ]
    ham, steak = cut_from("pork", "ham", "trim_pork"), cut_from("beef", "steak", "trim_beef")
    ham["inputs"][0]["may_use"] = ["beef_ends"]
    steak["inputs"][0]["may_use"] = ["pork_ends"]
    file = bench(
        ingredients=[
            food("pork"),
            food("beef"),
            food("pork_ends", by_product=True),
            food("beef_ends", by_product=True),
        ],
        operations=trims,
        components=[ham, steak],
        dishes=[dish("plate", {"ham": "100 g", "steak": "100 g"})],
    )
    given = [bool(making_of(file, name).credits) for name in ("ham", "steak")]
    assert sorted(given) == [False, True]
