"""Cautions: the whole wording once on a sheet, its head beside each batch it belongs to.

Fourteen batches that all need a knife would otherwise carry the same sentence fourteen times, and
what is always there is not read.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from planner.sheet.batch_types import SheetBatch
from planner.sheet.cautions import CLEAN_FIRST, COLD, HOT, TEMPERATURE, WASH_HANDS
from web.language import ngettext
from web.sentences import said

_SHORT = 32
_IN_LEAD = frozenset({WASH_HANDS, CLEAN_FIRST})
_ALLERGENS = "Allergens:"
_HEAD_END = re.compile(r"[:;,.]")


@dataclass(frozen=True, slots=True)
class CautionView:
    """One caution in full, its head apart, with the batches it belongs to."""

    head: str
    rest: str
    batches: str


def caution_heads(batch: SheetBatch) -> tuple[str, ...]:
    """Heads beside a batch, without those its lead and its allergens say already."""
    return tuple(
        dict.fromkeys(
            caution_head(said(text))
            for text in batch.cautions
            if text not in _IN_LEAD and not text.startswith(_ALLERGENS)
        )
    )


def caution_words(batch: SheetBatch) -> tuple[str, ...]:
    """Heads that paper needs beside a batch: not those that its own figures stand for already.

    ``Reach: 5 C`` stands for the one on temperatures, ``hold cold`` beside the container for the
    one on holding; the whole wording is at the head of the sheet.
    """
    told = {TEMPERATURE} if batch.temperature_c is not None else set()
    if batch.label is not None or any(output.label for output in batch.outputs):
        told |= {COLD, HOT}
    heads = {caution_head(said(text)) for text in told}
    return tuple(head for head in caution_heads(batch) if head not in heads)


def caution_head(text: str) -> str:
    """The first words, up to a stop: ``Knife`` of ``Knife: fingertips curled``."""
    if len(text) <= _SHORT:
        return text.rstrip(".")
    return _HEAD_END.split(text, maxsplit=1)[0].strip()


def caution_views(batches: Iterable[SheetBatch]) -> tuple[CautionView, ...]:
    """Every caution once, in the order of its first batch."""
    numbers: dict[str, list[int]] = {}
    for batch in batches:
        for text in batch.cautions:
            numbers.setdefault(_without_names(text), []).append(batch.number)
    return tuple(_view(said(text), found) for text, found in numbers.items())


def _view(text: str, numbers: list[int]) -> CautionView:
    head = caution_head(text)
    return CautionView(head, text[len(head) :], _listed(numbers))


def _without_names(text: str) -> str:
    """Which allergens stands on batch and label; what to do about them is always the same."""
    if not text.startswith(_ALLERGENS):
        return text
    _names, stop, duty = text.partition(". ")
    return f"{_ALLERGENS} {duty[:1].lower()}{duty[1:]}" if stop and duty else text


def _listed(numbers: list[int]) -> str:
    listed = ", ".join(str(number) for number in numbers)
    return ngettext("batch %(numbers)s", "batches %(numbers)s", len(numbers), numbers=listed)
