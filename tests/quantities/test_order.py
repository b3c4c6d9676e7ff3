"""Consumers come before what they are made of."""

from planner.quantities.order import consumers_first, made_of
from tests.kitchens.bench import bench, cut_from, dish, food, kit_of, recipe, work

CATALOG = kit_of(
    bench(
        ingredients=[food("pork")],
        operations=[work("cut")],
        components=[
            cut_from("pork", "ham", "cut"),
            recipe("soup", "1 kg", {"stock": "1 kg", "ham": "100 g"}, "cut"),
            recipe("stock", "1 kg", {"ham": "500 g"}, "cut"),
        ],
        dishes=[dish("bowl", {"soup": "100 g"})],
    )
).catalog


def test_each_component_comes_before_everything_it_is_made_of() -> None:
    assert consumers_first(CATALOG) == ["soup", "stock", "ham"]


def test_made_of_reaches_any_depth_and_counts_the_component_itself() -> None:
    assert made_of(CATALOG, "soup") == {"soup", "stock", "ham"}
    assert made_of(CATALOG, "ham") == {"ham"}
    assert made_of(CATALOG, "pork") == frozenset()
