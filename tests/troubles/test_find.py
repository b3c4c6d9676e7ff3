"""Over-full mornings: what is late or short, by how much, and what binds."""

from typing import Any

import pytest

from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan, Trouble
from tests.kitchens.bench import (
    DATE,
    File,
    bench,
    cook,
    cut_from,
    day,
    delivery,
    dish,
    food,
    raw,
    read,
    recipe,
    service,
    work,
)

QUICK = PlanOptions(deterministic_limit=0.1, workers=1, remedies=False)


def plan_of(file: File) -> Plan:
    return plan_morning(read(file), DATE, QUICK)


def only(file: File) -> Trouble:
    (trouble,) = plan_of(file).troubles
    return trouble


def brunch(opens: str, closes: str = "12:00", covers: int = 10, **fields: Any) -> list[File]:
    return [service("brunch", {"plate": 1.0}, covers, opens=opens, closes=closes, **fields)]


def kitchen(*operations: File, **parts: Any) -> File:
    """Ham, made of pork by the operations in their order: 100 g a plate, ten minutes a kilo."""
    route = [each["id"] for each in operations]
    return bench(
        ingredients=[food("pork")],
        operations=list(operations),
        components=[cut_from("pork", "ham", *route)],
        dishes=[dish("plate", {"ham": "100 g"})],
        **parts,
    )


CUT = work("cut", lot_limit="1 kg")


def test_a_morning_with_time_to_spare_has_no_troubles() -> None:
    plan = plan_of(kitchen(CUT, services=brunch("09:00")))
    assert (plan.troubles, plan.late, plan.short) == ((), (), ())


def test_what_is_late_says_by_how_many_minutes_and_that_hands_bind() -> None:
    """60 minutes of cutting from 08:00 for 08:40."""
    trouble = only(kitchen(CUT, services=brunch("08:40", covers=60)))
    assert trouble.kind == "late"
    assert trouble.text == "Ham, to be ready by 08:40 for Brunch, is 20 min late"
    assert (trouble.minutes, trouble.item) == (20, "ham")
    assert trouble.binding == "cook hours"


def test_portions_at_stake_are_those_of_the_late_lots() -> None:
    """Of six lots of ten plates the last two are late."""
    assert only(kitchen(CUT, services=brunch("08:40", covers=60))).portions == 20


def test_what_cannot_be_made_before_the_close_is_short() -> None:
    """60 minutes of cutting from 08:00, of use until 08:40: four lots of ten plates are made."""
    plan = plan_of(kitchen(CUT, services=brunch("08:30", "08:40", covers=60)))
    (short,) = plan.short
    assert short.text == "Plate (Brunch): 20 portions short, for want of Ham"
    assert (short.portions, short.minutes, short.binding) == (20, 20, "cook hours")
    assert (short.lacks, short.unit) == ("hands", "portions")


def test_a_single_portion_is_one() -> None:
    plan = plan_of(
        kitchen(
            work("cut", lot_limit="100 g"),
            services=brunch("08:05", "08:09", covers=10),
        )
    )
    (short,) = plan.short
    assert short.text == "Plate (Brunch): 1 portion short, for want of Ham"


def test_a_skill_that_few_have_is_named() -> None:
    unskilled = cook("ben", skills=[{"skill": "washing"}])
    trouble = only(
        kitchen(CUT, services=brunch("08:40", covers=60), cooks=[cook("ana"), unskilled])
    )
    assert trouble.binding == "cook hours: 1 of 2 cooks has the skill 'hands'"


def test_unattended_minutes_of_the_route_bind() -> None:
    """Two hours in the oven for 09:00: more hands would not help."""
    roast = work("roast", unattended_minutes=120, finish_minutes=5)
    trouble = only(kitchen(roast, services=brunch("09:00")))
    assert trouble.binding == "unattended minutes of its own route (roast)"
    assert trouble.minutes == 10 + 120 + 5 - 60


def test_a_delivery_binds() -> None:
    file = kitchen(CUT, services=brunch("10:25"), raw_stock=[])
    file["deliveries"] = [delivery("pork", "9 kg", "10:20")]
    trouble = only(file)
    assert trouble.binding == "its delivery comes at 10:20"
    assert trouble.minutes == 5


def test_an_oven_binds() -> None:
    """Two lots of an hour each, one after the other in the one oven, both due at 09:10."""
    roast = work(
        "roast",
        minutes_per=0,
        each_lot_minutes=1,
        unattended_minutes=59,
        finish_minutes=1,
        lot_limit="1 kg",
        equipment=[{"equipment": "oven"}],
    )
    oven = [{"id": "oven", "name": "Oven", "count": 1}]
    trouble = only(
        kitchen(roast, services=brunch("09:10", covers=20), equipment=oven, cooks=[
            cook("ana"), cook("ben")])
    )  # fmt: skip
    assert trouble.binding == "Oven in use"
    assert trouble.minutes > 40


