"""Food that a dish takes as it is: nobody prepares it, and yet a dish can want for it."""

from dataclasses import replace

from planner.morning import PlanOptions, plan_morning
from planner.plan import Plan, Trouble
from planner.troubles.plated import Lack, Plated
from tests.kitchens.bench import (
    DATE,
    File,
    bench,
    cut_from,
    delivery,
    dish,
    food,
    raw,
    read,
    service,
    work,
)

QUICK = PlanOptions(deterministic_limit=0.1, workers=1, remedy_seconds=0.1, remedies=False)


def found(*, cream: list[File], deliveries: list[File] | None = None) -> list[Trouble]:
    """Ten plates of ham with 50 g cream each, for dinner at 18:00 until 22:00."""
    file = bench(
        ingredients=[food("pork"), food("cream")],
        operations=[work("cut")],
        components=[cut_from("pork", "ham", "cut")],
        dishes=[dish("plate", {"ham": "100 g", "cream": "50 g"})],
        raw_stock=[raw("pork", "5 kg"), *cream],
        deliveries=deliveries or [],
    )
    return list(plan_morning(read(file), DATE, QUICK).troubles)


def test_enough_of_it_is_no_trouble() -> None:
    assert found(cream=[raw("cream", "500 g")]) == []


def test_without_it_all_portions_are_short() -> None:
    (trouble,) = found(cream=[])
    assert (trouble.kind, trouble.item, trouble.portions) == ("short", "cream", 10)
    assert trouble.text == "Plate (Dinner): 10 portions short, for want of Cream"
    assert trouble.binding == "no Cream (0 of 500 g)"


def both(*, pork: str, cream: str, remedies: bool = False) -> Plan:
    """Ten plates that take ham of a kilo of pork and 500 g of cream, with less of both."""
    file = bench(
        ingredients=[food("pork"), food("cream")],
        operations=[work("cut", lot_limit="100 g")],
        components=[cut_from("pork", "ham", "cut")],
        dishes=[dish("plate", {"ham": "100 g", "cream": "50 g"})],
        raw_stock=[raw("pork", pork), raw("cream", cream)],
    )
    return plan_morning(read(file), DATE, replace(QUICK, remedies=remedies))


def test_a_dish_short_of_made_and_of_plated_food_is_told_once_by_the_larger() -> None:
    """Ham for seven plates, cream for four: six are short, and both must be got."""
    plan = both(pork="700 g", cream="200 g")
    (trouble,) = plan.troubles
    assert (trouble.portions, trouble.item, trouble.lacks_too) == (6, "cream", ("ham",))
    assert trouble.text == "Plate (Dinner): 6 portions short, for want of Cream; Ham"
    assert (
        trouble.binding
        == "not enough Cream (200 g of 500 g); and not enough Pork (700 g of 1.00 kg)"
    )
    assert (trouble.service, trouble.dish, plan.short_portions) == ("dinner", "plate", 6)


def test_the_larger_may_be_what_is_made() -> None:
    (trouble,) = both(pork="200 g", cream="350 g").troubles
    assert (trouble.portions, trouble.item, trouble.lacks_too) == (8, "ham", ("cream",))
    assert trouble.text.endswith("8 portions short, for want of Ham; Cream")


def test_what_is_got_is_short_no_more_whether_made_or_plated() -> None:
    plan = both(pork="700 g", cream="200 g", remedies=True)
    (remedy,) = (one for one in plan.remedies if one.text.startswith("get what is missing"))
    assert "300 g of Cream; 300 g of Pork" in remedy.text
    assert (remedy.short_portions_before, remedy.short_portions, remedy.solves) == (6, 0, True)


def test_plated_food_alone_is_to_be_got() -> None:
    """With all the pork there is no trouble that a schedule knows of."""
    (remedy,) = both(pork="1 kg", cream="200 g", remedies=True).remedies
    assert (remedy.short_portions_before, remedy.short_portions, remedy.solves) == (6, 0, True)


def test_what_is_bought_leaves_what_a_delivery_brings_too_late() -> None:
    plated = Plated((Lack("dinner:plate", "cream", 7, 3), Lack("dinner:soup", "salt", 2, 0)))
    assert plated.bought().lacks == (Lack("dinner:plate", "cream", 3, 3),)


def test_what_no_schedule_changes_is_left_by_every_other_remedy() -> None:
    """Ana alone is late; more hands are in time, and six plates still lack cream."""
    file = bench(
        ingredients=[food("pork"), food("cream")],
        operations=[work("cut", lot_limit="1 kg")],
        components=[cut_from("pork", "ham", "cut")],
        dishes=[dish("plate", {"ham": "100 g", "cream": "50 g"})],
        services=[service("brunch", {"plate": 1.0}, 60, opens="08:40", closes="12:00")],
        raw_stock=[raw("pork", "9 kg"), raw("cream", "2700 g")],
    )
    plan = plan_morning(read(file), DATE, replace(QUICK, remedies=True))
    (hands,) = (one for one in plan.remedies if "hands" in one.text)
    assert hands.text.startswith("30 more minutes"), "the least that does all that hands can"
    assert (hands.short_portions_before, hands.short_portions) == (6, 6)
    assert (hands.late_minutes, hands.solves) == (0, False)


def test_with_some_of_it_the_rest_is_short_in_whole_portions() -> None:
    """220 g are four portions and a part of a fifth."""
    (trouble,) = found(cream=[raw("cream", "220 g")])
    assert trouble.portions == 6
    assert "220 g of 500 g" in trouble.binding


def test_a_delivery_after_it_is_due_is_late_by_so_much() -> None:
    (trouble,) = found(cream=[], deliveries=[delivery("cream", "1 kg", "18:40")])
    assert (trouble.kind, trouble.minutes, trouble.portions) == ("late", 40, 10)
    assert "18:40" in trouble.binding


def test_a_delivery_after_the_doors_have_closed_serves_nobody() -> None:
    (trouble,) = found(cream=[], deliveries=[delivery("cream", "1 kg", "22:30")])
    assert (trouble.kind, trouble.portions) == ("short", 10)
    assert "comes too late" in trouble.binding
