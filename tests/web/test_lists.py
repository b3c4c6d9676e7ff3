"""Pull lists, services, labor and how sure the plan is."""

from dataclasses import replace

from planner.sheet.build import build_sheet
from planner.sheet.pulls import ALERTS, NOT_ENOUGH
from planner.sheet.types import LeftOutItem, Objective, PullItem, StraightItem
from planner.why import why
from tests.kitchens.seeds import planned_seed
from tests.web.example import example_sheet, one_cook_sheet
from web.links import Links
from web.pages import render_kitchen
from web.presenters.hours import last_hands_on, runs_on
from web.presenters.kitchen import kitchen_view
from web.presenters.labor import cleaning, how_sure, labor_total, saving, term_views
from web.presenters.preferences import Preferences
from web.presenters.pulls import cold_words, pull_groups
from web.presenters.services import service_views
from web.presenters.typography import BY, TO

METRIC = Preferences()


def _pull(**changes: object) -> PullItem:
    onion = PullItem("onion", "Onion", 2900, 24, "each", 0.29, "10 kg bag", 120, "walk-in", "")
    return replace(onion, **changes)  # type: ignore[arg-type]


def test_a_counted_food_shows_pieces_weight_packs_and_what_is_left() -> None:
    line = pull_groups([_pull()], METRIC)[0].lines[0]
    assert (line.amount, line.that_is, line.left_over) == (
        "24 each",
        f"3.02 kg, 0.29{BY}10 kg bag",
        "120 g",
    )


def test_a_weighed_food_does_not_say_its_weight_twice() -> None:
    line = pull_groups([_pull(units=2900, unit="g", pack="kg", left_over=0)], METRIC)[0].lines[0]
    assert (line.amount, line.that_is, line.left_over) == ("2.9 kg", "", "")


def test_a_pull_is_never_rounded_down() -> None:
    """4944 g weighed out as 4.94 kg would leave the last portion short."""
    weighed = {"unit": "g", "pack": "kg", "left_over": 0}
    metric = [
        pull_groups([_pull(grams=grams, units=grams, **weighed)], METRIC)[0].lines[0].amount
        for grams in (4944.2, 116.2, 10_940, 6.23)
    ]
    assert metric == ["4.95 kg", "117 g", "11 kg", "6.3 g"]
    us = Preferences(units="us")
    line = pull_groups([_pull(grams=4944.2, units=4945, **weighed)], us)[0].lines[0]
    assert line.amount == "10 lb 15 oz"
    assert 4944.2 / 28.349523125 > 174, "10 lb 14 oz is not enough"


def test_the_list_and_the_reasons_name_the_same_pull() -> None:
    kitchen, plan = planned_seed("demo")
    sheet = build_sheet(kitchen, plan)
    for group in pull_groups(sheet.pulls, METRIC):
        for line in group.lines:
            said = why(kitchen, plan, line.ingredient).text
            weight = line.that_is.split(",")[0] if " = " in said else line.amount
            assert f"{weight}, as purchased" in said, said


def test_what_no_scale_shows_is_neither_left_over_nor_a_part_of_a_pack() -> None:
    """4 g of 2.9 kg is rounding; 4 g of 20 g of saffron is not."""
    onion = pull_groups([_pull(left_over=4, packs=0.04)], METRIC)[0].lines[0]
    assert (onion.left_over, onion.that_is) == ("", "2.91 kg")
    assert pull_groups([_pull(left_over=4, grams=20)], METRIC)[0].lines[0].left_over == "4 g"


def test_the_gram_that_a_weight_is_rounded_up_by_is_not_left_over() -> None:
    sesame = _pull(grams=75.2, units=76, unit="g", pack="kg", left_over=0.8)
    line = pull_groups([sesame], METRIC)[0].lines[0]
    assert (line.amount, line.left_over) == ("76 g", "")


def test_nothing_to_pull_says_none_and_keeps_the_note() -> None:
    line = pull_groups([_pull(units=0, grams=0, packs=0, note="Short by 1.8 kg")], METRIC)[0].lines
    assert (line[0].amount, line[0].that_is, line[0].note) == ("none", "", "Short by 1.8 kg")


def test_lines_are_gathered_by_place_for_one_trip() -> None:
    pulls = [_pull(), _pull(name="Rice", storage="dry store"), _pull(name="Leek")]
    groups = pull_groups(pulls, METRIC)
    assert [(group.storage, [line.name for line in group.lines]) for group in groups] == [
        ("walk-in", ["Onion", "Leek"]),
        ("dry store", ["Rice"]),
    ]


