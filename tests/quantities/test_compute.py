"""A whole day: nested components, and work that starts one day and ends on another."""

from typing import Any

import pytest

from planner.quantities.types import Making
from tests.kitchens.bench import (
    File,
    bench,
    cut_from,
    day,
    dish,
    food,
    need_of,
    needs_of,
    recipe,
    service,
    stock,
    work,
)


def nested() -> File:
    """A bowl of soup, from stock, from ham, from pork: each takes half as much of the next."""
    return bench(
        ingredients=[food("pork")],
        operations=[work("cut", yields=[{"food": "pork", "fraction": 0.8}]), work("boil")],
        components=[
            cut_from("pork", "ham", "cut"),
            recipe("stock", "2 kg", {"ham": "1 kg"}, "boil"),
            recipe("soup", "2 kg", {"stock": "1 kg", "ham": "500 g"}, "boil"),
        ],
        dishes=[dish("bowl", {"soup": "400 g"}), dish("plate", {"ham": "10 g"})],
    )


def test_needs_flow_down_to_the_shelf_through_every_component() -> None:
    """Ten bowls: 4 kg soup, 2 kg stock, 1 kg ham for the stock, 1 kg for the soup, 100 g as is."""
    needs = needs_of(nested())
    made = {name: need.to_make for name, need in needs.by_component.items()}
    assert made == {
        "soup": pytest.approx(4000),
        "stock": pytest.approx(2000),
        "ham": pytest.approx(2100),
    }
    (line,) = needs.pulls
    assert line.need.grams == pytest.approx(2100 / 0.8)


def test_each_want_says_who_wants_it_and_which_dish_goes_short() -> None:
    wants = {w.consumer: w for w in need_of(nested(), "ham").wants}
    assert {c: w.grams for c, w in wants.items()} == {
        "soup": pytest.approx(1000),
        "stock": pytest.approx(1000),
        "plate": pytest.approx(100),
    }
    assert [(s.dish, s.portions) for s in wants["stock"].shares] == [("bowl", 10)]
    assert [(s.dish, s.portions) for s in wants["plate"].shares] == [("plate", 10)]


def test_stock_high_up_saves_everything_below() -> None:
    file = nested() | {"prepared": [stock("soup", "4 kg")]}
    assert need_of(file, "ham").to_make == pytest.approx(100)


def test_the_buffer_is_inside_once() -> None:
    """The soup's buffer is in its grams; nothing is put on top for the stock below."""
    file = nested()
    file["services"] = [
        service("dinner", {"bowl": 1.0}, covers=100, guaranteed=False, covers_spread=0.1)
    ]
    soup = need_of(file, "soup")
    assert soup.wants[0].buffer > 0
    (passed,) = need_of(file, "stock").wants
    assert passed.grams == pytest.approx(soup.to_make / 2)
    assert (passed.expected, passed.buffer) == (passed.grams, 0.0)


def test_a_component_nobody_wants_is_not_there() -> None:
    file = nested()
    file["components"].append(cut_from("pork", "chop", "cut"))
    assert "chop" not in needs_of(file).by_component


def brined(**parts: Any) -> File:
    """Pork brines for 15 hours, then loses a fifth in the oven; ten plates of 100 g."""
    return bench(
        ingredients=[food("pork")],
        operations=[
            work("brine", unattended_minutes=900),
            work("roast", yields=[{"food": "pork", "fraction": 0.8}]),
        ],
        components=[cut_from("pork", "ham", "brine", "roast")],
        dishes=[dish("plate", {"ham": "100 g"})],
        rules={"lookahead_days": 2},
        **parts,
    )


def shown(file: File) -> list[tuple[int, int, float, bool, bool]]:
    """(first step, last step, grams finished, finishes, missed) of today's makings, by due."""
    makings: list[Making] = sorted(need_of(file, "ham").makings, key=lambda m: m.due)
    return [
        (m.first_step, m.last_step, pytest.approx(m.grams), m.finishes, m.missed) for m in makings
    ]


TONIGHT = service("dinner", {"plate": 1.0})
TOMORROW = service("feast", {"plate": 2.0}, ahead=1)
LATER = service("fair", {"plate": 1.0}, ahead=2)


def test_the_brine_shows_up_on_the_day_it_starts_and_the_roast_does_not() -> None:
    file = brined(services=[TOMORROW])
    assert shown(file) == [(0, 1, 2000, False, False)]
    steps = need_of(file, "ham").steps
    assert [(s.operation, s.grams_in, s.grams_out) for s in steps] == [
        ("brine", pytest.approx(2500), pytest.approx(2500))
    ], "what the oven will take off tomorrow goes into the brine today"


def test_on_the_day_of_service_only_the_roast_is_left() -> None:
    file = brined(services=[TONIGHT], prepared=[stock("ham", "1250 g", after_step=1)])
    assert shown(file) == [(1, 2, 1000, True, False)]
    assert needs_of(file).pulls == (), "nothing raw is taken any more"
    assert needs_of(file).alerts == ()


def test_todays_roast_and_tomorrows_brine_stand_side_by_side() -> None:
    file = brined(services=[TONIGHT, TOMORROW], prepared=[stock("ham", "1250 g", after_step=1)])
    assert shown(file) == [(1, 2, 1000, True, False), (0, 1, 2000, False, False)]
    steps = {s.operation: s for s in need_of(file, "ham").steps}
    assert steps["roast"].grams_out == pytest.approx(1000)
    assert steps["brine"].grams_out == pytest.approx(2500)
    assert steps["brine"].from_stock == pytest.approx(1250)


