"""What goes short when a lot is not made: portions that add up to the dish's total."""

from collections import defaultdict
from typing import Any

from planner.lots.types import Lot, Workload
from tests.kitchens.bench import (
    File,
    bench,
    cut_from,
    dish,
    food,
    lots_of,
    recipe,
    service,
    stock,
    work,
    workload,
)


def kitchen(**parts: Any) -> File:
    """A bowl takes soup and ham; the soup takes ham too. Ham is cut in lots of at most 400 g."""
    return bench(
        ingredients=[food("pork")],
        operations=[
            work("trim"),
            work("cut", lot_limit=parts.pop("lots", "400 g")),
            work("boil"),
        ],
        components=[
            cut_from("pork", "ham", "trim", "cut", **parts.pop("ham", {})),
            recipe("soup", "1 kg", {"ham": "500 g"}, "boil"),
        ],
        dishes=[dish("bowl", {"soup": "100 g", "ham": "150 g"}, weight=3)],
        **parts,
    )


def served(work: Workload) -> dict[tuple[str, str], int]:
    """Portions that lots serve, by promise and component."""
    total: dict[tuple[str, str], int] = defaultdict(int)
    for job in work.problem.jobs:
        for serving in job.serves:
            total[work.problem.promises[serving.promise].id, serving.component] += serving.portions
    return dict(total)


def serves(work: Workload, lot: Lot) -> list[tuple[str, int]]:
    return [(s.component, s.portions) for s in work.problem.jobs[lot.index].serves]


def test_the_lots_of_each_component_add_up_to_the_portions_of_the_dish() -> None:
    """Ten bowls: one pot of soup, and ham in lots for 2.7 portions each."""
    made = workload(kitchen())
    assert len(lots_of(made, "cut")) > 3
    assert served(made) == {("dinner:bowl", "soup"): 10, ("dinner:bowl", "ham"): 10}


def test_a_promise_is_the_dish_at_its_service_with_its_weight() -> None:
    (promise,) = workload(kitchen()).problem.promises
    assert (promise.id, promise.portions, promise.weight) == ("dinner:bowl", 10, 3)


def test_only_the_end_of_a_days_route_serves() -> None:
    """Trimming serves through the cutting that needs it."""
    made = workload(kitchen())
    for lot in lots_of(made, "trim"):
        assert serves(made, lot) == []


def test_food_that_another_lot_takes_serves_through_it() -> None:
    """Ham for the soup serves nobody by itself; dropping it drops the soup."""
    made = workload(kitchen(lots="10 kg"))
    (cut,), (boiled,) = lots_of(made, "cut"), lots_of(made, "boil")
    assert cut.index in made.problem.jobs[boiled.index].needs
    assert serves(made, cut) == [("ham", 10)], "the bowls' own ham, and not the soup's"
    assert serves(made, boiled) == [("soup", 10)]


def test_stock_serves_its_part_without_a_lot() -> None:
    """Of the ham, 200 g go into the 400 g of soup that are still to boil."""
    made = workload(kitchen(prepared=[stock("soup", "600 g"), stock("ham", "950 g")]))
    assert served(made) == {("dinner:bowl", "soup"): 4, ("dinner:bowl", "ham"): 5}


def test_every_lot_that_ends_its_route_is_worth_a_portion() -> None:
    """One bowl of ham in four lots: none may be dropped for nothing."""
    made = workload(kitchen(lots="40 g", services=[service("dinner", {"bowl": 0.1})]))
    ends = [serves(made, lot) for lot in lots_of(made, "cut")]
    assert [("ham", 1)] in ends
    assert all(portions >= 1 for found in ends for _, portions in found)


def test_two_services_are_two_promises() -> None:
    lunch = service("lunch", {"bowl": 0.5}, opens="12:00", closes="14:00")
    made = workload(kitchen(services=[lunch, service("dinner", {"bowl": 1.0})]))
    assert served(made) == {
        ("lunch:bowl", "soup"): 5,
        ("lunch:bowl", "ham"): 5,
        ("dinner:bowl", "soup"): 10,
        ("dinner:bowl", "ham"): 10,
    }


def test_what_the_kitchen_wants_for_itself_is_a_promise_by_the_kilo() -> None:
    """10 kg par of ham, of which 2 kg are for tonight."""
    made = workload(kitchen(lots="100 kg", ham={"par": "10 kg"}))
    assert served(made)["the kitchen:ham", "ham"] == 8


def test_what_is_begun_today_for_tomorrow_serves_tomorrows_dish() -> None:
    file = kitchen(services=[service("feast", {"bowl": 1.0}, ahead=1)], rules={"lookahead_days": 1})
    file["dishes"][0]["components"].pop()
    file["components"] = [cut_from("pork", "soup", "rest", "cut")]
    file["operations"].append(work("rest", unattended_minutes=900))
    assert served(workload(file)) == {("feast:bowl", "soup"): 10}


def test_a_lot_names_all_dishes_behind_it_however_deep() -> None:
    (trimmed,) = lots_of(workload(kitchen(lots="10 kg")), "trim")
    ((service_name, name, portions),) = trimmed.dishes
    assert (service_name, name, portions) == ("dinner", "bowl", 10)
