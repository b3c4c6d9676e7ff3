"""Any event that may befall a planned morning, drawn at random."""

from typing import TypeVar

from hypothesis import strategies as st

from planner.kitchen.document import Kitchen
from planner.lots.types import Lot
from planner.replan.begun import work_of
from planner.replan.course import Course
from planner.replan.events import (
    CookGone,
    CookLate,
    CoversChanged,
    DeliveryLate,
    EquipmentDown,
    Event,
    Overran,
    Spoiled,
)

KINDS = ("gone", "late", "overran", "down", "covers", "delivery", "spoiled")
T = TypeVar("T")


@st.composite
def events(draw: st.DrawFn, kitchen: Kitchen, course: Course, now: int) -> tuple[Event, ...]:
    """Up to two events at ``now``; fewer where the day has nothing they could be about."""
    kinds = draw(st.lists(st.sampled_from(KINDS), max_size=2))
    return tuple(
        event
        for kind in kinds
        for event in [_event(draw, kind, kitchen, course, now)]
        if event is not None
    )


def _event(draw: st.DrawFn, kind: str, kitchen: Kitchen, course: Course, now: int) -> Event | None:
    soon = now + draw(st.integers(0, 120))
    match kind:
        case "gone" | "late" if course.workload.cooks:
            cook = draw(st.sampled_from(course.workload.cooks))
            return (
                CookGone(cook, now - draw(st.integers(0, 15)))
                if kind == "gone"
                else (CookLate(cook, soon))
            )
        case "overran" | "spoiled" if course.workload.lots:
            lot = draw(st.sampled_from(_begun(course, now) or list(course.workload.lots)))
            return Overran(lot.id, soon) if kind == "overran" else Spoiled(lot.id)
        case "down" if kitchen.equipment:
            kind_of = draw(st.sampled_from([one.id for one in kitchen.equipment]))
            until = draw(st.sampled_from((None, soon)))
            return EquipmentDown(kind_of, draw(st.integers(1, 3)), until)
        case "covers":
            service = draw(st.sampled_from(kitchen.services))
            share = draw(st.sampled_from((0.0, 0.5, 1.2, 2.0)))
            return CoversChanged(service.id, round(service.covers * share))
        case "delivery":
            item = draw(st.sampled_from([one.id for one in kitchen.ingredients]))
            return DeliveryLate(item, draw(st.sampled_from((None, soon))))
    return None


def _begun(course: Course, now: int) -> list[Lot]:
    starts = {one.task: one.start for one in course.timetable.assignments}
    return [lot for lot in course.workload.lots if starts.get(work_of(lot), now) < now]
