"""The pull list: whole units, what is left over, what is short, and who has to wait."""

from typing import Any

import pytest

from planner.quantities.types import PullLine
from tests.kitchens.bench import (
    File,
    bench,
    cut_from,
    day,
    delivery,
    dish,
    food,
    needs_of,
    raw,
    recipe,
    service,
    work,
)

BAG = {"unit": "bag", "holds": "5 kg", "cost": 12}
PIECE = [{"unit": "each", "weight": "150 g"}]


def kitchen(pork: File | None = None, **parts: Any) -> File:
    """Ten plates take 1,250 g of pork, trimmed at 0.8."""
    return bench(
        ingredients=[food("pork", **{"purchase": BAG, **(pork or {})}), food("salt")],
        operations=[work("cut", yields=[{"food": "pork", "fraction": 0.8}]), work("mix")],
        components=[cut_from("pork", "ham", "cut")],
        dishes=[dish("plate", {"ham": "100 g"})],
        **parts,
    )


def line_of(file: File, ingredient: str = "pork") -> PullLine:
    return next(line for line in needs_of(file).pulls if line.ingredient == ingredient)


def test_need_is_exact_and_pulled_is_whole_pieces() -> None:
    """1,250 g are eight and a third pieces of 150 g: nine, of which 100 g are left over."""
    line = line_of(kitchen({"weights": PIECE}))
    assert line.need.grams == pytest.approx(1250)
    assert (line.units, line.pull_unit) == (9, "each")
    assert line.pulled.grams == pytest.approx(1350)
    assert line.left_over == pytest.approx(100)


def test_the_pull_unit_is_the_kitchens_choice() -> None:
    line = line_of(kitchen({"weights": PIECE, "pull_unit": "bag"}))
    assert (line.units, line.pull_unit, line.left_over) == (1, "bag", pytest.approx(3750))


def test_without_pieces_it_is_weighed_out_to_the_gram() -> None:
    line = line_of(kitchen())
    assert (line.units, line.pull_unit, line.left_over) == (1250, "g", pytest.approx(0))


def test_what_comes_by_the_piece_is_pulled_by_the_piece() -> None:
    """A case of 30, whose weights say what one is."""
    case = {"purchase": {"unit": "case", "holds": "30 each", "cost": 60}, "weights": PIECE}
    line = line_of(kitchen(case))
    assert (line.units, line.pull_unit) == (9, "each")
    assert line.packs == pytest.approx(9 / 30)


def test_pieces_that_come_out_even_are_not_rounded_up() -> None:
    line = line_of(kitchen({"weights": [{"unit": "each", "weight": "125 g"}]}))
    assert (line.units, line.left_over) == (10, pytest.approx(0))


def test_packs_and_cost_follow_what_is_pulled() -> None:
    line = line_of(kitchen({"weights": PIECE}))
    assert (line.packs, line.pack_unit) == (pytest.approx(0.27), "bag")
    assert line.cost == pytest.approx(12 * 0.27)


def test_a_line_says_who_wants_how_much_and_from_where_it_is_pulled() -> None:
    file = kitchen({"storage": "dry store"})
    file["components"].append(recipe("hash", "1 kg", {"pork": "500 g", "salt": "10 g"}, "mix"))
    file["dishes"][0]["components"].append({"item": "hash", "amount": "100 g"})
    line = line_of(file)
    assert line.storage == "dry store"
    assert line.wanted_by == (("ham", pytest.approx(1250)), ("hash", pytest.approx(500)))
    assert line.need.grams == pytest.approx(1750)
    assert line_of(file, "salt").wanted_by == (("hash", pytest.approx(10)),)


def test_what_a_dish_takes_as_it_is_is_pulled_too() -> None:
    file = kitchen()
    file["dishes"][0]["components"].append({"item": "salt", "amount": "2 g"})
    assert line_of(file, "salt").wanted_by == (("plate", pytest.approx(20)),)


def test_tomorrows_raw_food_for_a_dish_is_not_pulled_today() -> None:
    file = kitchen(services=[service("feast", {"plate": 1.0}, ahead=1)])
    file["rules"]["lookahead_days"] = 1
    file["dishes"][0]["components"].append({"item": "salt", "amount": "2 g"})
    assert needs_of(file).pulls == ()


def test_enough_on_hand_is_no_matter_for_alarm() -> None:
    file = kitchen(raw_stock=[raw("pork", "2 kg")])
    assert (line_of(file).on_hand, line_of(file).short) == (2000, 0)
    assert needs_of(file).alerts == ()


def test_short_is_need_less_what_is_there_and_on_its_way() -> None:
    file = kitchen(
        raw_stock=[raw("pork", "600 g")], deliveries=[delivery("pork", "400 g", "08:00")]
    )
    line = line_of(file)
    assert (line.on_hand, line.short) == (600, pytest.approx(250))


def test_what_nobody_has_is_named_with_what_it_holds_up() -> None:
    (alert,) = needs_of(kitchen(raw_stock=[raw("pork", "1 kg")])).alerts
    assert (alert.kind, alert.item, alert.holds_up) == ("missing", "pork", ("Ham",))
    assert alert.text == "250 g of Pork: neither on hand nor on its way."


def test_a_missing_delivery_is_named_as_such() -> None:
    lost = delivery("pork", "5 kg", "09:00", state="missing")
    (alert,) = needs_of(kitchen(raw_stock=[], deliveries=[lost])).alerts
    assert (alert.kind, alert.holds_up) == ("delivery", ("Ham",))
    assert alert.text == "1.25 kg of Pork: the delivery is missing."


def test_a_delivery_after_the_work_should_start_is_named_with_what_waits() -> None:
    """Lunch wants ham at noon; 13 minutes of cutting should start at 11:47."""
    lunch = service("lunch", {"plate": 1.0}, opens="12:00", closes="14:00")
    late = kitchen(services=[lunch], raw_stock=[], deliveries=[delivery("pork", "5 kg", "11:50")])
    (alert,) = needs_of(late).alerts
    assert (alert.kind, alert.item, alert.holds_up) == ("delivery", "pork", ("Ham",))
    assert "comes at 11:50" in alert.text


def test_a_delivery_in_time_is_no_matter_for_alarm() -> None:
    lunch = service("lunch", {"plate": 1.0}, opens="12:00", closes="14:00")
    in_time = kitchen(
        services=[lunch], raw_stock=[], deliveries=[delivery("pork", "5 kg", "11:40")]
    )
    assert needs_of(in_time).alerts == ()


def test_raw_food_past_its_use_by_is_told() -> None:
    old = raw("pork", "5 kg", received=day(-4), use_by=day(-1))
    alerts = needs_of(kitchen(raw_stock=[old, raw("pork", "5 kg")])).alerts
    assert [(a.kind, a.item) for a in alerts] == [("use-by", "pork")]
    assert "5 kg of Pork is past its use-by (Mon 3 Mar)" in alerts[0].text


def test_a_staple_nobody_counts_is_never_short() -> None:
    file = kitchen({"counted": False}, raw_stock=[])
    assert line_of(file).short == 0
    assert needs_of(file).alerts == ()
