"""What has to be answered before lines are kept: names that nobody knows, counts that differ."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.forecast.keeping import Compared
from planner.forecast.names import DISH, LEFT_OUT, SERVICE, Unknown
from web.language import _, ngettext
from web.presenters.clock import short_date

_LISTED = 20
OUT = "out"
"""A choice: leave it out. Ids are lower case too, but stand behind an equals sign."""
AS_IT_IS = "as"
IS = "="


@dataclass(frozen=True, slots=True)
class AskedName:
    """A name to be answered: its field, what is asked, and what it may be (value, words)."""

    name: str
    label: str
    choices: tuple[tuple[str, str], ...]
    chosen: str


@dataclass(frozen=True, slots=True)
class AskedView:
    """The questions. ``differing`` are counts that contradict those kept, ``more`` of them are not
    listed; ``facts`` say what else is in the file.
    """

    names: tuple[AskedName, ...]
    differing: tuple[str, ...]
    more: int
    facts: tuple[str, ...]


def asked_view(
    unknown: Sequence[Unknown],
    found: Compared,
    services: Sequence[str],
    dishes: Mapping[str, str],
    typed: Mapping[str, str],
) -> AskedView:
    """Questions about lines; ``dishes`` are names by id, ``typed`` what is answered so far."""
    names = [_name(one, services, dishes, typed) for one in unknown]
    return AskedView(
        names=tuple(names),
        differing=tuple(
            _(
                "%(service)s of %(day)s, %(dish)s: %(kept)s kept, %(count)s in the file",
                service=one.sale.service,
                day=short_date(one.sale.date),
                dish=dishes.get(one.sale.dish, one.sale.dish),
                kept=one.kept,
                count=one.sale.count,
            )
            for one in found.differing[:_LISTED]
        ),
        more=max(0, len(found.differing) - _LISTED),
        facts=(
            ngettext("%(n)s new count", "%(n)s new counts", len(found.new)),
            ngettext(
                "%(n)s count that is kept already", "%(n)s counts that are kept already", found.same
            ),
        ),
    )


def answer_of(text: str, value: str) -> str | None:
    """What a choice answers of the name ``value``; None: nothing."""
    if text == OUT:
        return LEFT_OUT
    if text == AS_IT_IS:
        return value
    return text.removeprefix(IS) if text.startswith(IS) else None


def field_name(thing: str, value: str) -> str:
    """Name of the field that answers for a name."""
    return f"is.{thing}.{value}"


def answers_in(fields: Mapping[str, str]) -> dict[tuple[str, str], str]:
    """All that is answered in a form, by (service or dish, name)."""
    found = {}
    for thing in (SERVICE, DISH):
        start = field_name(thing, "")
        for name, text in fields.items():
            if name.startswith(start):
                value = name.removeprefix(start)
                answer = answer_of(text, value)
                if answer is not None:
                    found[thing, value] = answer
    return found


def _name(
    one: Unknown, services: Sequence[str], dishes: Mapping[str, str], typed: Mapping[str, str]
) -> AskedName:
    name = field_name(one.field, one.value)
    if one.field == SERVICE:
        label = ngettext(
            "Service “%(name)s”, on %(n)s line",
            "Service “%(name)s”, on %(n)s lines",
            one.lines,
            name=one.value,
        )
        known = [(service, service) for service in services]
    else:
        label = ngettext(
            "Dish “%(name)s”, on %(n)s line",
            "Dish “%(name)s”, on %(n)s lines",
            one.lines,
            name=one.value,
        )
        known = list(dishes.items())
    known.sort(key=lambda entry: (entry[0] not in one.near, entry[1]))
    return AskedName(
        name=name,
        label=label,
        choices=(
            ("", _("Choose")),
            *((f"{IS}{key}", _("is %(name)s", name=words)) for key, words in known),
            (AS_IT_IS, _("keep under its own name")),
            (OUT, _("leave it out")),
        ),
        chosen=typed.get(name, ""),
    )