def test_food_that_must_stay_cold_is_fetched_for_its_batch() -> None:
    cream = _pull(name="Cream", uses=((566, 523.0), (772, 2100.0)))
    trout = _pull(name="Trout", uses=((1000, 2010.0),), raw_animal=True)
    groups = pull_groups([_pull(), cream, trout], METRIC)
    assert [(one.storage, one.apart, [line.when for line in one.lines]) for one in groups] == [
        ("walk-in", "", ["", "for 09:26 (523 g), 12:52 (2.1 kg)"]),
        (
            "walk-in",
            "raw animal food, below and apart from food that is ready to eat",
            ["for 16:40"],
        ),
    ]
    butter = _pull(uses=tuple((456 + step, 64.0) for step in range(8)))
    assert pull_groups([butter], METRIC)[0].lines[0].when == "for 07:36, then 7 times more"
    assert "5 C (41 F) or below" in cold_words(groups)
    assert "3-501.16; the local food code governs" in cold_words(groups)
    assert cold_words(pull_groups([_pull()], METRIC)) == ""


def test_what_goes_straight_to_the_line_says_for_which_dish_and_by_when() -> None:
    cream = StraightItem(
        "cream", "Cream", 1580.2, None, None, "Poached pears (Dinner)", 1020, "walk-in", True
    )
    sheet = replace(example_sheet(), straight=(cream,))
    (line,) = kitchen_view(sheet, METRIC).straight
    assert (line.amount, line.dish, line.due, line.storage) == (
        "1.59 kg",
        "Poached pears (Dinner)",
        "17:00",
        "walk-in, stays cold",
    )
    pears = replace(cream, prepared=True, storage="cold", use_by=sheet.date)
    (line,) = kitchen_view(replace(sheet, straight=(pears,)), METRIC).straight
    assert line.storage == "cold, prepared stock, use by Tue 9 Mar"
    counted = replace(cream, pieces=4.0, piece="bottle")
    (line,) = kitchen_view(replace(sheet, straight=(counted,)), METRIC).straight
    assert line.amount == "4 bottle, 1.59 kg"
    html = render_kitchen(sheet, Links.files())
    assert "Straight to the line" in html
    assert "Straight to the line" not in render_kitchen(example_sheet(), Links.files())


def test_expected_buffer_and_total_stand_apart() -> None:
    lunch = service_views(example_sheet(), METRIC)[0]
    soup = lunch.dishes[0]
    assert (soup.expected, soup.buffer, soup.total) == ("32", "+5", "37")
    assert soup.forecast == "31.5", "what the whole portions are rounded up from"
    assert (lunch.covers, lunch.due, lunch.doors, lunch.date) == ("90 covers", "11:00", "11:30", "")


def test_a_service_of_another_day_names_its_day() -> None:
    sheet = example_sheet()
    later = replace(sheet.services[0], date=sheet.date.replace(day=10), due=1440 + 660)
    view = service_views(replace(sheet, services=(later,)), METRIC)[0]
    assert view.date == "Wed 10 Mar"
    assert view.due == "11:00"


def test_the_total_of_labor_is_the_sum_of_its_lines() -> None:
    sheet = replace(
        example_sheet(), labor=(("A", 60, 5, 4, 3, 480, 100.0), ("B", 30, 1, 2, 0, 240, 1000.5))
    )
    total = labor_total(sheet)
    assert (total.hands_on, total.set_up, total.changeover) == ("1 h 30", "6 min", "6 min")
    assert (total.waiting, total.paid, total.wages) == ("3 min", "12 h", "1,100.50")


def test_what_batching_saved_is_said_as_it_is() -> None:
    sheet = replace(example_sheet(), saved_minutes=120, dish_by_dish_minutes=600)
    assert saving(sheet) == ("Batching saves 2 h, 20% of the same work done dish by dish (10 h).")
    assert saving(replace(sheet, saved_minutes=-30)).startswith("Batching costs 30 min more")
    assert saving(replace(sheet, saved_minutes=0)).startswith("Batching saves nothing")
    assert saving(replace(sheet, dish_by_dish_minutes=0)) == ""


