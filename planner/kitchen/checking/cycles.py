"""No component is made of itself, by however many steps."""

from collections.abc import Iterator

from planner.kitchen.catalog import Catalog
from planner.kitchen.errors import FileError, places

_SHOWN = 12


def check_cycles(catalog: Catalog) -> Iterator[FileError]:
    """Yield one error for each input that closes a loop, naming the loop.

    A depth-first walk: an input that leads back to a component still being walked closes a loop.
    Without those inputs no loop is left.
    """
    place_of = {
        component.id: place for place, component in places("components", catalog.kitchen.components)
    }
    done: set[str] = set()
    for start in catalog.components:
        walked: list[str] = []
        on_the_way: dict[str, int] = {}
        waiting: list[tuple[str, int]] = [] if start in done else [(start, 0)]
        while waiting:
            here, index = waiting.pop()
            if index == 0:
                on_the_way[here] = len(walked)
                walked.append(here)
            inputs = catalog.components[here].inputs
            if index == len(inputs):
                done.add(here)
                walked.pop()
                del on_the_way[here]
                continue
            waiting.append((here, index + 1))
            item = inputs[index].item
            if item in on_the_way:
                loop = [*walked[on_the_way[item] :], item]
                yield (
                    place_of[here]
                    .item("inputs", index)
                    .field("item")
                    .error(
                        item,
                        f"components are made of each other in a loop: {_arrows(loop)}",
                        "replace one of these inputs by what it is made of",
                    )
                )
            elif item in catalog.components and item not in done:
                waiting.append((item, 0))


def _arrows(loop: list[str]) -> str:
    if len(loop) > _SHOWN:
        loop = [*loop[: _SHOWN - 2], "...", loop[-1]]
    return " -> ".join(loop)
