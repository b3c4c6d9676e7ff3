"""Tests from what cooks weigh while they work a released plan.

All loads of one batch are summed up: what went in, what came out, what was trimmed. Sums do not
depend on the order in which ticks came, nor on the clocks of the devices: the test is of the day
that was planned. What does not fit is asked about; nothing of it counts until it is answered.
"""

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from planner.floor.state import Floor, Weighing
from planner.floor.ticks import Weighed
from planner.kitchen.catalog import Catalog
from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import KitchenSheet
from planner.yields.asking import Question, QuestionKind, Slip, slips_of
from planner.yields.bench import BenchTest, Part, PartKind
from planner.yields.judging import TakenTest
from planner.yields.keys import KitchenYield, YieldKey, key_of, yields_of
from planner.yields.repeats import Load
from planner.yields.weighing import SCALE_UNITS, Reading, unit_grams

_OPEN = 0.05
"""Share of what went in that may be missing where trim is weighed among other work."""
_ALL = 0.1
"""Share of what was taken off that may be missing where all of it counts as weighed."""
_APART = 1.5
"""Times that what went in and what came out may differ, each from what was planned of it."""
_TOO_LITTLE, _TOO_MUCH = 1.8, 2.5
"""Times less, or more, than usual that trim weighs where it alone says what is usable: some of it,
or some of what went in, was then likely not weighed. Starting guesses."""
_LITTLE = 0.03
"""Share of what went in that trim may differ by, unasked."""
_SOON = 3.0
"""Minutes within which the same weight again is likely the same load."""
_SAME = 0.5
"""Grams."""


@dataclass(frozen=True, slots=True)
class FloorTest:
    """A batch that was weighed: which yield it is of, and what was on the scale in all."""

    of: YieldKey
    taken: TakenTest
    gross: float
    usable: float | None
    trim: float | None
    batch: str


def floor_tests(
    catalog: Catalog, sheets: Sequence[KitchenSheet], floor: Floor, *, over: bool
) -> tuple[FloorTest, ...]:
    """Tests of one day.

    Parameters
    ----------
    catalog
        The kitchen as it was planned.
    sheets
        The day's releases, the newest first: a load is of the batch that holds its task.
    floor
        What was said of all of them.
    over
        Whether the day is over: until then only batches that are done are summed up.
    """
    known = yields_of(catalog)
    found: list[FloorTest] = []
    for batch, weighings in _by_batch(sheets, floor):
        key = _key(catalog, batch)
        done = all(floor.of(task.id).done is not None for task in batch.tasks)
        if key is not None and key in known and (done or over):
            found += _test(catalog, known[key], sheets[0].date, batch, weighings)
    return tuple(found)


def _by_batch(
    sheets: Sequence[KitchenSheet], floor: Floor
) -> Iterator[tuple[SheetBatch, list[Weighing]]]:
    batches: dict[str, SheetBatch] = {}
    for sheet in reversed(sheets):
        for cook in sheet.cooks:
            for batch in cook.batches:
                batches |= {task.id: batch for task in batch.tasks if task.id}
    weighed: dict[int, list[Weighing]] = defaultdict(list)
    of: dict[int, SheetBatch] = {}
    for one in floor.weighings:
        mine = next((batches[task] for task in one.tasks if task in batches), None)
        if mine is not None:
            weighed[id(mine)].append(one)
            of[id(mine)] = mine
    for found, weighings in weighed.items():
        yield of[found], weighings


def _key(catalog: Catalog, batch: SheetBatch) -> YieldKey | None:
    """The one yield a batch is of; None: it has none, or several that nobody weighed apart."""
    cuts = {cut.name: cut.id for cut in catalog.cuts.values()}
    keys = set()
    for given in batch.outputs:
        component = catalog.components.get(given.component)
        steps = () if component is None else enumerate(component.route)
        wanted = cuts.get(given.cut.name) if given.cut else None
        matching = [i for i, step in steps if step.operation == batch.operation]
        exact = [i for i in matching if component and component.route[i].cut == wanted]
        for index in (exact or matching)[:1]:
            if component is not None:
                keys.add(key_of(catalog, component, index))
    return keys.pop() if len(keys) == 1 else None


