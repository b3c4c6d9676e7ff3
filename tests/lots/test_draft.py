"""What goes into each lot, and where it comes from."""

from collections import defaultdict
from typing import Any

import pytest

from planner.lots.types import Lot, Workload
from tests.kitchens.bench import (
    File,
    bench,
    cut_from,
    delivery,
    dish,
    food,
    lots_of,
    raw,
    recipe,
    service,
    stock,
    work,
    workload,
)


def onion_kitchen(**parts: Any) -> File:
    """Onions peeled at 0.8 in lots of at most a kilo; a bowl takes diced, a plate sliced."""
    return bench(
        ingredients=[food("onion")],
        operations=[
            work("peel", yields=[{"food": "onion", "fraction": 0.8}], lot_limit="1 kg"),
            work("dice"),
            work("slice"),
        ],
        components=[
            cut_from("onion", "diced", "peel", "dice"),
            cut_from("onion", "sliced", "peel", "slice"),
        ],
        dishes=[dish("bowl", {"diced": "100 g"}), dish("plate", {"sliced": "40 g"})],
        **parts,
    )


def taken_from(work: Workload) -> dict[int, float]:
    """Grams that other lots take of each."""
    taken: dict[int, float] = defaultdict(float)
    for lot in work.lots:
        for source, grams in lot.upstream:
            taken[source] += grams
    return taken


def inflow(lot: Lot) -> float:
    return sum(grams for _, grams in (*lot.upstream, *lot.pulls, *lot.stock))


def test_links_conserve_mass() -> None:
    made = workload(onion_kitchen())
    for lot in made.lots:
        assert inflow(lot) == pytest.approx(lot.grams_in)
    taken = taken_from(made)
    for lot in lots_of(made, "peel"):
        assert taken[lot.index] == pytest.approx(lot.grams_out)


def test_pooled_lots_hold_food_for_both_dishes() -> None:
    """1,250 g and 500 g of onions in two even lots of 875 g."""
    peeled = lots_of(workload(onion_kitchen()), "peel")
    assert [lot.grams_in for lot in peeled] == [pytest.approx(875)] * 2
    shares = [{s.component: round(s.grams) for s in lot.shares} for lot in peeled]
    assert sorted(shares, key=len) == [{"diced": 700}, {"diced": 300, "sliced": 400}]


def test_not_pooled_each_dish_has_its_own_lots() -> None:
    peeled = lots_of(workload(onion_kitchen(), pooled=False), "peel")
    assert sorted((lot.component, round(lot.grams_in)) for lot in peeled) == [
        ("diced", 625),
        ("diced", 625),
        ("sliced", 500),
    ]


def test_each_component_goes_on_with_its_own_part_of_a_pooled_lot() -> None:
    """What is finished after peeling is not cut up for the other dish."""
    file = onion_kitchen()
    file["components"][0]["route"].pop()
    made = workload(file)
    (sliced,) = lots_of(made, "slice")
    sources = {lot.index: lot for lot in made.lots}
    for index, grams in sliced.upstream:
        own = {s.component: s.grams for s in sources[index].shares}
        assert grams <= own["sliced"] + 1e-6


def test_raw_food_is_pulled_by_first_steps_only() -> None:
    made = workload(onion_kitchen())
    assert sum(g for lot in lots_of(made, "peel") for _, g in lot.pulls) == pytest.approx(1750)
    assert [lot.pulls for lot in made.lots if lot.step] == [(), ()]


def test_part_made_food_enters_at_its_step_from_stock() -> None:
    made = workload(onion_kitchen(prepared=[stock("diced", "600 g", after_step=1)]))
    (diced,) = lots_of(made, "dice")
    assert dict(diced.stock) == {"diced": pytest.approx(600)}
    assert sum(g for _, g in diced.upstream) == pytest.approx(400)
    assert sum(lot.grams_in for lot in lots_of(made, "peel")) == pytest.approx(1000)


HURRIED = {"operation": "boil", "max_wait_minutes": 5}


def hurried_kitchen(**parts: Any) -> File:
    """Beans boiled in lots of a kilo go to the ice at once; the ice takes 5 kg, or 600 g."""
    return bench(
        ingredients=[food("bean")],
        operations=[
            work("boil", lot_limit="1 kg"),
            work("shock", lot_limit=parts.pop("ice", "5 kg")),
        ],
        components=[cut_from("bean", "beans", HURRIED, "shock")],
        dishes=[dish("bowl", {"beans": "250 g"})],
        **parts,
    )


def test_what_must_go_on_at_once_keeps_its_lots() -> None:
    """2,500 g in three pots: three times into the ice, though it would take them all."""
    made = workload(hurried_kitchen())
    boiled, shocked = lots_of(made, "boil"), lots_of(made, "shock")
    assert [lot.grams_in for lot in boiled] == [pytest.approx(2500 / 3)] * 3
    assert [lot.upstream for lot in shocked] == [
        ((lot.index, pytest.approx(2500 / 3)),) for lot in boiled
    ]


def test_a_lot_too_large_for_the_next_vessel_is_cut_and_never_joined_to_another() -> None:
    made = workload(hurried_kitchen(ice="600 g"))
    shocked = lots_of(made, "shock")
    assert len(shocked) == 6
    assert [len(lot.upstream) for lot in shocked] == [1] * 6


