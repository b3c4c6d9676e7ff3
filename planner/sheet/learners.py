"""Trainees on the sheet: whose sheet is theirs too, and what must be known of those who are in."""

from collections.abc import Iterator

from planner.kitchen.pairs import learners_on
from planner.sheet.view import PlanView
from planner.wording import sentence


def beside(view: PlanView, cook: str) -> str:
    """Name of the trainee who works beside a cook, by id; empty: nobody."""
    for one in learners_on(view.kitchen, view.plan.date):
        if one.mentor is not None and one.mentor.id == cook:
            return one.trainee.name
    return ""


def learner_alerts(view: PlanView) -> Iterator[str]:
    """Trainees of whom the plan could make no more use."""
    for one in learners_on(view.kitchen, view.plan.date):
        name = one.trainee.name
        if one.mentor is None:
            mentor = view.catalog.cooks[one.trainee.learns_from or ""].name
            yield sentence(
                "{name} is in, but {mentor}, from whom they learn, is not: nothing is planned.",
                name=name,
                mentor=mentor,
            )
        elif not one.whole_shift:
            yield (
                sentence(
                    "{name} works beside {mentor}, but not for all of that shift: the pace is that "
                    "of {mentor} alone.",
                    name=name,
                    mentor=one.mentor.name,
                )
            )
