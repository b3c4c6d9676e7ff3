"""Weights, yields, faults and questions in words."""

from collections.abc import Callable

from planner.yields.asking import Fault, FaultKind, Question, QuestionKind, Slip
from planner.yields.decide import Hold, Way
from planner.yields.drift import Drift, DriftKind
from planner.yields.judging import Standing
from planner.yields.weighing import unit_grams
from web.chef.fields import FieldError
from web.language import _
from web.presenters.quantities import number
from web.presenters.typography import MINUS
from web.presenters.yields import percent

_DECIMALS = {"g": 1, "kg": 3, "oz": 2, "lb": 3}


def weight(grams: float, unit: str) -> str:
    """A weight in the unit of a scale: ``1.25 kg``."""
    text = number(abs(grams) / unit_grams(unit), _DECIMALS[unit])
    return f"{MINUS if grams < 0 and text != '0' else ''}{text} {unit}"


def slip_words(slip: Slip) -> str:
    """A unit that may have been taken for another."""
    return _("In %(meant)s instead of %(unit)s it would fit.", meant=slip.meant, unit=slip.unit)


def fault_error(fault: Fault) -> FieldError:
    """A fault as a field's error: what stands there, why that cannot be, what to do."""
    remedy = _("weigh it again and enter what the scale shows")
    if fault.kind is FaultKind.NOTHING:
        return FieldError(number(fault.value, 3), _("nothing was on the scale"), remedy)
    if fault.kind is FaultKind.TARE:
        tare, load = (f"{number(one, 3)} {fault.unit}" for one in (fault.value, fault.against))
        return FieldError(
            tare,
            _("the empty container weighs as much as the load of %(load)s or more", load=load),
            _("enter the load with its container, or 0 if the scale was set to zero with it"),
        )
    if fault.kind is FaultKind.NO_PARTS:
        return FieldError("", _("no part was weighed"), _("weigh what is usable, or the trim"))
    if fault.slip is not None:
        remedy = f"{slip_words(fault.slip)} {remedy}"
    if fault.kind is FaultKind.MORE_OUT:
        message = _(
            "more is usable than went in, %(gross)s", gross=weight(fault.against, fault.unit)
        )
    else:
        message = _("the trim weighs as much as what went in, or more")
    return FieldError(weight(fault.value, fault.unit), message, remedy)


def question_words(question: Question, name: Callable[[str], str], unit: str = "g") -> str:
    """What is asked, as one or two sentences; ``name`` gives a field's name."""
    kind, value, against = question.kind, question.value, question.against
    if kind is QuestionKind.UNIT and question.slip is not None:
        return _(
            "%(field)s: is the unit right? %(slip)s",
            field=name(question.field),
            slip=slip_words(question.slip),
        )
    if kind is QuestionKind.BALANCE and value > 0:
        return _(
            "%(missing)s of what went in are in no part; the scale explains %(tolerance)s. Was "
            "something not weighed, or did it run or steam off?",
            missing=weight(value, unit),
            tolerance=weight(against, unit),
        )
    if kind is QuestionKind.BALANCE:
        return _(
            "The parts weigh %(more)s more than what went in; the scale explains %(tolerance)s. "
            "Was a container weighed with one of them?",
            more=weight(-value, unit),
            tolerance=weight(against, unit),
        )
    if kind is QuestionKind.UNUSUAL:
        return _(
            "A yield of %(found)s, where all else leads to expect %(expected)s. Is it right?",
            found=percent(value),
            expected=percent(against),
        )
    return _of_a_load(question, name, unit)


def _of_a_load(question: Question, name: Callable[[str], str], unit: str) -> str:
    kind, value, against = question.kind, question.value, question.against
    if kind is QuestionKind.PARTLY and question.field == "trim":
        return _(
            "%(found)s were taken off, %(planned)s are usual: was only a part of it weighed?",
            found=weight(value, unit),
            planned=weight(against, unit),
        )
    if kind is QuestionKind.PARTLY:
        return _(
            "%(found)s went in, %(planned)s were planned: was only a part of it weighed?",
            found=weight(value, unit),
            planned=weight(against, unit),
        )
    if kind is QuestionKind.TRIM:
        return _(
            "%(kind)s is %(found)s of what was taken off, where all else leads to expect "
            "%(expected)s. Is it right?",
            kind=name(question.field),
            found=percent(value),
            expected=percent(against),
        )
    return _("A load of %(load)s was told twice. Is it one?", load=weight(value, unit))


def standing_words(standing: Standing) -> str:
    """Whether a test is learned from."""
    return {
        Standing.COUNTS: _("counts"),
        Standing.ASKED: _("waits for an answer"),
        Standing.LEFT_OUT: _("left out"),
        Standing.BEFORE: _("older than what counts"),
    }[standing]


def hold_words(hold: Hold | None) -> str:
    """Why the rule has not taken a yield into use."""
    if hold is None:
        return _("The tests are enough to decide by.")
    return {
        Hold.FEW: _("Fewer than five tests count: the figure may still move."),
        Hold.SMALL: _("It differs by less than a point from what is in use."),
        Hold.UNSURE: _("The tests scatter too much to be sure that it differs."),
        Hold.QUESTIONS: _("A test waits for an answer."),
        Hold.DRIFT: _("The tests speak for a change; look at it first."),
    }[hold]


def trim_hold_words(hold: Hold | None) -> str:
    """Why the rule has not taken shares of the trim into use."""
    if hold is Hold.SMALL:
        return _("They differ by less than five points of what is taken off from those in use.")
    return hold_words(hold)


def way_words(way: Way) -> str:
    """How a decision came about."""
    return {
        Way.RULE: _("by rule"),
        Way.TESTS: _("from the tests"),
        Way.HAND: _("by hand"),
        Way.USUAL: _("back to usual"),
        Way.BACK: _("put back"),
        Way.SINCE: _("which tests count"),
    }[way]


def drift_words(drift: Drift, since: str) -> str:
    """A change that the tests speak for."""
    if drift.kind is DriftKind.COOK:
        return _(
            "With %(cook)s it is %(after)s, with all others %(before)s.",
            cook=drift.cook,
            after=percent(drift.after),
            before=percent(drift.before),
        )
    return _(
        "Since %(since)s it is %(after)s, before that %(before)s.",
        since=since,
        after=percent(drift.after),
        before=percent(drift.before),
    )