def test_a_cook_who_is_away_binds() -> None:
    """Nobody is at prep before 09:30, and the food is due at 09:35."""
    line = [{"start": "08:00", "end": "09:30"}]
    file = kitchen(CUT, services=brunch("09:35"), cooks=[cook("ana", shift={"on_line": line})])
    assert only(file).binding == "Ana is on the line 08:00 to 09:30"


def test_a_cook_on_a_break_binds_and_the_break_is_named_with_its_time() -> None:
    rest = [{"start": "08:00", "minutes": 90}]
    file = kitchen(CUT, services=brunch("09:35"), cooks=[cook("ana", shift={"breaks": rest})])
    assert only(file).binding == "Ana is on a break 08:00 to 09:30"


def test_raw_food_that_nobody_has_is_named() -> None:
    trouble = only(kitchen(CUT, services=brunch("10:00"), raw_stock=[raw("pork", "600 g")]))
    assert (trouble.kind, trouble.portions) == ("short", 4)
    assert trouble.binding == "not enough Pork (600 g of 1.00 kg)"


def test_raw_food_that_is_missing_is_no_want_of_hands() -> None:
    """Ham needs pork, of which there is none; nobody then mixes the soup that goes with it."""
    file = kitchen(CUT, services=brunch("10:00"), raw_stock=[])
    file["ingredients"].append(food("leek"))
    file["operations"].append(work("mix"))
    file["components"].append(recipe("soup", "1 kg", {"leek": "1 kg"}, "mix"))
    file["dishes"][0]["components"].append({"item": "soup", "amount": "100 g"})
    file["raw_stock"].append(raw("leek", "9 kg"))
    trouble = only(file)
    assert trouble.text == "Plate (Brunch): 10 portions short, for want of Ham"
    assert (trouble.lacks, trouble.minutes) == ("food", 0)
    assert trouble.binding == "no Pork (0 of 1.00 kg)"


def test_a_route_too_long_for_the_day_is_named() -> None:
    roast = work("roast", unattended_minutes=300, finish_minutes=5)
    trouble = only(kitchen(roast, services=brunch("09:00", "10:00")))
    assert (trouble.lacks, trouble.minutes) == ("route", 10 + 300 + 5 - 120)
    assert trouble.binding.startswith("its steps take 3 h 15 longer than there is before service")


def roasting(racks: int, **fields: Any) -> File:
    """Each lot of a kilo is an hour in the oven, on a rack; two cooks have little to do."""
    roast = work(
        "roast",
        minutes_per=0,
        each_lot_minutes=1,
        unattended_minutes=58,
        finish_minutes=1,
        lot_limit="1 kg",
        equipment=[{"equipment": "rack"}],
    )
    there = [{"id": "rack", "name": "Oven rack", "count": racks}]
    return kitchen(roast, equipment=there, cooks=[cook("ana"), cook("ben")], **fields)


def test_a_vessel_that_is_full_binds_what_is_short_while_cooks_are_idle() -> None:
    """Three lots of an hour each on one rack, of use until a minute past ten: two are made."""
    trouble = only(roasting(1, services=brunch("10:00", "10:01", covers=30)))
    assert (trouble.portions, trouble.lacks, trouble.resource) == (10, "resource", "equipment:rack")
    assert trouble.binding == "Oven rack in use"
    assert trouble.minutes == 59, "an hour of one rack, but for the minute that is left of it"
    assert plan_of(roasting(2, services=brunch("10:00", "10:01", covers=30))).troubles == ()


def test_hands_bind_where_the_vessel_has_room() -> None:
    file = kitchen(CUT | {"equipment": [{"equipment": "knife"}]},
                   services=brunch("08:30", "08:40", covers=60),
                   equipment=[{"id": "knife", "name": "Knife", "count": 9}])  # fmt: skip
    assert (only_short(file).lacks, only_short(file).resource) == ("hands", "")


def only_short(file: File) -> Trouble:
    (trouble,) = plan_of(file).short
    return trouble


def with_soup(file: File, name: str) -> File:
    """Ten plates take soup beside the ham; ``name`` sorts it before ham or after."""
    file["ingredients"].append(food("leek"))
    file["operations"].append(work("mix"))
    file["components"].append(recipe(name, "1 kg", {"leek": "1 kg"}, "mix"))
    file["dishes"][0]["components"].append({"item": name, "amount": "100 g"})
    file["raw_stock"].append(raw("leek", "9 kg"))
    return file


@pytest.mark.parametrize("name", ["a_soup", "z_soup"])
def test_of_what_is_as_short_that_which_is_blocked_is_the_cause(name: str) -> None:
    """There is a rack for two thirds of the ham; nobody mixes soup for the rest in vain."""
    file = with_soup(roasting(1, services=brunch("10:00", "10:01", covers=30)), name)
    file["operations"][-1]["lot_limit"] = "1 kg"
    trouble = only(file)
    assert trouble.text == "Plate (Brunch): 10 portions short, for want of Ham"
    assert trouble.resource == "equipment:rack"
    assert [(one.item, one.name) for one in trouble.left_out] == [(name, name.capitalize())]


