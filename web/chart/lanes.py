"""Lanes in the language of the page."""

from dataclasses import replace

from planner.sheet.types import KitchenSheet, Lane, LaneBlock
from web.language import _
from web.presenters.away import away_words

_VERBS = {"check": "Check ", "finish": "Take out "}
"""What the sheet puts before an operation, by the part of the batch."""


def worded_lanes(sheet: KitchenSheet) -> tuple[Lane, ...]:
    """The sheet's lanes; names of foods, cooks and equipment stay as the kitchen writes them."""
    parts = {batch.number: batch.part for cook in sheet.cooks for batch in cook.batches}
    return tuple(
        replace(lane, blocks=tuple(_worded(block, parts) for block in lane.blocks))
        for lane in sheet.lanes
    )


def _worded(block: LaneBlock, parts: dict[int, str]) -> LaneBlock:
    if block.batch is None:
        return replace(block, text=away_words(block.kind)) if block.text == block.kind else block
    if block.kind == "lead":
        return replace(block, text=_("lead")) if block.text == block.kind else block
    part = parts.get(block.batch, "")
    before, verb, what = block.text.partition(_VERBS.get(part, ":"))
    if verb != _VERBS.get(part):
        return block
    said = _("Check %(what)s", what=what)
    if part == "finish":
        said = _("Take out %(what)s", what=what)
    return replace(block, text=f"{before}{said}")
