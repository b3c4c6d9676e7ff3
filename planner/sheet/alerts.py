"""What the sous chef must know before the morning starts, in whole sentences."""

import datetime as dt
import re
from collections.abc import Iterator

from planner.cause_lines import grams_text
from planner.demand.types import DishDemand
from planner.lots.types import Lot
from planner.quantities.types import Alert
from planner.sheet.dishes import dish_name, dish_names, short_date
from planner.sheet.view import PlanView

_GRAMS = re.compile(r"\b(\d{4,}) g\b")
_DATE = re.compile(r"\b\d{4}-\d{2}-\d{2}\b")


def alerts(view: PlanView) -> tuple[str, ...]:
    """Every alert, with the components it holds up and the dishes they are for."""
    return tuple(_alert(view, alert) for alert in view.plan.quantities.alerts)


def sentence(text: str) -> str:
    """``text`` with a capital and a full stop, kilos from 1000 g on, and dates as on labels."""
    text = _GRAMS.sub(lambda found: grams_text(float(found[1])), text)
    text = _DATE.sub(lambda found: short_date(dt.date.fromisoformat(found[0])), text)
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "!", "?")) else f"{text}."


def _alert(view: PlanView, alert: Alert) -> str:
    text = sentence(alert.text)
    if not alert.holds_up:
        return text
    direct = _direct(view, alert)
    # Wants of dishes are told as dishes, with their day; what is left are components.
    wants = {f"{one.dish_name}, {one.service_name}" for one in view.plan.demands} | {
        one.dish_name for one in direct
    }
    known = {component.name for component in view.catalog.components.values()}
    components = [name for name in alert.holds_up if name in known or name not in wants]
    served = (dish_name(view, one.service, one.dish) for one in direct)
    dishes = tuple(dict.fromkeys((*dish_names(view, _held_up(view, alert)), *served)))
    held = [
        f"Holds up: {'; '.join(components)}." if components else "",
        f"For: {'; '.join(dishes)}." if dishes else "",
    ]
    return " ".join(filter(None, [text, *held]))


def _direct(view: PlanView, alert: Alert) -> list[DishDemand]:
    """Today's dishes that take it as it is, with nothing prepared in between."""
    return [
        one
        for one in view.plan.demands
        if one.date == view.plan.date
        and one.dish in view.catalog.dishes
        and alert.item in {part.item for part in view.catalog.dishes[one.dish].components}
        and alert.item in view.catalog.ingredients
    ]


def _held_up(view: PlanView, alert: Alert) -> Iterator[Lot]:
    """Lots that wait for what the alert is about, or are not made for want of it."""
    for lot in view.lots:
        if alert.kind == "missed start":
            if lot.missed and {share.component for share in lot.shares} == {alert.item}:
                yield lot
        elif any(item == alert.item for item, _grams in lot.pulls):
            late = lot.release > view.problem.start
            if view.problem.jobs[lot.index].impossible or late:
                yield lot