def test_part_made_food_beyond_today_is_kept_for_tomorrow() -> None:
    """2,500 g in the brine: half for tonight, half of tomorrow's two kilos."""
    file = brined(services=[TONIGHT, TOMORROW], prepared=[stock("ham", "2500 g", after_step=1)])
    assert shown(file) == [(1, 2, 1000, True, False), (0, 1, 1000, False, False)]
    assert needs_of(file).ahead == ("Wed 5 Mar: Ham.",), "the other kilo is roasted tomorrow"


def test_part_made_food_past_its_day_does_not_count() -> None:
    file = brined(
        services=[TOMORROW], prepared=[stock("ham", "2500 g", after_step=1, use_by=day(0))]
    )
    assert shown(file) == [(0, 1, 2000, False, False)]


def test_what_should_have_been_started_is_told_and_made_as_well_as_may_be() -> None:
    file = brined(services=[TONIGHT])
    assert shown(file) == [(0, 2, 1000, True, True)]
    (alert,) = needs_of(file).alerts
    assert (alert.kind, alert.item) == ("missed start", "ham")
    assert alert.holds_up == ("Plate, Dinner",)
    assert alert.dishes == (("dinner", "plate"),)
    assert "earlier day" in alert.text


def test_part_made_food_is_on_hand_though_its_next_step_is_late() -> None:
    """Cut and roasted a day ahead: half of it is cut, so only the other half missed its start."""
    half = stock("ham", "625 g", after_step=1)
    file = brined(services=[TONIGHT], prepared=[half])
    file["operations"].append(work("cut"))
    file["components"] = [cut_from("pork", "ham", "cut", "roast", days_ahead=1)]
    assert sorted(shown(file)) == [(0, 2, 500, True, True), (1, 2, 500, True, True)]
    (alert,) = needs_of(file).alerts
    assert alert.text.startswith("500 g of Ham should have been started on an earlier day")
    file["prepared"] = [half | {"amount": "1250 g"}]
    assert shown(file) == [(1, 2, 1000, True, True)]
    assert needs_of(file).alerts == ()


def test_a_missed_route_is_one_alert_and_what_goes_into_it_none() -> None:
    """The soup for dinner had to simmer over night; its ham, cut in minutes, is late with it.

    The fair of the day after wants ham and soup too, and nothing of that is missed.
    """
    file = brined(services=[service("dinner", {"bowl": 1.0}), LATER | {"mix": []}])
    file["services"][1]["mix"] = [{"dish": each, "per_cover": 1.0} for each in ("bowl", "plate")]
    file["operations"] += [work("stew", unattended_minutes=900), work("cut")]
    file["components"] = [
        cut_from("pork", "ham", "cut"),
        recipe("soup", "1 kg", {"ham": "500 g"}, "stew"),
    ]
    file["dishes"].append(dish("bowl", {"soup": "100 g"}))
    (alert,) = needs_of(file).alerts
    assert (alert.kind, alert.item) == ("missed start", "soup")
    assert alert.dishes == (("dinner", "bowl"),)


@pytest.mark.parametrize(
    ("services", "words"),
    [
        ([TOMORROW], "its only service is on Wed 5 Mar"),
        (
            [TOMORROW, TOMORROW | {"id": "gala", "name": "Gala"}],
            "its services are all on Wed 5 Mar",
        ),
        ([TOMORROW, LATER], "its services are from Wed 5 Mar to Thu 6 Mar"),
    ],
)
def test_a_day_without_a_service_is_told_when_there_are_some(
    services: list[File], words: str
) -> None:
    (alert,) = (a for a in needs_of(brined(services=services)).alerts if a.kind == "no service")
    assert alert.text == f"The kitchen file has no service on Tue 4 Mar; {words}."


def test_what_starts_later_is_named_and_nothing_is_pulled_for_it() -> None:
    file = brined(services=[LATER])
    needs = needs_of(file)
    assert needs.by_component["ham"].makings == ()
    assert needs.pulls == ()
    assert needs.ahead == ("Wed 5 Mar: Ham.",)


def test_days_beyond_the_look_ahead_are_not_seen() -> None:
    file = brined(services=[TONIGHT, service("far", {"plate": 50.0 / 10}, ahead=3)])
    assert needs_of(file).ahead == ()
    assert sum(w.grams for w in need_of(file, "ham").wants) == pytest.approx(1000)


def test_the_input_of_a_nights_work_is_made_today() -> None:
    """The stew that simmers over night for tomorrow takes half a kilo of ham this afternoon."""
    file = brined(services=[service("feast", {"bowl": 1.0}, ahead=1)])
    file["operations"].append(work("stew", unattended_minutes=900))
    file["operations"].append(work("cut"))
    file["components"] = [
        cut_from("pork", "ham", "cut"),
        recipe("soup", "1 kg", {"ham": "500 g"}, "stew"),
    ]
    file["dishes"] = [dish("bowl", {"soup": "100 g"})]
    assert shown(file) == [(0, 1, 500, True, False)]
    (making,) = need_of(file, "ham").makings
    assert making.due == need_of(file, "soup").makings[0].start == 17 * 60 - 5


def test_prepared_food_past_its_use_by_is_told() -> None:
    old = stock("ham", "1 kg", made=day(-4), use_by=day(-1))
    alerts = needs_of(brined(services=[TOMORROW], prepared=[old])).alerts
    (alert,) = (a for a in alerts if a.kind == "use-by")
    assert alert.item == "ham"
    assert "discard it as the local food code says" in alert.text
