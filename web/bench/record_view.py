"""A kept bench test as it is read and printed, with the tests of the same yield beside it."""

from collections.abc import Sequence
from dataclasses import dataclass

from planner.yields.bench import PartKind, balance_of
from planner.yields.costs import cents, costs_of
from planner.yields.record import BenchRecord
from planner.yields.repeats import Load, repeated
from planner.yields.weighing import Reading, unit_grams
from web.bench.words import question_words, weight
from web.language import _
from web.presenters.clock import long_date
from web.presenters.quantities import number
from web.presenters.yields import percent

_MANY = 2


@dataclass(frozen=True, slots=True)
class PartView:
    """A load of the record: as it was read, net, its share, and what it is worth."""

    name: str
    what: str
    shown: str
    tare: str
    net: str
    share: str
    value: str
    worth: str


@dataclass(frozen=True, slots=True)
class BesideView:
    """A test of the same yield; ``current``: the one on the page."""

    number: int
    href: str
    date: str
    cook: str
    gross: str
    usable: str
    fraction: str
    unit_cost: str
    current: bool


@dataclass(frozen=True, slots=True)
class RecordView:
    """Everything on the record. Empty text: there is nothing to say."""

    title: str
    number: int
    date: str
    facts: tuple[tuple[str, str], ...]
    yield_percent: str
    parts: tuple[PartView, ...]
    sum_net: str
    balance: str
    closes: bool
    costs: tuple[tuple[str, str], ...]
    has_values: bool
    asked: tuple[str, ...]
    settled: bool
    note: str
    beside: tuple[BesideView, ...]
    together: str


def record_view(
    number_: int, record: BenchRecord, beside: Sequence[tuple[int, str, BenchRecord]]
) -> RecordView:
    """A record; ``beside`` are number, address and record of all tests of the yield, with it."""
    test, unit = record.test, record.test.gross.unit
    balance = balance_of(test)
    names = {"gross": _("Gross")}
    names |= {f"parts.{index}": part.name for index, part in enumerate(test.parts)}
    return RecordView(
        title=_title(record),
        number=number_,
        date=long_date(record.date),
        facts=_facts(record),
        yield_percent=percent(balance.fraction),
        parts=_parts(record),
        sum_net=weight(balance.usable + balance.credited + balance.waste, unit),
        balance=_balance(record),
        closes=balance.closes,
        costs=_costs(record),
        has_values=any(part.value for part in test.parts),
        asked=tuple(
            question_words(one, lambda place: names.get(place, place), unit)
            for one in record.questions
        ),
        settled=record.settled,
        note=record.note,
        beside=tuple(
            _beside(other, href, one, current=other == number_) for other, href, one in beside
        ),
        together=_together([one for _number, _href, one in beside]),
    )


def record_label(number_: int, record: BenchRecord) -> str:
    """A test in a list: number, day, what, yield."""
    fraction = percent(balance_of(record.test).fraction)
    return f"{number_}, {record.date.isoformat()}: {_title(record)}, {fraction}"


def _title(record: BenchRecord) -> str:
    work = ", ".join(filter(None, (record.operation, record.cut.lower())))
    return f"{record.food}: {work}" if work else record.food


def _facts(record: BenchRecord) -> tuple[tuple[str, str], ...]:
    division = record.test.gross.division
    step = f"{number(division, 3)} {record.test.gross.unit}" if division else ""
    found = (
        (_("Tested by"), record.cook),
        (_("Supplier"), record.supplier),
        (_("Scale"), record.scale),
        (_("Smallest step"), step),
        (_("Cut"), record.cut),
    )
    return tuple((name, text) for name, text in found if text)


def _parts(record: BenchRecord) -> tuple[PartView, ...]:
    test = record.test
    gross = test.gross.grams
    unit = record.price.unit if record.price else test.gross.unit
    found = [_part(_("As purchased"), _("gross"), test.gross, gross)]
    what = {
        PartKind.USABLE: _("usable"),
        PartKind.CREDITED: _("kept for use"),
        PartKind.WASTE: _("waste"),
    }
    for part in test.parts:
        value = f"{cents(part.value * unit_grams(unit))} / {unit}" if part.value else ""
        worth = cents(part.value * part.reading.grams) if part.value else ""
        found.append(_part(part.name, what[part.kind], part.reading, gross, value, worth))
    balance = balance_of(test)
    if not balance.usable_weighed:
        net = weight(balance.usable, test.gross.unit)
        usable = percent(balance.fraction)
        found.append(
            PartView(_("usable"), _("not weighed: what is left"), "", "", net, usable, "", "")
        )
    return tuple(found)


