"""What comes before what: consumers and what they are made of, trim and what it goes into."""

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


class Precedence:
    """Which food must be worked on before which, growing as trim is promised.

    What is cut from one food counts as one: its early steps are pooled, so that a lot of it may
    hold some of every component.
    """

    def __init__(self, catalog: Catalog) -> None:
        self._catalog = catalog
        self._before: dict[str, set[str]] = {}
        for component in catalog.kitchen.components:
            inputs = {taken.item for taken in component.inputs} & catalog.components.keys()
            known = self._before.setdefault(self._pool(component.id), set())
            known |= {self._pool(item) for item in inputs}

    def put(self, source: str, consumer: str) -> bool:
        """Put a component before another; False, and nothing done, where that closes a circle."""
        first, then = self._pool(source), self._pool(consumer)
        stack, seen = [first], set[str]()
        while stack:
            pool = stack.pop()
            if pool == then:
                return False
            if pool not in seen:
                seen.add(pool)
                stack.extend(self._before.get(pool, ()))
        self._before[then].add(first)
        return True

    def _pool(self, component: str) -> str:
        found = self._catalog.components[component]
        return found.id if found.makes is not None else f"cut from {found.inputs[0].item}"
