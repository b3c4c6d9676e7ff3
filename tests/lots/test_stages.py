"""Which work is pooled: the same movements on the same food, and nothing that differs."""

from typing import Any

import pytest

from planner.lots.stages import Portion, Stage, portions_of, stages_of
from planner.quantities.compute import all_draws, quantities_of
from planner.quantities.supply import allotments_of
from tests.kitchens.bench import (
    DATE,
    File,
    bench,
    cut_from,
    delivery,
    dish,
    food,
    kit_of,
    raw,
    recipe,
    work,
)

DICED, SLICED = ("peel", "dice"), ("peel", "slice")


def kitchen(first: File, second: File, **parts: Any) -> File:
    """Two dishes; each takes 100 g of one component."""
    peel = work("peel", yields=[{"food": "onion", "fraction": 0.8}])
    return bench(
        ingredients=[food("onion"), food("carrot")],
        operations=[peel, work("dice"), work("slice"), work("boil")],
        components=[first, second],
        dishes=[dish("bowl", {first["id"]: "100 g"}), dish("plate", {second["id"]: "100 g"})],
        **parts,
    )


def portions(file: File) -> list[Portion]:
    kit = kit_of(file)
    demands, quantities = quantities_of(kit)
    draws = all_draws(kit, demands, quantities.needs)
    allotted = allotments_of(kit.catalog, kit.converter, draws, DATE)
    return [portion for need in quantities.needs for portion in portions_of(need, allotted)]


def stages(file: File, *, pooled: bool = True) -> list[Stage]:
    return list(stages_of(kit_of(file), portions(file), pooled=pooled).values())


def peeled(file: File, *, pooled: bool = True) -> list[set[str]]:
    """Components of each first stage."""
    return sorted(
        (
            {need.portion.component for need in stage.needs}
            for stage in stages(file, pooled=pooled)
            if stage.step == 0
        ),
        key=sorted,
    )


def onions(name: str, *route: str | File, **fields: Any) -> File:
    return cut_from("onion", name, *route, **fields)


def test_onions_are_peeled_together_and_part_where_they_are_cut() -> None:
    found = stages(kitchen(onions("a", *DICED), onions("b", *SLICED)))
    assert sorted((s.step, sorted(n.portion.component for n in s.needs)) for s in found) == [
        (0, ["a", "b"]),
        (1, ["a"]),
        (1, ["b"]),
    ]


def test_each_stage_names_the_one_it_takes_from() -> None:
    found = {s.key: s for s in stages(kitchen(onions("a", *DICED), onions("b", *SLICED)))}
    for stage in found.values():
        assert (stage.before is None) == (stage.step == 0)
        if stage.before is not None:
            assert found[stage.before].step == stage.step - 1


def test_grams_of_a_stage_allow_for_everything_lost_after_it() -> None:
    """A kilo diced is a kilo peeled, of 1,250 g of onions; the same again for the slices."""
    first = next(
        s for s in stages(kitchen(onions("a", *DICED), onions("b", *SLICED))) if not s.step
    )
    assert sum(n.grams_in for n in first.needs) == pytest.approx(2500)
    assert sum(n.grams_out for n in first.needs) == pytest.approx(2000)


def test_not_pooled_every_dish_has_its_own() -> None:
    file = kitchen(onions("a", *DICED), onions("b", *SLICED))
    assert peeled(file, pooled=False) == [{"a"}, {"b"}]
    file["dishes"][1]["components"][0]["item"] = "a"
    assert [len(s.needs) for s in stages(file, pooled=False) if s.step == 0] == [1, 1]
    assert [len(s.needs) for s in stages(file) if s.step == 0] == [2]


