"""What a step leaves on boards and hands: raw until cooked through, allergens always."""

import pytest

from planner.lots.hygiene import HygieneBook
from planner.morning import PlanOptions, plan_morning
from planner.schedule.leads import needs_clean
from planner.schedule.problem import Hygiene
from tests.kitchens.bench import (
    DATE,
    NO_CHANGEOVERS,
    File,
    bench,
    cut_from,
    dish,
    food,
    kit_of,
    lots_of,
    read,
    recipe,
    work,
)
from tests.kitchens.bench import workload as workload_of

ROAST = work("roast", cooks_through=True, unattended_minutes=40, finish_minutes=4)


def kitchen() -> File:
    """Chicken is cut, roasted, picked; a salad of it has milk in, a farce is of two species."""
    salad = recipe("salad", "1 kg", {"picked": "500 g", "cream": "500 g"}, "mix")
    return bench(
        ingredients=[
            food("chicken", raw_animal="poultry"),
            food("veal", raw_animal="beef"),
            food("cream", allergens=["milk"]),
            food("bones", by_product=True, raw_animal="beef"),
        ],
        operations=[work("cut"), ROAST, work("pick"), work("mix")],
        components=[
            cut_from("chicken", "picked", "cut", "roast", "pick"),
            salad,
            recipe("farce", "1 kg", {"chicken": "500 g", "veal": "500 g"}, "mix"),
            cut_from("cream", "whipped", "mix"),
        ],
        dishes=[dish("plate", {"salad": "100 g", "farce": "10 g", "whipped": "10 g"})],
    )


KIT = kit_of(kitchen())
BOOK = HygieneBook(KIT.catalog)


def classed(component: str, step: int, *, after: bool = False) -> Hygiene:
    return BOOK.of(KIT.catalog.components[component], step, after=after)


@pytest.mark.parametrize(
    ("step", "after", "raw"),
    [(0, False, "poultry"), (1, False, "poultry"), (1, True, None), (2, False, None)],
    ids=["cutting it", "putting it into the oven", "taking it out", "picking it"],
)
def test_raw_animal_food_is_raw_until_it_is_cooked_through(
    step: int, after: bool, raw: str | None
) -> None:
    assert classed("picked", step, after=after).raw_animal == raw


def test_what_is_made_of_cooked_food_is_not_raw() -> None:
    assert classed("salad", 0).raw_animal is None


def test_several_species_are_a_class_of_their_own() -> None:
    assert classed("farce", 0).raw_animal == "beef+poultry"


def test_allergens_are_those_of_everything_in_it() -> None:
    assert classed("salad", 0).allergens == {"milk"}
    assert classed("whipped", 0).allergens == {"milk"}
    assert classed("picked", 0).allergens == frozenset()


def test_what_goes_in_later_is_not_there_before() -> None:
    """Cream goes into the salad once it is mixed; egg that joins after the roast stays raw."""
    file = kitchen()
    file["ingredients"].append(food("yolk", raw_animal="egg"))
    salad = file["components"][1]
    salad["inputs"][1]["after_step"] = 1
    salad["inputs"].append({"item": "yolk", "amount": "100 g", "after_step": 2})
    salad["route"] = [{"operation": name} for name in ("mix", "roast", "mix")]
    kit = kit_of(file)
    found = [HygieneBook(kit.catalog).of(kit.catalog.components["salad"], n) for n in range(3)]
    assert [set(each.allergens) for each in found] == [set(), {"milk"}, {"milk"}]
    assert [each.raw_animal for each in found] == [None, None, "egg"]


def raw_bar() -> File:
    """Trout is cut and sliced for raw service; cod is cut to be cooked to order."""
    return bench(
        ingredients=[food("trout", raw_animal="fish"), food("cod", raw_animal="fish")],
        operations=[work("cut"), work("slice")],
        components=[
            cut_from("trout", "fillet", "cut"),
            cut_from("fillet", "crudo", "slice", ready_to_eat=True),
            cut_from("cod", "portion", "cut"),
        ],
        dishes=[dish("plate", {"crudo": "100 g", "portion": "100 g"})],
    )


def test_raw_fish_that_is_served_raw_is_a_class_of_its_own_from_the_first_cut() -> None:
    """The same species, but one is cooked after and the other is not: a clean is due between."""
    kit = kit_of(raw_bar())
    book = HygieneBook(kit.catalog)
    found = {c: book.of(kit.catalog.components[c], 0) for c in ("fillet", "crudo", "portion")}
    assert found["fillet"] == found["crudo"] != found["portion"]
    assert found["portion"].raw_animal == "fish"
    assert needs_clean(found["portion"], found["crudo"])
    assert needs_clean(found["crudo"], found["portion"])


def test_the_board_is_cleaned_between_fish_to_cook_and_fish_to_eat_raw() -> None:
    file = raw_bar()
    file["rules"]["changeovers"] = {**NO_CHANGEOVERS, "clean": 7}
    file["stations"][0].update(places=1, food_contact=True)
    plan = plan_morning(read(file), DATE, PlanOptions(deterministic_limit=0.2, workers=1))
    assert sum(item.lead.clean for item in plan.solution.timetable.assignments) == 7


def test_what_is_worked_on_together_is_of_the_class_of_all_of_it() -> None:
    kit = kit_of(raw_bar())
    both = [kit.catalog.components[name] for name in ("portion", "crudo")]
    assert HygieneBook(kit.catalog).joint(both, 0).raw_animal == "fish, served raw"


def test_a_by_product_that_may_go_in_counts_as_in_it() -> None:
    file = kitchen()
    file["components"][1]["inputs"][0]["may_use"] = ["bones"]
    kit = kit_of(file)
    salad = kit.catalog.components["salad"]
    assert HygieneBook(kit.catalog).of(salad, 0).raw_animal == "beef"


def test_the_take_out_of_a_roast_leaves_nothing_raw_on_the_board() -> None:
    work = workload_of(kitchen())
    (lot,) = lots_of(work, "roast")
    classes = [
        work.problem.families[work.problem.tasks[item.task].family].hygiene.raw_animal
        for item in lot.tasks
    ]
    assert classes == ["poultry", None]


def test_lots_name_the_allergens_in_them() -> None:
    allergens = {lot.component: lot.allergens for lot in workload_of(kitchen()).lots}
    assert allergens["salad"] == allergens["whipped"] == {"milk"}
    assert allergens["picked"] == frozenset()
