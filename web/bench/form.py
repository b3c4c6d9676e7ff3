"""The bench form as it was sent: its fields into a test, or what is wrong with them."""

import datetime as dt
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TypeVar

from planner.yields.asking import Question, faults_of, questions_of
from planner.yields.bench import BenchTest, Part, PartKind
from planner.yields.costs import CreditError, Price, cents, costs_of
from planner.yields.keys import KitchenYield
from planner.yields.record import BenchRecord, Portion
from planner.yields.weighing import SCALE_UNITS, Reading, unit_grams
from web.bench.words import fault_error
from web.chef.fields import BadFieldError, FieldError, decimal
from web.language import _

USABLE_ROWS = tuple(f"u{index}" for index in range(4))
TRIM_ROWS = tuple(f"t{index}" for index in range(6))
GROSS = "gross"
KEPT_AS = "kept:"
"""Begins the choice of a by-product that a row of trim is kept as."""
COUNT, WAIT = "count", "wait"
_LONGEST = 80

_Read = TypeVar("_Read")


@dataclass(frozen=True, slots=True)
class BenchForm:
    """What was sent: the record where it can be one, what is wrong, what is asked.

    ``rows`` are the rows that were filled in, in the order of the test's parts.
    """

    record: BenchRecord | None
    errors: Mapping[str, FieldError]
    questions: tuple[Question, ...]
    rows: tuple[str, ...]

    def row(self, place: str) -> str:
        """The row of a reading: ``parts.1`` is that of the second part."""
        return GROSS if place == GROSS else self.rows[int(place.partition(".")[2])]


def read_bench_form(
    fields: Mapping[str, str], known: KitchenYield | None, date: dt.date, currency: str
) -> BenchForm:
    """Read the fields; ``known`` is the yield that is tested, None: another food."""
    form = _Form(fields, frozenset(item for item, _ in known.kinds) if known else frozenset())
    test = form.test()
    price = form.price()
    portion = form.portion()
    food = form.text("food") if known is None else known.food
    if not food:
        form.errors["food"] = FieldError(
            "", _("no food is named"), _("write what is tested, such as striploin")
        )
    usual = None if known is None else known.usual.fraction
    questions: tuple[Question, ...] = ()
    if test is not None and not form.errors:
        for fault in faults_of(test, usual):
            name = "u0" if fault.field == "parts" else form.row(fault.field)
            form.errors.setdefault(name, fault_error(fault))
        if not form.errors:
            questions = questions_of(test, usual)
            form.check_costs(test, price)
    if test is None or form.errors:
        return BenchForm(None, form.errors, (), tuple(form.rows))
    record = BenchRecord(
        of="" if known is None else str(known.key),
        food=food,
        operation=form.text("operation") if known is None else known.operation,
        cut=form.text("cut") if known is None else known.cut,
        supplier=form.text("supplier"),
        cook=form.text("cook"),
        scale=form.text("scale"),
        date=date,
        test=test,
        currency=currency,
        price=price,
        portion=portion,
        note=form.text("note"),
        questions=questions,
        settled=bool(questions) and fields.get("then") == COUNT,
    )
    return BenchForm(record, {}, questions, tuple(form.rows))


