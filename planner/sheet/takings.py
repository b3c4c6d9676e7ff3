"""What a batch starts from, and where its trim goes."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from planner.lots.types import Lot
from planner.sheet.batch_types import Taking, Trimming
from planner.sheet.cautions import is_heated
from planner.sheet.food_names import handed_over
from planner.sheet.labels import stock_use_by
from planner.sheet.pieces import pieces
from planner.sheet.view import PlanView, is_part_made
from planner.wording import sentence, short_date

_LEAST_GRAMS = 0.5
"""Less than this is a rounding remainder, not something to weigh."""

_LEAST_IN_BOWL = 0.01
"""Part of what is mixed; nobody scrapes for less. Starting guess."""


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

    What evaporates in cooking is no trim and is left out. Where foods are mixed nothing is trimmed:
    what is lost stays in the bowl, and is not worth a word below a hundredth.
    """
    kept: dict[str, float] = defaultdict(float)
    for lot in lots:
        for item, grams in lot.trim:
            kept[item] += grams
    lines = [
        Trimming(view.catalog.name(item), grams, item=item)
        for item, grams in kept.items()
        if grams >= _LEAST_GRAMS
    ]
    waste = sum(lot.grams_in - lot.grams_out for lot in lots) - sum(kept.values())
    if waste < _LEAST_GRAMS or is_heated(view.operation(lots[0])):
        return tuple(lines)
    mixed = any(_mixes(view, lot) for lot in lots)
    if not mixed or waste >= _LEAST_IN_BOWL * sum(lot.grams_in for lot in lots):
        lines.append(Trimming(None, waste, in_bowl=mixed))
    return tuple(lines)


def _mixes(view: PlanView, lot: Lot) -> bool:
    """Whether several foods go into a lot; stock of the same food begun earlier is no other one."""
    foods = {item for item, _grams in lot.pulls}
    foods |= {item for item, _grams in lot.stock if not is_part_made(lot, item)}
    for index, _grams in lot.upstream:
        upstream = view.lots[index]
        foods.add(upstream.component if upstream.finishes else lot.component)
    return len(foods) > 1


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
            upstream = view.lots[index]
            what = _what_is_handed_over(view, lot, upstream)
            total[_from(what, (upstream,), sources)] += grams
        for item, grams in lot.stock:
            trimmed = view.trim_sources(lot, item)
            if trimmed:
                total[_from(view.catalog.name(item), trimmed, sources)] += grams
    return [Taking(name, grams, None, None, kind="batch") for name, grams in total.items()]


def _from(what: str, lots: tuple[Lot, ...], sources: Mapping[int, Source]) -> str:
    """Name what is handed over with the batches and cooks that do."""
    found = dict.fromkeys(sources[lot.index] for lot in lots if lot.index in sources)
    batches = ", ".join(
        sentence("batch {n}", n=source.number) + f", {source.initials}" for source in found
    )
    return f"{what} ({batches})" if batches else what


def _what_is_handed_over(view: PlanView, lot: Lot, upstream: Lot) -> str:
    """A finished component, or the same food one step further back."""
    given = {share.component for share in upstream.shares}
    if upstream.finishes:
        for entry in view.catalog.components[lot.component].inputs:
            if entry.item in given:
                return view.catalog.name(entry.item)
    return handed_over(view, upstream)


def _from_stock(view: PlanView, lots: tuple[Lot, ...]) -> list[Taking]:
    total: dict[tuple[str, str], float] = defaultdict(float)
    for lot in lots:
        for item, grams in lot.stock:
            if not view.trim_sources(lot, item):
                total[item, view.stock_name(lot, item)] += grams
    lines = []
    for (item, name), grams in total.items():
        date = stock_use_by(view, item)
        text = (
            sentence("{name} (use by {date})", name=name, date=short_date(date)) if date else name
        )
        lines.append(Taking(text, grams, *pieces(view, item, grams), kind="stock"))
    return lines
