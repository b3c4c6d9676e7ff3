"""What a sales history is asked or refused for, in words."""

from planner.forecast.history import HistoryFault
from planner.forecast.keeping import Differing
from planner.forecast.names import SERVICE, KnownNames, Unknown
from planner.wording import sentence
from service.errors import Fault
from web.language import _, ngettext


def fault_of(one: HistoryFault) -> Fault:
    """A fault of a line as it is told to programs."""
    path = f"line {one.line}, {one.field}" if one.line else one.field
    return Fault(path, one.value[:80], one.trouble, one.remedy)


def unknown_fault(one: Unknown, known: KnownNames) -> Fault:
    """A name that the kitchen does not have."""
    if one.near:
        remedy = sentence(
            "Say what it is, such as {names}, or that it is left out", names=", ".join(one.near)
        )
    else:
        remedy = sentence(
            "Say what it is, or that it is left out; the kitchen has: {known}",
            known=names_of(known, one.field),
        )
    trouble = (
        _("the kitchen has no such service")
        if one.field == SERVICE
        else _("the kitchen has no such dish")
    )
    lines = ngettext("on %(n)s line", "on %(n)s lines", one.lines)
    return Fault(f"line {one.line}, {one.field}", one.value, f"{trouble} ({lines})", remedy)


def differing_fault(one: Differing) -> Fault:
    """A count that is kept otherwise."""
    sale, kept = one.sale, one.kept
    values = {
        "service": sale.service,
        "date": sale.date,
        "kept": kept.count,
        "dish": sale.dish,
    }
    if sale.ran_out == kept.ran_out:
        trouble = _("%(service)s of %(date)s is kept with %(kept)s of %(dish)s", **values)
    elif kept.ran_out:
        trouble = _(
            "%(service)s of %(date)s is kept with %(kept)s of %(dish)s, which ran out", **values
        )
    else:
        trouble = _(
            "%(service)s of %(date)s is kept with %(kept)s of %(dish)s, which did not run out",
            **values,
        )
    field, value = "count", str(sale.count)
    if sale.count == kept.count:
        field, value = "ran_out", "yes" if sale.ran_out else "no"
    return Fault(
        f"line {sale.line}, {field}",
        value,
        trouble,
        _("Say whether the new counts replace those kept, or those kept stay"),
    )


def names_of(known: KnownNames, thing: str) -> str:
    """The kitchen's names of services or dishes, each once."""
    return ", ".join(dict.fromkeys(known.of(thing).values()))
