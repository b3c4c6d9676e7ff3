"""What the sales history makes of a day, beside its fields: usual covers and mix, in words."""

from collections.abc import Mapping
from dataclasses import dataclass

from planner.entry.lines import DayEntries, ServiceEntry
from planner.forecast.history import COVERS
from planner.forecast.outlook import LEAST_WEEKS, DayOutlook, NoForecast, ServiceOutlook
from planner.forecast.service import ServiceForecast
from web.chef.day_form import PER
from web.chef.fields import plain
from web.language import _, ngettext
from web.presenters.clock import short_date
from web.sales.words import how_words

_MIX = "mix"
_COVERS = "covers"


@dataclass(frozen=True, slots=True)
class UsualDish:
    """A dish: portions per hundred covers, and how many portions that may be; empty: not known."""

    per_hundred: str = ""
    portions: str = ""


@dataclass(frozen=True, slots=True)
class UsualService:
    """A service: what is usual and how that is known, or why nothing is.

    ``take_covers`` and ``take_mix`` are the words of buttons that take it over into the form, empty
    where there is nothing to take; ``came`` is what was sold a week before.
    """

    covers: str = ""
    way: str = ""
    came: str = ""
    take_covers: str = ""
    take_mix: str = ""


def sales_words(outlook: DayOutlook) -> str:
    """What is to be known of the history as a whole; empty: nothing is."""
    if outlook.newest is None:
        return _(
            "No sales are kept yet. With %(n)s weeks of them the usual covers and mix stand here.",
            n=LEAST_WEEKS,
        )
    if outlook.old:
        return _(
            "The newest sales that are kept are of %(day)s %(year)s: what is usual may have "
            "changed since. Bring newer ones.",
            day=short_date(outlook.newest),
            year=outlook.newest.year,
        )
    return ""


def usual_service(outlook: ServiceOutlook | None, day: DayOutlook | None) -> UsualService:
    """What stands beside a service's covers."""
    if outlook is None or day is None:
        return UsualService()
    came = _came(outlook)
    forecast = outlook.forecast
    if forecast is None:
        return UsualService(covers=_none_words(outlook, day), came=came)
    mix = any(one.per_cover for one in forecast.dishes)
    take_mix = _("Take over the usual mix") if mix else ""
    if forecast.covers is None or forecast.chosen is None:
        words = _("Its covers are not counted in the sales that are kept, only its dishes.")
        return UsualService(covers=words, came=came, take_mix=take_mix)
    return UsualService(
        covers=_(
            "Usually %(covers)s, give or take %(sd)s.",
            covers=round(forecast.covers.mean),
            sd=max(1, round(forecast.covers.sd)),
        ),
        way=how_words(forecast.chosen),
        came=came,
        take_covers=_("Take over %(covers)s", covers=round(forecast.covers.mean)),
        take_mix=take_mix,
    )


def usual_dish(outlook: ServiceOutlook | None, dish: str) -> UsualDish:
    """What stands beside a dish's share of the covers."""
    if outlook is None:
        return UsualDish()
    if outlook.sold is not None:
        count = outlook.sold.get(dish)
        words = "" if count is None else _("Sold: %(n)s.", n=f"{count:,}")
        return UsualDish(portions=words)
    known = {} if outlook.forecast is None else {one.dish: one for one in outlook.forecast.dishes}
    if dish not in known:
        return UsualDish()
    one = known[dish]
    values = {"n": round(one.portions.mean), "sd": max(1, round(one.portions.sd))}
    ready = outlook.ready.get(dish)
    if ready is not None and ready.by_costs:
        words = _(
            "Usually %(n)s portions, give or take %(sd)s. Be ready for %(ready)s, by what one "
            "short and one left over cost.",
            **values,
            ready=ready.portions,
        )
    else:
        words = _("Usually %(n)s portions, give or take %(sd)s.", **values)
    return UsualDish(_per_hundred(one.per_cover) if one.per_cover else "", words)


def taken_over(
    entries: DayEntries, outlook: DayOutlook, what: str, typed: Mapping[str, str]
) -> Mapping[str, str]:
    """The form as it was typed, with what is usual in its place; nothing of it is saved.

    ``what`` is ``covers.`` or ``mix.`` with the service's id; what is not known changes nothing.
    """
    kind, _dot, service_id = what.partition(".")
    for service in entries.services:
        known = outlook.services.get(service.id)
        if service.id == service_id and known is not None and known.forecast is not None:
            taken = _covers(service, known.forecast) if kind == _COVERS else {}
            taken |= _mix(service, known.forecast) if kind == _MIX else {}
            return {**typed, **taken}
    return typed


def _covers(service: ServiceEntry, forecast: ServiceForecast) -> dict[str, str]:
    if forecast.covers is None or forecast.spread is None:
        return {}
    return {
        service.key: str(round(forecast.covers.mean)),
        service.spread_key: plain(round(forecast.spread * 100, 1)),
    }


def _mix(service: ServiceEntry, forecast: ServiceForecast) -> dict[str, str]:
    known = {one.dish: one.per_cover for one in forecast.dishes if one.per_cover}
    return {line.key: _per_hundred(known[line.dish]) for line in service.mix if line.dish in known}


def _per_hundred(per_cover: float) -> str:
    return plain(round(per_cover * PER, 1))


def _came(outlook: ServiceOutlook) -> str:
    """What was sold a week before, whatever was planned."""
    if outlook.before is None or COVERS not in outlook.before:
        return ""
    return _("%(n)s came a week before.", n=f"{outlook.before[COVERS]:,}")


def _none_words(outlook: ServiceOutlook, day: DayOutlook) -> str:
    if outlook.why_none is NoForecast.SOLD:
        covers = (outlook.sold or {}).get(COVERS)
        return "" if covers is None else _("Sold: %(n)s covers.", n=f"{covers:,}")
    if day.newest is None or outlook.why_none is NoForecast.GUARANTEED:
        return ""
    if outlook.why_none is NoForecast.TOO_SHORT:
        return ngettext(
            "%(n)s day of it is kept: too little for what is usual, which takes three weeks.",
            "%(n)s days of it are kept: too little for what is usual, which takes three weeks.",
            outlook.days,
        )
    return _("Nothing that it sold is kept.")