def _part(
    name: str, what: str, reading: Reading, gross: float, value: str = "", worth: str = ""
) -> PartView:
    return PartView(
        name=name,
        what=what,
        shown=f"{number(reading.shown, 3)} {reading.unit}",
        tare=f"{number(reading.tare, 3)} {reading.unit}" if reading.tare else "",
        net=weight(reading.grams, reading.unit),
        share=percent(reading.grams / gross),
        value=value,
        worth=worth,
    )


def _balance(record: BenchRecord) -> str:
    balance = balance_of(record.test)
    unit = record.test.gross.unit
    missing, tolerance = weight(balance.missing, unit), weight(balance.tolerance, unit)
    if not balance.usable_weighed:
        return _("The usable part was not weighed: the balance cannot be checked.")
    if balance.closes:
        return _(
            "Gross less all parts: %(missing)s, within the %(tolerance)s that the scale explains.",
            missing=missing,
            tolerance=tolerance,
        )
    if record.test.may_gain and balance.missing < 0:
        return _("Taken up: %(gain)s.", gain=weight(-balance.missing, unit))
    if record.test.may_lose and balance.missing > 0:
        return _(
            "Lost to heat, draining or thawing: %(missing)s, %(share)s of gross.",
            missing=missing,
            share=percent(balance.missing / balance.gross),
        )
    return _(
        "Gross less all parts: %(missing)s, where the scale explains %(tolerance)s.",
        missing=missing,
        tolerance=tolerance,
    )


def _costs(record: BenchRecord) -> tuple[tuple[str, str], ...]:
    price = record.price
    if price is None:
        return ()
    costs = costs_of(record.test, price)

    def money(amount: float) -> str:
        return f"{cents(amount)} {record.currency}"

    found = [
        (_("Price as purchased"), f"{money(price.money)} / {price.unit}"),
        (_("Cost of the load"), money(costs.total)),
    ]
    if costs.credit:
        found += [
            (_("Less what is kept for use"), money(costs.credit)),
            (_("Cost of what is usable"), money(costs.usable)),
        ]
    found += [
        (_("Cost per usable %(unit)s", unit=price.unit), money(costs.unit_cost)),
        (_("Cost factor"), number(costs.factor, 3)),
    ]
    portion = record.portion
    if portion is not None:
        grams = portion.number * unit_grams(portion.unit)
        size = f"{number(portion.number, 2)} {portion.unit}"
        found += [
            (_("Cost of a portion of %(portion)s", portion=size), money(costs.portion(grams))),
            (_("Cost factor of a portion"), number(costs.portion_factor(grams, price), 3)),
        ]
    return tuple(found)


def _beside(number_: int, href: str, record: BenchRecord, *, current: bool) -> BesideView:
    balance = balance_of(record.test)
    unit = record.test.gross.unit
    unit_cost = ""
    if record.price is not None:
        costs = costs_of(record.test, record.price)
        unit_cost = f"{cents(costs.unit_cost)} / {costs.unit}"
    return BesideView(
        number=number_,
        href=href,
        date=record.date.isoformat(),
        cook=record.cook,
        gross=weight(balance.gross, unit),
        usable=weight(balance.usable, unit),
        fraction=percent(balance.fraction),
        unit_cost=unit_cost,
        current=current,
    )


def _together(records: Sequence[BenchRecord]) -> str:
    if len(records) < _MANY:
        return ""
    balances = [balance_of(record.test) for record in records]
    found = repeated([Load(balance.gross, balance.usable) for balance in balances])
    return _(
        "All %(tests)s together: %(mean)s (usable of all over gross of all), from %(low)s to "
        "%(high)s; a load of this size scatters by %(spread)s points.",
        tests=found.tests,
        mean=percent(found.mean),
        low=percent(found.low),
        high=percent(found.high),
        spread=number((found.spread or 0.0) * 100, 1),
    )