def _test(
    catalog: Catalog,
    known: KitchenYield,
    date: dt.date,
    batch: SheetBatch,
    weighings: Sequence[Weighing],
) -> Iterator[FloorTest]:
    sums = {kind: _sum(weighings, kind) for kind in Weighed}
    gross, usable, trim = sums[Weighed.GROSS], sums[Weighed.USABLE], sums[Weighed.TRIM]
    unseen = known.may_lose or known.may_gain
    if gross is None or (usable is None and (trim is None or unseen or trim >= gross)):
        return
    out = usable if usable is not None else gross - (trim or 0.0)
    first = min(weighings, key=lambda one: one.said.key)
    yield FloorTest(
        of=known.key,
        taken=TakenTest(
            key=f"floor-{date}-{first.said.key}",
            date=date,
            load=Load(gross, out),
            supplier=known.supplier,
            cook=catalog.cooks[first.said.cook].name if first.said.cook in catalog.cooks else "",
            asked=tuple(_asked(known, batch, sums, weighings)),
            trim=_kept(known, weighings),
            trim_whole=usable is None or _whole(gross, usable, trim),
        ),
        gross=gross,
        usable=usable,
        trim=trim,
        batch=f"{batch.operation_name} {batch.food_name}",
    )


def _sum(weighings: Iterable[Weighing], kind: Weighed) -> float | None:
    grams = [one.weight.net_grams for one in weighings if one.weight.kind is kind]
    return sum(grams) if grams else None


def _kept(known: KitchenYield, weighings: Iterable[Weighing]) -> tuple[tuple[str, float], ...]:
    """Grams of trim by the by-product that it was kept as."""
    kinds = {item for item, _ in known.kinds}
    grams: dict[str, float] = {}
    for one in weighings:
        weight = one.weight
        if weight.kind is Weighed.TRIM and weight.item in kinds:
            grams[weight.item] = grams.get(weight.item, 0.0) + weight.net_grams
    return tuple(sorted(grams.items()))


def _whole(gross: float, usable: float, trim: float | None) -> bool:
    """Whether the trim that was weighed is all that was taken off."""
    off = gross - usable
    return trim is not None and off > 0 and abs(off - trim) <= off * _ALL


def _asked(
    known: KitchenYield,
    batch: SheetBatch,
    sums: Mapping[Weighed, float | None],
    weighings: Sequence[Weighing],
) -> Iterator[Question]:
    gross, usable, trim = sums[Weighed.GROSS], sums[Weighed.USABLE], sums[Weighed.TRIM]
    assert gross is not None  # noqa: S101 - there is no test without
    out = usable if usable is not None else gross - (trim or 0.0)
    slip = _slip(known, gross, usable, trim)
    if slip is not None:
        part = "trim" if usable is None and slip.field != "gross" else slip.field
        yield Question(QuestionKind.UNIT, part, out / gross, _usual(known), slip)
    if usable is not None:
        missing = gross - usable - (trim or 0.0)
        unseen = (known.may_gain and missing < 0) or (missing > 0 and (known.may_lose or not trim))
        if not unseen and abs(missing) > gross * _OPEN * bool(trim):
            yield Question(QuestionKind.BALANCE, "gross", missing, gross * _OPEN)
        apart = _ratio(gross, batch.grams_in) / _ratio(usable, batch.grams_out)
        if not 1 / _APART <= apart <= _APART:
            yield Question(QuestionKind.PARTLY, "gross", gross, batch.grams_in)
    elif trim is not None:
        expected = gross * (1 - _expected(known))
        far = abs(trim - expected) > gross * _LITTLE
        if far and not expected / _TOO_LITTLE <= trim <= expected * _TOO_MUCH:
            yield Question(QuestionKind.PARTLY, "trim", trim, expected)
    for one, other in combinations(weighings, 2):
        mine, theirs = one.weight, other.weight
        if (
            (mine.kind, mine.item) == (theirs.kind, theirs.item)
            and abs(mine.net_grams - theirs.net_grams) < _SAME
            and abs(one.said.at - other.said.at) < _SOON
        ):
            yield Question(QuestionKind.TWICE, mine.kind.value, mine.net_grams)
            break


def _slip(
    known: KitchenYield, gross: float, usable: float | None, trim: float | None
) -> Slip | None:
    """A unit that was taken for another; the scale's unit is not sent, so all are tried.

    What came out is held against what went in, or the trim where that alone was weighed.
    """
    kind = PartKind.WASTE if usable is None else PartKind.USABLE
    part = trim or 0.0 if usable is None else usable
    for unit in SCALE_UNITS:
        size = unit_grams(unit)
        test = BenchTest(
            Reading(gross / size, unit),
            (Part("", kind, Reading(part / size, unit)),),
            may_lose=known.may_lose,
            may_gain=known.may_gain,
        )
        for slip in slips_of(test, _usual(known)):
            return slip
    return None


def _usual(known: KitchenYield) -> float:
    return known.usual.fraction


def _expected(known: KitchenYield) -> float:
    own = known.usual.own
    return _usual(known) if own is None else own.fraction


def _ratio(grams: float, planned: float) -> float:
    return grams / planned if planned > 0 else 1.0
