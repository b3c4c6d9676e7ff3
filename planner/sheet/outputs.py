"""What a batch gives: one line per component and cut, with the label of its container."""

from planner.kitchen.foods import Cut
from planner.lots.types import Lot
from planner.sheet.batch_types import BatchOutput, SheetCut
from planner.sheet.labels import container_label, is_last_part, needs_label
from planner.sheet.pieces import pieces
from planner.sheet.runs import Run
from planner.sheet.view import PlanView


def outputs(view: PlanView, run: Run) -> tuple[BatchOutput, ...]:
    """Grams by component and cut, in the order the batch comes to them."""
    grouped: dict[tuple[str, str | None, bool], list[tuple[Lot, float]]] = {}
    for lot in run.lots:
        labelled = is_last_part(run.part, lot) and needs_label(view, lot)
        for share in lot.shares:
            key = (share.component, lot.cut, labelled)
            grouped.setdefault(key, []).append((lot, share.grams))
    return tuple(
        _output(view, run, component, cut, labelled, parts)
        for (component, cut, labelled), parts in grouped.items()
    )


def sheet_cut(view: PlanView, cut: str | None) -> SheetCut | None:
    """The cut with its nominal sides, as the kitchen defines it."""
    if cut is None:
        return None
    found = view.catalog.cuts.get(cut)
    known = found if found is not None else Cut(id=cut, name=cut)
    return SheetCut(known.name, known.inches, known.note)


def _output(
    view: PlanView,
    run: Run,
    component_id: str,
    cut: str | None,
    labelled: bool,
    parts: list[tuple[Lot, float]],
) -> BatchOutput:
    component = view.catalog.components[component_id]
    lots = tuple(lot for lot, _grams in parts)
    grams = sum(share for _lot, share in parts)
    number, piece = (None, None)
    if all(lot.finishes for lot in lots):
        number, piece = pieces(view, component_id, grams)
    label = None
    if labelled:
        label = container_label(view, component, lots, grams, run.cook.initials)
    return BatchOutput(
        component_id, component.name, grams, number, piece, sheet_cut(view, cut), label
    )
