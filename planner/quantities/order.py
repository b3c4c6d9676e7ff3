"""The order in which needs are worked out: consumers before what they are made of."""

from planner.kitchen.catalog import Catalog


def consumers_first(catalog: Catalog) -> list[str]:
    """Component ids, each before every component it is made of; the file has no loops."""
    inputs_first: list[str] = []
    seen: set[str] = set()

    def visit(component: str) -> None:
        if component in seen:
            return
        seen.add(component)
        for taken in catalog.components[component].inputs:
            if taken.item in catalog.components:
                visit(taken.item)
        inputs_first.append(component)

    for component in sorted(catalog.components):
        visit(component)
    return inputs_first[::-1]


def made_of(catalog: Catalog, component: str) -> frozenset[str]:
    """Components that go into ``component``, at any depth, itself included."""
    found: set[str] = set()
    stack = [component]
    while stack:
        item = stack.pop()
        if item in catalog.components and item not in found:
            found.add(item)
            stack.extend(taken.item for taken in catalog.components[item].inputs)
    return frozenset(found)
