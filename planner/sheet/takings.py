"""What a batch starts from, and where its trim goes."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from planner.lots.types import Lot
from planner.sheet.cautions import is_heated
from planner.sheet.labels import stock_use_by
from planner.sheet.pieces import pieces
from planner.sheet.types import Taking, Trimming
from planner.sheet.view import PlanView

_LEAST_GRAMS = 0.5
"""Less than this is a rounding remainder, not something to weigh."""


@dataclass(frozen=True, slots=True)
class Source:
    """The batch that gives a lot's output: its number and its cook's initials."""

    number: int
    initials: str


def takings(
    view: PlanView, lots: tuple[Lot, ...], sources: Mapping[int, Source]
) -> tuple[Taking, ...]:
    """What ``lots`` take: pulled food, other batches' output, prepared stock.

    ``sources`` says by lot index which batch hands the output over.
    """
    return (*_pulled(view, lots), *_from_batches(view, lots, sources), *_from_stock(view, lots))


def trimmings(view: PlanView, lots: tuple[Lot, ...]) -> tuple[Trimming, ...]:
    """Where the loss goes, in grams: by-products by name, and the rest to waste.

    What evaporates in cooking is no trim and is left out.
    """
    kept: dict[str, float] = defaultdict(float)
    for lot in lots:
        for item, grams in lot.trim:
            kept[item] += grams
    lines = [
        Trimming(view.catalog.name(item), grams)
        for item, grams in kept.items()
        if grams >= _LEAST_GRAMS
    ]
    waste = sum(lot.grams_in - lot.grams_out for lot in lots) - sum(kept.values())
    if waste >= _LEAST_GRAMS and not is_heated(view.operation(lots[0])):
        lines.append(Trimming(None, waste))
    return tuple(lines)


def _pulled(view: PlanView, lots: tuple[Lot, ...]) -> list[Taking]:
    total: dict[str, float] = defaultdict(float)
    for lot in lots:
        for item, grams in lot.pulls:
            total[item] += grams
    return [
        Taking(view.catalog.name(item), grams, *pieces(view, item, grams), kind="pull")
        for item, grams in total.items()
    ]


def _from_batches(
    view: PlanView, lots: tuple[Lot, ...], sources: Mapping[int, Source]
) -> list[Taking]:
    total: dict[str, float] = defaultdict(float)
    for lot in lots:
        for index, grams in lot.upstream:
            total[_handed_over(view, lot, view.lots[index], sources)] += grams
    return [Taking(name, grams, None, None, kind="batch") for name, grams in total.items()]


def _handed_over(view: PlanView, lot: Lot, upstream: Lot, sources: Mapping[int, Source]) -> str:
    what = _what_is_handed_over(view, lot, upstream)
    source = sources.get(upstream.index)
    return f"{what} (batch {source.number}, {source.initials})" if source else what


def _what_is_handed_over(view: PlanView, lot: Lot, upstream: Lot) -> str:
    """A finished component, a by-product, or the same food one step further back."""
    inputs = view.catalog.components[lot.component].inputs
    given = {share.component for share in upstream.shares}
    if upstream.finishes:
        for entry in inputs:
            if entry.item in given:
                return view.catalog.name(entry.item)
    if lot.component not in given:
        by_products = [item for item, _grams in upstream.trim]
        for item in by_products:
            if any(item in entry.may_use for entry in inputs):
                return view.catalog.name(item)
    return f"{view.catalog.name(upstream.food)} after {view.operation(upstream).name}"


def _from_stock(view: PlanView, lots: tuple[Lot, ...]) -> list[Taking]:
    total: dict[str, float] = defaultdict(float)
    for lot in lots:
        for item, grams in lot.stock:
            total[item] += grams
    lines = []
    for item, grams in total.items():
        date = stock_use_by(view, item)
        name = view.catalog.name(item)
        name = f"{name} (use by {date.isoformat()})" if date else name
        lines.append(Taking(name, grams, *pieces(view, item, grams), kind="stock"))
    return lines
