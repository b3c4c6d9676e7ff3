"""What the script of a cook's live page starts from, as plain values for JSON."""

from collections.abc import Iterable
from typing import Any

from planner.floor.progress import alone_of
from planner.floor.state import Floor, Said
from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import CookSheet, KitchenSheet
from planner.units import standard_unit
from web.floor.links import FloorLinks
from web.floor.reasons import ASKS, reason_words, reasons
from web.floor.words import cook_words, wall_words
from web.language import _
from web.presenters.batches import batch_title
from web.presenters.preferences import Preferences

Plain = dict[str, Any]


def cook_state(
    sheet: KitchenSheet,
    cook: CookSheet,
    floor: Floor,
    links: FloorLinks,
    *,
    now: float,
    preferences: Preferences,
) -> Plain:
    """Everything the page's script needs to show ticks at once, with or without network.

    Times in minutes after midnight of the planned day.
    """
    alone = [one for one in alone_of(sheet) if cook.cook in (one.cook, one.taken_out_by)]
    known = {task.id for batch in cook.batches for task in batch.tasks}
    known |= {task for one in alone for task in (one.task, one.take_out) if task}
    return {
        "cook": cook.cook,
        "base": links.base,
        "ticks": links.ticks,
        "stream": links.stream,
        "worker": links.worker,
        "release": links.release,
        "version": links.version,
        "midnight": links.midnight,
        "date": sheet.date.isoformat(),
        "now": now,
        "clock": preferences.clock,
        "unit": _unit(preferences),
        "batches": [_batch(batch) for batch in cook.batches],
        "containers": _containers(cook),
        "alone": [
            {
                "task": one.task,
                "what": one.what,
                "place": one.place,
                "minutes": one.minutes,
                "takeOut": one.take_out,
            }
            for one in alone
        ],
        "floor": _floor(floor, known),
        "asks": ASKS,
        "reasons": {reason: reason_words(reason) for reason in (ASKS, *reasons())},
        "words": cook_words(),
    }


def wall_state(sheet: KitchenSheet, links: FloorLinks, preferences: Preferences) -> Plain:
    """What the wall's script needs to keep time."""
    return {
        "midnight": links.midnight,
        "date": sheet.date.isoformat(),
        "clock": preferences.clock,
        "words": wall_words(),
    }


def lot_by_lot(batch: SheetBatch) -> bool:
    """Whether each lot is ticked by itself: each then runs alone, or is taken out, on its own."""
    apart = batch.part == "finish" or any(task.unattended for task in batch.tasks)
    return apart and len(batch.tasks) > 1


def _batch(batch: SheetBatch) -> Plain:
    return {
        "number": batch.number,
        "title": f"{batch_title(batch)} {batch.food_name}",
        "end": batch.end,
        "due": batch.due,
        "tasks": [task.id for task in batch.tasks],
        "byLot": lot_by_lot(batch),
        "scale": _on_the_scale(batch),
    }


def _on_the_scale(batch: SheetBatch) -> list[Plain]:
    """What a cook may weigh of a batch, what is weighed most first."""
    kept = [one for one in batch.trimmings if one.to is not None]
    components = {output.component for output in batch.outputs}
    food = components.pop() if len(components) == 1 else ""
    return [
        *(
            {"kind": "trim", "item": one.item, "name": _("Trim to %(use)s", use=one.to)}
            for one in kept
        ),
        {"kind": "trim", "item": "", "name": _("Trim to waste")},
        {"kind": "usable", "item": food, "name": _("Food that came out")},
        {"kind": "gross", "item": food, "name": _("Food that went in")},
    ]


def _containers(cook: CookSheet) -> list[str]:
    """Kinds of containers of the cook's labels: each has a tare of its own."""
    labels = (
        label
        for batch in cook.batches
        for label in (batch.label, *(output.label for output in batch.outputs))
        if label is not None
    )
    return sorted({label.container for label in labels if label.container})


def _floor(floor: Floor, known: set[str]) -> Plain:
    return {
        "tasks": {
            task: {
                "begun": _said(state.begun),
                "done": _said(state.done),
                "heard": _said(state.heard),
            }
            for task, state in floor.tasks.items()
            if task in known
        },
        "problems": [
            {"said": _said(one.said), "tasks": list(one.tasks), "reason": one.reason}
            for one in floor.problems
            if _about(one.tasks, known)
        ],
        "weighings": [
            {
                "said": _said(one.said),
                "tasks": list(one.tasks),
                "weight": {
                    "kind": one.weight.kind.value,
                    "grams": one.weight.grams,
                    "tare_grams": one.weight.tare_grams,
                    "item": one.weight.item,
                },
            }
            for one in floor.weighings
            if _about(one.tasks, known)
        ],
    }


def _about(tasks: Iterable[str], known: set[str]) -> bool:
    return not known.isdisjoint(tasks)


def _said(said: Said | None) -> Plain | None:
    return None if said is None else {"at": said.at, "cook": said.cook, "key": said.key}


def _unit(preferences: Preferences) -> Plain:
    """What the scale shows: grams, or ounces."""
    name = "oz" if preferences.units == "us" else "g"
    unit = standard_unit(name)
    return {"name": name, "grams": unit.size if unit is not None else 1.0}