@pytest.mark.parametrize(
    "step",
    [
        {"minutes_per": 4},
        {"fraction": {"fraction": 0.7}},
        {"cut": "small_dice"},
        {"unattended_minutes": 15},
        {"max_wait_minutes": 20},
        {"min_wait_minutes": 20},
        {"hold": "cold"},
        {"temperature_c": 60},
    ],
    ids=lambda step: next(iter(step)),
)
def test_what_sets_a_step_apart_sets_its_stage_apart(step: File) -> None:
    other = onions("b", {"operation": "peel", **step}, "dice")
    assert peeled(kitchen(onions("a", *DICED), other)) == [{"a"}, {"b"}]


def test_a_yield_or_rate_of_one_component_sets_it_apart() -> None:
    for field, entry in (
        ("yields", {"food": "b", "fraction": 0.5}),
        ("rates", {"food": "b", "minutes_per": 3}),
    ):
        file = kitchen(onions("a", *DICED), onions("b", *DICED))
        file["operations"][0].setdefault(field, []).append(entry)
        assert peeled(file) == [{"a"}, {"b"}], field


def test_a_by_product_that_may_stand_in_sets_it_apart() -> None:
    """What may be on the board decides what must be cleaned off it."""
    other = onions("b", *DICED)
    other["inputs"][0]["may_use"] = ["ends"]
    file = kitchen(onions("a", *DICED), other)
    file["ingredients"].append(food("ends", by_product=True))
    assert peeled(file) == [{"a"}, {"b"}]


def test_fresh_food_is_pooled_up_to_its_last_step() -> None:
    """Peeled together at any time, but only one of the two must be diced late."""
    found = stages(kitchen(onions("a", *DICED), onions("b", *DICED, fresh_hours=2)))
    assert sorted((s.step, sorted(n.portion.component for n in s.needs)) for s in found) == [
        (0, ["a", "b"]),
        (1, ["a"]),
        (1, ["b"]),
    ]


def test_other_food_is_other_work() -> None:
    other = cut_from("carrot", "b", *DICED)
    assert peeled(kitchen(onions("a", *DICED), other)) == [{"a"}, {"b"}]


def test_recipes_share_with_nobody() -> None:
    first = recipe("a", "1 kg", {"onion": "1 kg"}, "boil")
    second = recipe("b", "1 kg", {"onion": "1 kg"}, "boil")
    assert peeled(kitchen(first, second)) == [{"a"}, {"b"}]


def test_needs_stand_in_the_order_they_are_due_and_what_is_missing_last() -> None:
    file = kitchen(
        onions("a", *DICED),
        onions("b", *SLICED),
        raw_stock=[raw("onion", "1500 g")],
        deliveries=[delivery("onion", "500 g", "10:00")],
    )
    (first,) = (s for s in stages(file) if s.step == 0)
    found = [(n.portion.release, n.portion.missing) for n in first.needs]
    assert found == [(0, ()), (0, ()), (600, ()), (0, ("onion",))]


def test_a_making_is_cut_where_its_supply_changes() -> None:
    """1,250 g each: 1,500 g on hand, 500 g at ten, and the last 500 g nobody has."""
    file = kitchen(
        onions("a", *DICED),
        onions("b", *SLICED),
        raw_stock=[raw("onion", "1500 g")],
        deliveries=[delivery("onion", "500 g", "10:00")],
    )
    found = sorted(
        (p.component, round(p.grams), p.release, p.missing, round(p.draws[0].grams))
        for p in portions(file)
    )
    assert found == [
        ("a", 1000, 0, (), 1250),
        ("b", 200, 0, (), 250),
        ("b", 400, 0, ("onion",), 500),
        ("b", 400, 600, (), 500),
    ]


def test_a_recipe_waits_for_the_last_of_its_inputs() -> None:
    file = kitchen(
        recipe("a", "1 kg", {"onion": "500 g", "carrot": "500 g"}, "boil"),
        onions("b", *SLICED),
        raw_stock=[raw("onion", "100 kg")],
        deliveries=[delivery("carrot", "1 kg", "11:00")],
    )
    assert [p.release for p in portions(file) if p.component == "a"] == [660]