def test_what_is_left_out_with_missing_food_is_listed() -> None:
    trouble = only(with_soup(kitchen(CUT, services=brunch("10:00"), raw_stock=[]), "z_soup"))
    assert trouble.item == "ham"
    assert [one.item for one in trouble.left_out] == ["z_soup"]


def test_a_skill_nobody_who_is_in_has_is_named() -> None:
    shifts = [{"date": day(1), "start": "08:00", "end": "17:00"}]
    away = cook("ana", shifts=shifts)
    ben = cook("ben", skills=[{"skill": "washing"}])
    trouble = only(kitchen(CUT, services=brunch("10:00"), cooks=[away, ben]))
    assert trouble.binding == "nobody who is in has the skill 'hands' (Board)"


def test_a_dish_is_as_short_as_its_shortest_component() -> None:
    """Soup for four plates is missing, and ham for two of these: four are short."""
    file = kitchen(CUT, services=brunch("10:00"), raw_stock=[raw("pork", "800 g")])
    file["ingredients"].append(food("leek"))
    file["operations"].append(work("mix"))
    file["components"].append(recipe("soup", "1 kg", {"leek": "1 kg"}, "mix"))
    file["dishes"][0]["components"].append({"item": "soup", "amount": "100 g"})
    file["raw_stock"].append(raw("leek", "600 g"))
    trouble = only(file)
    assert (trouble.item, trouble.portions) == ("soup", 4)
    assert trouble.text == "Plate (Brunch): 4 portions short, for want of Soup; Ham"
    assert trouble.lacks_too == ("ham",)


def test_minutes_of_what_is_short_count_all_that_is_not_made_for_it() -> None:
    """Trimmed and cut, ten minutes a kilo of each: of two kilos there is time for one."""
    trim = work("trim", lot_limit="1 kg")
    trouble = only(kitchen(trim, CUT, services=brunch("08:25", "08:30", covers=20)))
    assert (trouble.portions, trouble.minutes, trouble.lacks) == (10, 20, "hands")


def test_a_par_that_is_not_filled_is_told_by_the_kilo() -> None:
    file = kitchen(CUT, services=brunch("10:00"), raw_stock=[raw("pork", "1 kg")])
    file["components"][0]["par"] = "4 kg"
    trouble = only(file)
    assert trouble.text == "Ham, the kitchen's own par or batch: about 3 kg short"
    assert (trouble.portions, trouble.unit) == (3, "kg")


def test_what_is_short_comes_before_what_is_late() -> None:
    """Ham lacks pork; the roast, in the oven for two hours, is late."""
    roast = work("roast", unattended_minutes=120, finish_minutes=5)
    file = kitchen(CUT, services=brunch("09:00"), raw_stock=[])
    file["ingredients"].append(food("beet"))
    file["operations"].append(roast)
    file["components"].append(cut_from("beet", "wedges", "roast"))
    file["dishes"].append(dish("salad", {"wedges": "100 g"}))
    file["services"][0]["mix"].append({"dish": "salad", "per_cover": 1.0})
    file["raw_stock"].append(raw("beet", "9 kg"))
    assert [trouble.kind for trouble in plan_of(file).troubles] == ["short", "late"]


def test_another_day_is_named_with_its_service() -> None:
    """What is begun today for tomorrow and cannot be is told with tomorrow's day."""
    soak = work("soak", unattended_minutes=720, finish_minutes=0)
    file = kitchen(soak, CUT, services=[], raw_stock=[], rules={"lookahead_days": 1})
    file["services"] = [service("brunch", {"plate": 1.0}, opens="09:00", closes="12:00", ahead=1)]
    assert only(file).text == "Plate (Brunch, Wed 5 Mar): 10 portions short, for want of Ham"


def test_unattended_minutes_of_another_food_are_not_told_of_this_one() -> None:
    """Ana waits by the oven for the beets, and only then cuts the ham, which is late."""
    roast = work("roast", minutes_per=0, each_lot_minutes=1, unattended_minutes=40,
                 finish_minutes=1, finish_within_minutes=0)  # fmt: skip
    file = kitchen(CUT, services=brunch("08:40", covers=60))
    file["ingredients"].append(food("beet"))
    file["operations"].append(roast)
    file["components"].append(cut_from("beet", "wedges", "roast"))
    file["dishes"].append(dish("salad", {"wedges": "100 g"}))
    file["services"][0]["mix"].append({"dish": "salad", "per_cover": 1.0})
    file["raw_stock"].append(raw("beet", "9 kg"))
    late = {trouble.item: trouble.binding for trouble in plan_of(file).late}
    assert late == {
        "ham": "cook hours",
        "wedges": "unattended minutes of its own route (roast)",
    }


@pytest.mark.parametrize("covers", [45, 60, 80])
def test_troubles_tell_the_whole_score(covers: int) -> None:
    """Late minutes and short portions of the troubles are those that the plan was scored by."""
    plan = plan_of(kitchen(work("cut", lot_limit="3 kg"), services=brunch("08:40", covers=covers)))
    assert bool(plan.late) == (plan.solution.score.tardiness > 0)
    assert sum(t.portions for t in plan.short) == plan.solution.score.short
