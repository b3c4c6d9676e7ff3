"""Why a number is what it is: from the guests down to the shelf, one line per cause."""

import difflib
from collections.abc import Mapping

from planner.causes import Causes
from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Kitchen
from planner.kitchen.foods import Component, Ingredient
from planner.plan import Plan
from planner.quantities.types import Trace
from planner.wording import sentence

_INDENT = "  "


class UnknownItem(KeyError):  # noqa: N818  (read as a word: "unknown item")
    """No ingredient or component of the kitchen has this id.

    Attributes
    ----------
    item
        What was asked for.
    close
        Ids that look or read like it, best first.
    """

    def __init__(self, item: str, close: tuple[str, ...]) -> None:
        hint = "; " + sentence("did you mean {list}?", list=" or ".join(close)) if close else ""
        super().__init__(
            sentence("no ingredient or component has the id '{item}'", item=item) + hint
        )
        self.item = item
        self.close = close

    def __str__(self) -> str:
        return str(self.args[0])


def why(kitchen: Kitchen, plan: Plan, item: str) -> Trace:
    """Explain today's quantity of a component, or today's pull of an ingredient.

    Raises
    ------
    UnknownItem
        The kitchen has neither under this id.
    """
    causes = Causes(kitchen, plan)
    if item in causes.catalog.components:
        return causes.component(item, with_inputs=True)
    if item in causes.catalog.ingredients:
        return causes.ingredient(causes.catalog.ingredients[item])
    raise UnknownItem(item, close_matches(item, _names(causes.catalog)))


def explained(kitchen: Kitchen, plan: Plan) -> dict[str, Trace]:
    """Explain every component needed today and every ingredient pulled, by id."""
    quantities = plan.quantities
    items = (
        *(need.component for need in quantities.needs),
        *(line.ingredient for line in quantities.pulls),
    )
    return {item: why(kitchen, plan, item) for item in items}


def trace_lines(trace: Trace, depth: int = 0) -> list[str]:
    """The trace as text, each cause two spaces further in than what it explains."""
    source = f" (source: {'; '.join(trace.sources)})" if trace.sources else ""
    lines = [f"{_INDENT * depth}{trace.text}{source}"]
    for child in trace.children:
        lines += trace_lines(child, depth + 1)
    return lines


def close_matches(item: str, names: Mapping[str, str]) -> tuple[str, ...]:
    """At most three ids of ``names`` (names by id) that look or read like ``item``, best first."""
    wanted = item.strip().lower()
    ids = difflib.get_close_matches(wanted, names, n=3)
    lower = {known: name.lower() for known, name in names.items()}
    close = difflib.get_close_matches(wanted, lower.values(), n=3)
    by_name = [known for name in close for known in names if lower[known] == name]
    within = [known for known in names if wanted and wanted in known]
    return tuple(dict.fromkeys([*ids, *by_name, *within]))[:3]


def _names(catalog: Catalog) -> dict[str, str]:
    foods: tuple[Component | Ingredient, ...] = (
        *catalog.components.values(),
        *catalog.ingredients.values(),
    )
    return {food.id: food.name for food in foods}
