"""What is wrong with a kitchen file: where, what it says, why that cannot be, what to do."""

import difflib
import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar

from planner.wording import sentence

_SHOWN_CHARACTERS = 60
_SUGGEST_AMONG = 1000
_SUGGEST_FOR = 80
_Element = TypeVar("_Element")


@dataclass(frozen=True, slots=True)
class FileError:
    """One thing wrong with a kitchen file.

    Attributes
    ----------
    path
        Where, such as ``components[3].route[1].operation``; empty for the file as a whole.
    value
        What the file says there, shortened; empty where nothing is there.
    message, remedy
        What is wrong and what to enter instead, in plain words.
    element
        The id of the element the path leads into, where it has one: people know ``stock`` better
        than ``components[3]``.
    """

    path: str
    value: str
    message: str
    remedy: str
    element: str = ""

    @property
    def where(self) -> str:
        """The path, with the id of its element."""
        return (
            f"{self.path} ({self.element})" if self.element else self.path or sentence("the file")
        )

    def __str__(self) -> str:
        value = f" = {self.value}" if self.value else ""
        return f"{self.where}{value}: {self.message}; {self.remedy}"


class KitchenErrors(Exception):  # noqa: N818  it carries several
    """A kitchen file cannot be used; ``errors`` has everything found."""

    def __init__(self, errors: Iterable[FileError]) -> None:
        self.errors = tuple(errors)
        super().__init__("\n".join(str(error) for error in self.errors))


@dataclass(frozen=True, slots=True)
class Place:
    """A place in the file, from which errors are reported."""

    path: str
    element: str = ""

    def field(self, name: str) -> "Place":
        """The field ``name`` below this place."""
        return Place(f"{self.path}.{name}" if self.path else name, self.element)

    def item(self, name: str, index: int) -> "Place":
        """The element ``index`` of the list ``name`` below this place."""
        return Place(f"{self.field(name).path}[{index}]", self.element)

    def items(self, name: str, elements: Sequence[_Element]) -> Iterator[tuple["Place", _Element]]:
        """Each element of the list ``name`` below this place, with its own place."""
        for index, element in enumerate(elements):
            yield self.item(name, index), element

    def error(self, value: object, message: str, remedy: str) -> FileError:
        """An error at this place; ``value`` is shortened."""
        return FileError(self.path, shown(value), message, remedy, self.element)


def places(name: str, elements: Sequence[_Element]) -> Iterator[tuple[Place, _Element]]:
    """Each element of one of the kitchen's lists, with its place and what it is known by."""
    for index, element in enumerate(elements):
        known_by = (getattr(element, label, None) for label in ("id", "item", "name"))
        yield Place(f"{name}[{index}]", next(filter(None, known_by), "")), element


def shown(value: object) -> str:
    """``value`` in a few characters, however large or deep it is."""
    if value is None:
        return ""
    if isinstance(value, list | tuple):
        return f"a list of {len(value)}"
    if isinstance(value, dict):
        return f"an object of {len(value)} field{'' if len(value) == 1 else 's'}"
    text = json.dumps(value) if isinstance(value, bool | int | float) else str(value)
    printable = "".join(letter if letter.isprintable() else "?" for letter in text)
    if len(printable) <= _SHOWN_CHARACTERS:
        return printable
    return printable[: _SHOWN_CHARACTERS - 3] + "..."


def suggestion(word: str, known: Iterable[str]) -> str:
    """``did you mean 'dice'? `` where something known looks like ``word``, else nothing."""
    candidates = list(known)
    if len(candidates) > _SUGGEST_AMONG or len(word) > _SUGGEST_FOR:
        return ""  # The comparison is slow, and a large file may hold many unknown words.
    close = difflib.get_close_matches(word, candidates, n=1)
    return sentence("did you mean '{word}'?", word=close[0]) + " " if close else ""