def test_how_many_cleans_the_day_has_is_said_with_their_minutes() -> None:
    sheet = replace(example_sheet(), cleans=3, clean_minutes=15)
    text = "3 cleans of surfaces and tools, 15 min of the changeover; cleaning down is not planned."
    assert kitchen_view(sheet, METRIC).cleaning == text
    assert cleaning(replace(sheet, cleans=1)).startswith("1 clean of surfaces")
    assert cleaning(replace(sheet, cleans=0)) == ""


def test_no_saving_is_stated_where_the_two_are_not_of_the_same_food() -> None:
    sheet = replace(example_sheet(), saved_minutes=120, dish_by_dish_minutes=600, comparable=False)
    text = saving(sheet)
    assert text == (
        "No saving is stated: food is short today, so this plan and dish by dish (10 h) are not of "
        "the same food."
    )
    assert kitchen_view(sheet, METRIC).saving == text


def test_the_head_tells_hands_on_work_and_what_runs_on_by_itself_apart() -> None:
    """What proves overnight is done at 07:32; nobody stays for that."""
    facts = {fact.name: fact.value for fact in kitchen_view(example_sheet(), METRIC).facts}
    assert facts["Prep"] == f"06:00{TO}00:45 next day"
    assert facts["Runs by itself"] == "to 07:32 next day"
    hands_on = [replace(one, unattended_until=None) for one in example_sheet().cooks[0].batches]
    assert runs_on(hands_on, METRIC) == ""
    assert last_hands_on(hands_on) == max(one.end for one in hands_on)
    assert runs_on([], METRIC) == ""
    assert last_hands_on([]) is None


def test_how_sure_names_proof_or_bound() -> None:
    proven = Objective("labor", 600, 600, True, 0.0, "x")
    bounded = Objective("labor", 600, 540, False, 0.1, "one set-up a family")
    open_ = Objective("freshness", 30, 0, False, 30.0, "none")
    sheet = replace(example_sheet(), objective=(proven, bounded, open_))
    terms = term_views(sheet)
    assert terms[0].sure.startswith("Proven")
    assert terms[1].value == "10 h"
    assert terms[1].sure == (
        "At most 10% could still be saved: no plan goes below 9 h (one set-up a family)."
    )
    assert terms[2].sure == "Not proven: nothing rules out 0."
    assert how_sure(sheet).startswith("1 of 3 lines")
    assert how_sure(replace(sheet, objective=(proven,))).startswith("Every line")


def test_a_bare_sheet_has_a_view_too() -> None:
    view = kitchen_view(one_cook_sheet(), METRIC)
    assert view.services == ()
    assert view.saving == ""


def test_the_head_tells_of_short_portions_only_where_there_are_any() -> None:
    sheet = example_sheet()
    short = kitchen_view(replace(sheet, short_portions=14), METRIC).facts
    assert ("Short", "14 portions") in [(fact.name, fact.value) for fact in short]
    assert "Short" not in [fact.name for fact in kitchen_view(sheet, METRIC).facts]


def test_the_weighted_term_is_not_called_portions() -> None:
    """It counts a dish by its weight, and the head counts guests' portions: two numbers."""
    sheet = example_sheet()
    term = Objective("short", 299, 299, proven=True, gap=0.0, relaxation="what no plan can make")
    (view,) = term_views(replace(sheet, objective=(term,), short_portions=158))
    assert (view.name, view.value) == ("Short, weighted", "299")
    assert "weight of their dish" in view.meaning


def test_what_is_left_out_is_a_list_of_its_own_with_no_box_to_tick() -> None:
    cod = LeftOutItem("cod", "Cod", 4_279.0, 19.0, "fillet", ("Cod, leeks (Dinner)",))
    butter = LeftOutItem("ghee", "Clarified butter", 299.0, None, None, ("Cod, leeks (Dinner)",))
    sheet = replace(example_sheet(), left_out=(cod, replace(butter, prepared=True)))
    first, second = kitchen_view(sheet, METRIC).left_out
    assert (first.amount, first.wanted_for) == ("19 fillet, 4.28 kg", "Cod, leeks (Dinner)")
    assert (second.name, second.amount) == ("Clarified butter, prepared stock", "299 g")
    page = render_kitchen(sheet, Links.files())
    assert "Not pulled: left out" in page
    assert "Got Cod<" not in page
    assert "Not pulled: left out" not in render_kitchen(example_sheet(), Links.files())


def test_a_note_of_too_little_names_a_heading_of_the_page() -> None:
    assert f">{ALERTS}</h2>" in render_kitchen(example_sheet(), Links.files())
    assert ALERTS in NOT_ENOUGH
