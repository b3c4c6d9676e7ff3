"""The bench form as it is shown: steps in the order of the work, with what was typed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.yields.bench import PartKind
from planner.yields.keys import KitchenYield
from planner.yields.weighing import SCALE_UNITS
from web.bench.form import GROSS, KEPT_AS, TRIM_ROWS, USABLE_ROWS, BenchForm
from web.bench.words import question_words
from web.chef.day_view import FieldView
from web.chef.fields import FieldError
from web.language import _
from web.presenters.yields import beside_usual, percent

_UNITS_FIRST = 1
"""Usable parts that are shown at once; more are a butcher's test."""
_TRIMS_FIRST = 2


@dataclass(frozen=True, slots=True)
class RowView:
    """One load: its name, what the scale showed, the tare, the unit; of trim also what becomes of
    it.
    """

    label: str
    name: FieldView | None
    shown: FieldView
    tare: FieldView
    unit: FieldView
    kind: FieldView | None = None
    value: FieldView | None = None


@dataclass(frozen=True, slots=True)
class BenchView:
    """Everything on the form."""

    title: str
    known: bool
    usual: str
    texts: Mapping[str, FieldView]
    gross: RowView
    usable: tuple[RowView, ...]
    more_usable: tuple[RowView, ...]
    trim: tuple[RowView, ...]
    more_trim: tuple[RowView, ...]
    more_usable_open: bool
    more_trim_open: bool
    may_lose: bool
    may_gain: bool
    units: tuple[str, ...]
    uses: tuple[tuple[str, str], ...]
    """What becomes of trim: value of the choice, and its words."""
    cooks: tuple[str, ...]
    wrong: tuple[tuple[str, str, FieldError], ...]
    asked: tuple[str, ...]


def bench_view(
    known: KitchenYield | None,
    cooks: Sequence[str],
    typed: Mapping[str, str],
    form: BenchForm | None = None,
) -> BenchView:
    """The form for a yield (None: of another food), with what was typed and what came of it."""
    errors = {} if form is None else form.errors
    make = _Make(typed, errors)
    usable = [make.row(row, _("Usable part")) for row in USABLE_ROWS]
    trim = [make.row(row, _("Trim"), trim=True) for row in TRIM_ROWS]
    gross = make.row(GROSS, _("Gross"), named=False)
    texts = {name: make.field(name, label) for name, label in _labels().items()}
    every = [*texts.values()]
    for row in (gross, *usable, *trim):
        every += [one for one in (row.shown, row.tare, row.unit, row.value) if one is not None]
    return BenchView(
        title=texts["food"].value or _("Another food") if known is None else yield_name(known),
        known=known is not None,
        usual="" if known is None else usual_words(known),
        texts=texts,
        gross=gross,
        usable=tuple(usable[:_UNITS_FIRST]),
        more_usable=tuple(usable[_UNITS_FIRST:]),
        trim=tuple(trim[:_TRIMS_FIRST]),
        more_trim=tuple(trim[_TRIMS_FIRST:]),
        more_usable_open=any(row.shown.value or row.tare.value for row in usable[_UNITS_FIRST:]),
        more_trim_open=any(row.shown.value or row.tare.value for row in trim[_TRIMS_FIRST:]),
        may_lose=_checked(typed, "may_lose", known is not None and known.may_lose),
        may_gain=_checked(typed, "may_gain", known is not None and known.may_gain),
        units=SCALE_UNITS,
        uses=(
            (PartKind.WASTE.value, _("waste")),
            (PartKind.CREDITED.value, _("kept for use")),
            *(
                (f"{KEPT_AS}{item}", _("kept as %(food)s", food=name))
                for item, name in (() if known is None else known.kinds)
            ),
        ),
        cooks=tuple(cooks),
        wrong=tuple((one.id, one.label, one.error) for one in every if one.error is not None),
        asked=()
        if form is None
        else tuple(
            question_words(question, lambda place: make.names[form.row(place)], _unit(typed))
            for question in form.questions
        ),
    )


def yield_name(known: KitchenYield) -> str:
    """Food, operation and cut: ``Yellow onion: Dice, medium dice``."""
    work = f"{known.operation}, {known.cut.lower()}" if known.cut else known.operation
    return f"{known.food}: {work}"


def usual_words(known: KitchenYield) -> str:
    """What is known of a yield before it is weighed."""
    usual = known.usual
    if usual.own is None:
        return _("usual %(usual)s (%(source)s)", usual=percent(usual.fraction), source=usual.source)
    return beside_usual(usual.fraction, usual.own.fraction, usual.own.tests)


def _labels() -> dict[str, str]:
    return {
        "food": _("Food"),
        "operation": _("Operation"),
        "cut": _("Cut"),
        "cook": _("Tested by"),
        "supplier": _("Supplier"),
        "scale": _("Scale"),
        "unit": _("Unit"),
        "division": _("Smallest step it shows"),
        "price": _("Price as purchased"),
        "price_unit": _("per"),
        "portion": _("Portion"),
        "portion_unit": _("Unit of the portion"),
        "note": _("Note"),
    }


def _unit(typed: Mapping[str, str]) -> str:
    sent = typed.get("unit", "")
    return sent if sent in SCALE_UNITS else "g"


def _checked(typed: Mapping[str, str], name: str, usual: bool) -> bool:
    return typed.get(name) == "yes" if "sent" in typed else usual


class _Make:
    """Makes field views of what was typed."""

    def __init__(self, typed: Mapping[str, str], errors: Mapping[str, FieldError]) -> None:
        self._typed, self._errors = typed, errors
        self.names: dict[str, str] = {}

    def field(self, name: str, label: str) -> FieldView:
        return FieldView(name, label, self._typed.get(name, ""), self._errors.get(name))

    def row(self, row: str, label: str, *, named: bool = True, trim: bool = False) -> RowView:
        number = "" if row == GROSS else f" {int(row[1:]) + 1}"
        what = f"{label}{number}"
        called = self._typed.get(f"{row}_name", "").strip()
        self.names[row] = called or what
        kind = self.field(f"{row}_kind", _("%(row)s, what becomes of it", row=what))
        if not kind.value:
            kind = FieldView(kind.name, kind.label, PartKind.WASTE.value, None)
        return RowView(
            label=what,
            name=self.field(f"{row}_name", _("%(row)s, name", row=what)) if named else None,
            shown=self.field(row, _("%(row)s, scale shows", row=what)),
            tare=self.field(f"{row}_tare", _("%(row)s, tare", row=what)),
            unit=self.field(f"{row}_unit", _("%(row)s, unit", row=what)),
            kind=kind if trim else None,
            value=self.field(f"{row}_value", _("%(row)s, value", row=what)) if trim else None,
        )
