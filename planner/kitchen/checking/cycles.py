"""No component is made of itself, by however many steps, and their nesting has an end."""

from collections.abc import Iterator

from planner.kitchen.catalog import Catalog
from planner.kitchen.errors import FileError, Place, places
from planner.kitchen.route import MOST_NESTED
from planner.wording import sentence

_SHOWN = 12


def check_cycles(catalog: Catalog) -> Iterator[FileError]:
    """Yield each input that closes a loop, naming the loop, and each nesting that is too deep.

    A depth-first walk: an input that leads back to a component still being walked closes a loop.
    Without those inputs no loop is left. A component is one level above its highest input.
    """
    place_of = {
        component.id: place for place, component in places("components", catalog.kitchen.components)
    }
    level: dict[str, int] = {}
    for start in catalog.components:
        walked: list[str] = []
        on_the_way: dict[str, int] = {}
        waiting: list[tuple[str, int]] = [] if start in level else [(start, 0)]
        while waiting:
            here, index = waiting.pop()
            if index == 0:
                on_the_way[here] = len(walked)
                walked.append(here)
            inputs = catalog.components[here].inputs
            if index == len(inputs):
                level[here] = 1 + max(level.get(entry.item, 0) for entry in inputs)
                if level[here] == MOST_NESTED + 1:
                    yield _too_deep(place_of[here], here)
                walked.pop()
                del on_the_way[here]
                continue
            waiting.append((here, index + 1))
            item = inputs[index].item
            if item in on_the_way:
                loop = [*walked[on_the_way[item] :], item]
                yield _loop(place_of[here].item("inputs", index), loop)
            elif item in catalog.components and item not in level:
                waiting.append((item, 0))


def _too_deep(place: Place, component: str) -> FileError:
    return place.field("inputs").error(
        component,
        sentence("components are nested more than {n} deep", n=MOST_NESTED),
        sentence("make several of these steps one route of a component"),
    )


def _loop(place: Place, loop: list[str]) -> FileError:
    return place.field("item").error(
        loop[-1],
        sentence("components are made of each other in a loop: {arrows}", arrows=_arrows(loop)),
        sentence("replace one of these inputs by what it is made of"),
    )


def _arrows(loop: list[str]) -> str:
    if len(loop) > _SHOWN:
        loop = [*loop[: _SHOWN - 2], "...", loop[-1]]
    return " -> ".join(loop)
