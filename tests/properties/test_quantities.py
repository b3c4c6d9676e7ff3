"""What must hold of quantities in any kitchen, and where by-products make it otherwise."""

import copy
import math
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.quantities.types import Quantities
from tests.kitchens.bench import (
    File,
    bench,
    cut_from,
    dish,
    food,
    kit_of,
    needs_of,
    recipe,
    service,
    stock,
    work,
)
from tests.properties.kitchens import kitchens

TODAY = kitchens(by_products=False, most_ahead=0)
"""One day by itself, nothing credited: more wanted is never less pulled."""


def gross(file: File) -> dict[str, float]:
    """AP grams needed of every ingredient."""
    return {line.ingredient: line.need.grams for line in needs_of(file).pulls}


def assert_no_less(more: dict[str, float], less: dict[str, float]) -> None:
    for item, grams in less.items():
        assert more.get(item, 0.0) >= grams * (1 - 1e-9) - 1e-3, item


@settings(max_examples=80)
@given(TODAY, st.integers(2, 4))
def test_more_covers_never_need_less(file: File, factor: int) -> None:
    scaled = copy.deepcopy(file)
    for each in scaled["services"]:
        each["covers"] *= factor
    assert_no_less(gross(scaled), gross(file))


@settings(max_examples=80)
@given(TODAY, st.data())
def test_food_on_hand_never_raises_a_need(file: File, data: st.DataObject) -> None:
    """Where what is begun is made in whole batches, finishing part-made food beside them takes what
    goes in later once more; so no such rule here on the component that is on hand.
    """
    file = copy.deepcopy(file)
    component = data.draw(st.sampled_from(file["components"]))
    for rule in ("batch_minimum", "batch_multiple"):
        component.pop(rule, None)
    counted = stock(component["id"], data.draw(st.sampled_from(("80 g", "3 kg"))))
    steps = len(component["route"])
    if steps > 1 and data.draw(st.booleans()):
        counted["after_step"] = data.draw(st.integers(1, steps - 1))
    stocked = file | {"prepared": [*file["prepared"], counted]}
    assert_no_less(gross(file), gross(stocked))


@settings(max_examples=60)
@given(kitchens(swells=False))
def test_no_step_and_no_route_gives_more_than_it_takes_where_yields_are_at_most_one(
    file: File,
) -> None:
    """AP = EP / Y: the gross is never below the net, and exactly as far above as the yields say."""
    kit = kit_of(file)
    for need in needs_of(file).needs:
        component = kit.catalog.components[need.component]
        if component.makes is not None:
            continue  # measured, whatever the water it takes up
        for step in need.steps:
            assert step.grams_in >= step.grams_out * (1 - 1e-9)
        chain = math.prod(step.fraction for step in kit.flows.of(component))
        begun = sum(making.grams for making in need.makings if making.first_step == 0)
        taken = sum(i.grams + sum(c.grams for c in i.credits) for i in need.inputs)
        assert taken == pytest.approx(begun / chain, abs=1e-3)
        assert taken >= begun * (1 - 1e-9) - 1e-3


def told(needs: Quantities) -> tuple[object, ...]:
    """Everything of the quantities but the order in which it is said."""
    made = {
        need.component: (
            round(need.to_make, 3),
            Counter((u.item, u.use_by, u.after_step, round(u.grams, 3)) for u in need.stock),
            Counter(
                (m.want.consumer_name, round(m.grams, 3), m.first_step, m.last_step, m.due)
                for m in need.makings
            ),
        )
        for need in needs.needs
    }
    pulled = {line.ingredient: round(line.need.grams, 3) for line in needs.pulls}
    alerts = Counter((alert.kind, alert.item, alert.text) for alert in needs.alerts)
    return made, pulled, alerts, needs.ahead


@settings(max_examples=60)
@given(kitchens(), st.randoms(use_true_random=False))
def test_the_order_of_the_file_changes_nothing(file: File, random: object) -> None:
    shuffled = copy.deepcopy(file)
    for part in ("ingredients", "operations", "components", "dishes", "services", "cooks"):
        random.shuffle(shuffled[part])  # type: ignore[attr-defined]
    for each in shuffled["services"]:
        random.shuffle(each["mix"])  # type: ignore[attr-defined]
    assert told(needs_of(shuffled)) == told(needs_of(file))


def trim_kitchen(**parts: object) -> File:
    """Ham leaves ends, which go into the soup in place of beef."""
    trim = [{"item": "ends", "share": 1}]
    soup = recipe("soup", "1 kg", {"beef": "1 kg"}, "boil")
    soup["inputs"][0]["may_use"] = ["ends"]
    return bench(
        ingredients=[food("pork"), food("beef"), food("ends", by_product=True)],
        operations=[
            work("trim", yields=[{"food": "pork", "fraction": 0.8, "trim": trim}]),
            work("boil"),
        ],
        components=[cut_from("pork", "ham", "trim"), soup],
        dishes=[dish("plate", {"ham": "100 g"}), dish("bowl", {"soup": "100 g"})],
        **parts,
    )


def dinner(plates: float) -> list[File]:
    return [service("dinner", {"plate": plates, "bowl": 1.0})]


def test_with_by_products_more_of_one_dish_may_need_less_for_another() -> None:
    """Twice the plates leave twice the ends, which save twice the beef: 250 g and 500 g."""
    usual, more = (
        gross(trim_kitchen(services=dinner(1.0))),
        gross(trim_kitchen(services=dinner(2.0))),
    )
    assert (usual["beef"], more["beef"]) == (pytest.approx(750), pytest.approx(500))
    assert more["pork"] > usual["pork"]


def test_with_by_products_food_on_hand_may_raise_another_need() -> None:
    """With the ham on hand nothing is trimmed, and the soup takes all its beef from the shelf."""
    stocked = trim_kitchen(services=dinner(1.0), prepared=[stock("ham", "1 kg")])
    assert gross(stocked)["beef"] == pytest.approx(1000)
    assert gross(trim_kitchen(services=dinner(1.0)))["beef"] == pytest.approx(750)
