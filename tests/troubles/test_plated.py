"""Food that a dish takes as it is: nobody prepares it, and yet a dish can want for it."""

from planner.morning import PlanOptions, plan_morning
from planner.plan import Remedy, Trouble
from planner.troubles.plated import beside
from tests.kitchens.bench import DATE, File, bench, cut_from, delivery, dish, food, raw, read, work

QUICK = PlanOptions(deterministic_limit=0.1, workers=1, remedies=False)


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


def test_no_remedy_of_the_schedule_solves_it() -> None:
    """What it leaves of the portions that lack cream is still short, before and after."""
    (short,) = found(cream=[])
    helped = Remedy("one more pair of hands", 0, 3, True, 0, 20, 7)
    (after,) = beside((helped,), (short,))
    assert (after.short_portions_before, after.short_portions, after.solves) == (17, 13, False)
    assert beside((helped,), ()) == (helped,)


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