@dataclass(slots=True)
class _Form:
    fields: Mapping[str, str]
    kinds: frozenset[str] = frozenset()
    """By-products that trim of it can be kept as."""
    errors: dict[str, FieldError] = field(default_factory=dict)
    rows: list[str] = field(default_factory=list)
    unit: str = "g"
    """Of the scale, for rows that name none."""
    division: float = 0.0
    """Grams."""

    def text(self, name: str) -> str:
        return " ".join(self.fields.get(name, "").split())[:_LONGEST]

    def test(self) -> BenchTest | None:
        self.unit = self._unit("unit", "g")
        division = self._read("division", lambda text: decimal(text, example="5")) or 0.0
        self.division = division * unit_grams(self.unit)
        gross = self._reading(GROSS)
        if gross is None and GROSS not in self.errors:
            self.errors[GROSS] = FieldError(
                "", _("nothing is entered"), _("weigh what goes in, before anything is cut off")
            )
        parts = [
            part
            for rows, usable in ((USABLE_ROWS, True), (TRIM_ROWS, False))
            for row in rows
            if (part := self._part(row, usable=usable)) is not None
        ]
        if gross is None:
            return None
        return BenchTest(
            gross,
            tuple(parts),
            may_lose=self.fields.get("may_lose") == "yes",
            may_gain=self.fields.get("may_gain") == "yes",
        )

    def price(self) -> Price | None:
        money = self._read("price", lambda text: decimal(text, example="8.50"))
        unit = self._unit("price_unit", "kg")
        return None if not money else Price(money, unit)

    def portion(self) -> Portion | None:
        amount = self._read("portion", lambda text: decimal(text, example="170"))
        unit = self._unit("portion_unit", "g")
        return None if not amount else Portion(amount, unit)

    def check_costs(self, test: BenchTest, price: Price | None) -> None:
        if price is None:
            return
        try:
            costs_of(test, price)
        except CreditError as error:
            self.errors["price"] = FieldError(
                cents(price.money),
                _(
                    "what is kept is worth %(credit)s, more than the load cost, %(total)s",
                    credit=cents(error.credit),
                    total=cents(error.total),
                ),
                _("check the price and the values, and what they are per"),
            )

    def row(self, place: str) -> str:
        return GROSS if place == GROSS else self.rows[int(place.partition(".")[2])]

    def _part(self, row: str, *, usable: bool) -> Part | None:
        reading = self._reading(row)
        if reading is None:
            return None
        self.rows.append(row)
        if usable:
            return Part(self.text(f"{row}_name") or _("usable"), PartKind.USABLE, reading)
        chosen = self.fields.get(f"{row}_kind", "")
        item = chosen.removeprefix(KEPT_AS) if chosen.startswith(KEPT_AS) else ""
        item = item if item in self.kinds else ""
        kept = bool(item) or chosen == PartKind.CREDITED.value
        value = self._read(f"{row}_value", lambda text: decimal(text, example="1.50")) or 0.0
        if value and not kept:
            self.errors[f"{row}_value"] = FieldError(
                self.text(f"{row}_value"),
                _("waste is worth nothing"),
                _("choose that it is kept for use, or clear the value"),
            )
        per_gram = value / unit_grams(self._unit("price_unit", "kg"))
        kind = PartKind.CREDITED if kept else PartKind.WASTE
        return Part(self.text(f"{row}_name") or _("trim"), kind, reading, per_gram, item)

    def _reading(self, row: str) -> Reading | None:
        """What one row says; a row without a weight says nothing, unless it has a tare."""
        shown = self._read(row, lambda text: decimal(text, example="1250"))
        tare = self._read(f"{row}_tare", lambda text: decimal(text, example="320"))
        unit = self._unit(f"{row}_unit", self.unit)
        if shown is None:
            if tare and row not in self.errors:
                self.errors[row] = FieldError(
                    "", _("nothing is entered"), _("enter what the scale showed, or clear the tare")
                )
            return None
        return Reading(shown, unit, tare or 0.0, self.division / unit_grams(unit))

    def _unit(self, name: str, default: str) -> str:
        sent = self.fields.get(name, "")
        if sent and sent not in SCALE_UNITS:
            self.errors[name] = FieldError(
                sent[:20],
                _("this is not a unit of a scale"),
                _("choose one of %(units)s", units=", ".join(SCALE_UNITS)),
            )
            return default
        return sent or default

    def _read(self, name: str, read: Callable[[str], _Read]) -> _Read | None:
        text = self.fields.get(name, "").strip()
        if not text:
            return None
        try:
            return read(text)
        except BadFieldError as error:
            self.errors[name] = error.error
            return None