def test_food_that_needs_cold_and_stands_warm_keeps_its_lots_too() -> None:
    file = hurried_kitchen()
    file["components"][0]["route"][0] = {"operation": "boil", "hold": "ambient"}
    file["components"][0]["tcs"] = True
    assert [len(lot.upstream) for lot in lots_of(workload(file), "shock")] == [1] * 3


def test_fresh_food_that_must_go_on_at_once_is_not_begun_for_lunch_and_dinner_together() -> None:
    """Fresh for two hours only: one pot for both would be stale at dinner."""
    lunch = service("lunch", {"bowl": 0.1}, opens="12:00", closes="14:00")
    dinner = service("dinner", {"bowl": 0.1})
    file = hurried_kitchen(services=[lunch, dinner])
    assert len(lots_of(workload(file), "boil")) == 1
    file["components"][0]["fresh_hours"] = 2
    assert len(lots_of(workload(file), "boil")) == 2


def soup_kitchen(**parts: Any) -> File:
    """Soup takes ham in two pots; a plate takes ham as it is."""
    return bench(
        ingredients=[food("pork")],
        operations=[work("cut", lot_limit="600 g"), work("boil", lot_limit="500 g")],
        components=[
            cut_from("pork", "ham", "cut"),
            recipe("soup", "2 kg", {"ham": "1 kg"}, "boil"),
        ],
        dishes=[dish("bowl", {"soup": "200 g"}), dish("plate", {"ham": "10 g"})],
        **parts,
    )


def test_a_component_is_taken_from_its_last_lots_first_made_first_used() -> None:
    """1,000 g for two pots and 100 g for plates in two lots of 550 g."""
    made = workload(soup_kitchen())
    cut, boiled = lots_of(made, "cut"), lots_of(made, "boil")
    assert [lot.grams_out for lot in cut] == [pytest.approx(550)] * 2
    assert [dict(lot.upstream) for lot in boiled] == [
        {cut[0].index: pytest.approx(500)},
        {cut[0].index: pytest.approx(50), cut[1].index: pytest.approx(450)},
    ]
    assert taken_from(made)[cut[1].index] == pytest.approx(450), "100 g are for the plates"


def test_finished_stock_is_used_before_what_is_made() -> None:
    made = workload(soup_kitchen(prepared=[stock("ham", "500 g")]))
    boiled = lots_of(made, "boil")
    assert dict(boiled[0].stock) == {"ham": pytest.approx(500)}
    assert boiled[0].upstream == ()
    assert boiled[1].stock == ()


def test_late_and_missing_raw_food_is_kept_to_its_own_lots() -> None:
    file = soup_kitchen(
        raw_stock=[raw("pork", "500 g")], deliveries=[delivery("pork", "400 g", "10:00")]
    )
    made = workload(file)
    problem = made.problem
    cut = [
        (round(lot.grams_in), problem.tasks[lot.tasks[0].task].release, problem.jobs[lot.index])
        for lot in lots_of(made, "cut")
    ]
    assert [(grams, release, job.impossible) for grams, release, job in cut] == [
        (500, 480, ""),
        (400, 600, ""),
        (200, 480, "no Pork"),
    ]


def trim_kitchen(**parts: Any) -> File:
    """Ham is trimmed in two lots; its ends (150 g) go into the soup instead of beef."""
    trim = [{"item": "ends", "share": 0.6}]
    soup = recipe("soup", "1 kg", {"beef": "1 kg"}, "boil")
    soup["inputs"][0]["may_use"] = ["ends"]
    return bench(
        ingredients=[food("pork"), food("beef"), food("ends", by_product=True)],
        operations=[
            work("trim", yields=[{"food": "pork", "fraction": 0.8, "trim": trim}],
                 lot_limit="700 g"),
            work("boil", unattended_minutes=60),
        ],
        components=[cut_from("pork", "ham", "trim"), soup],
        dishes=[dish("plate", {"ham": "100 g"}), dish("bowl", {"soup": "100 g"})],
        **parts,
    )  # fmt: skip


def test_a_lot_that_uses_trim_comes_after_the_lots_that_leave_it() -> None:
    made = workload(trim_kitchen())
    trimmed, (boiled,) = lots_of(made, "trim"), lots_of(made, "boil")
    assert [dict(lot.trim) for lot in trimmed] == [{"ends": pytest.approx(75)}] * 2
    assert dict(boiled.stock) == {"ends": pytest.approx(150)}
    assert dict(boiled.pulls) == {"beef": pytest.approx(850)}
    assert made.problem.jobs[boiled.index].needs == tuple(lot.index for lot in trimmed)
    waits = {(w.before, w.after) for w in made.problem.waits}
    for lot in trimmed:
        assert (lot.tasks[-1].task, boiled.tasks[0].task) in waits


def test_a_by_product_on_hand_makes_nothing_wait() -> None:
    file = trim_kitchen()
    file["raw_stock"].append(raw("ends", "150 g"))
    file["dishes"][0]["components"] = [{"item": "soup", "amount": "1 g"}]
    made = workload(file)
    (boiled,) = lots_of(made, "boil")
    assert dict(boiled.stock) == {"ends": pytest.approx(150)}
    assert made.problem.jobs[boiled.index].needs == ()


def test_no_lot_leaves_more_trim_than_its_share_of_what_it_takes_off() -> None:
    for lot in lots_of(workload(trim_kitchen()), "trim"):
        assert sum(grams for _, grams in lot.trim) == pytest.approx(
            0.6 * (lot.grams_in - lot.grams_out)
        )
