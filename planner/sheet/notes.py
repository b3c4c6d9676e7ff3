"""Notes of a batch: what the route and the day ask for beyond the numbers."""

from planner.clock import clock
from planner.kitchen.foods import Holding
from planner.kitchen.route import held_after, longest_wait
from planner.kitchen.safety import COOLING, LOCAL_CODE, celsius
from planner.lots.types import Lot, Part
from planner.schedule.timetable import Assignment
from planner.sheet.batch_types import BatchOutput
from planner.sheet.cautions import cools_cooked
from planner.sheet.cold import cold_by
from planner.sheet.labels import is_last_part
from planner.sheet.runs import Run
from planner.sheet.view import PlanView
from planner.wording import degrees, sentence

MISSED = sentence("Should have been started on an earlier day.")
KEEPS_DATE = sentence("Keeps the earliest use-by of what is in it.")
FIRST_STAGE = sentence(
    "Probe it: {warm} or below within {n} h of {warm_2} (FDA Food Code 3-501.14); {local_code}.",
    warm=degrees(round(celsius(COOLING[0].to_f)), COOLING[0].to_f),
    n=COOLING[0].minutes // 60,
    warm_2=degrees(round(celsius(COOLING[0].from_f))),
    local_code=LOCAL_CODE,
)
NOBODY_TAKES_IT_OUT = sentence("Stays where it is past today's shifts; say who puts it away.")

_WHERE = {
    Holding.COLD: sentence("cold"),
    Holding.HOT: sentence("hot"),
    Holding.AMBIENT: sentence("at room temperature"),
    Holding.FROZEN: sentence("frozen"),
}


def notes(view: PlanView, run: Run, given: tuple[BatchOutput, ...]) -> tuple[str, ...]:
    """Notes for one batch, each said once."""
    lines: list[str] = []
    for lot in run.lots:
        step = view.step(lot)
        lines += [step.note] if step.note else []
        if is_last_part(run.part, lot):
            lines += _goes_on(view, lot)
            lines += _out_so_far(view, lot)
        if run.part is Part.CHECK:
            lines += _looked_at(view, lot)
        if run.part is Part.WORK:
            by = cold_by(view, lot)
            lines += [] if by is None else [by]
            lines += _taken_out(view, lot)
            lines += [MISSED] if lot.missed else []
    lines += [KEEPS_DATE for one in given if _keeps_date(view, one)]
    lines += [
        sentence(
            "Put it down over the break at {at}, go on at {at_2}.", at=clock(begin), at_2=clock(end)
        )
        for begin, end in run.pauses
    ]
    lines += _cleaned(view, run)
    return tuple(dict.fromkeys(lines))


def _cleaned(view: PlanView, run: Run) -> list[str]:
    """Surfaces and tools to be cleaned because they have been in use for so long."""
    lines = []
    for one in run.assignments:
        for hold in one.cleaned:
            since = view.by_the_clock.get(hold)
            if since is not None:
                at = one.start - one.lead.total
                lines.append(
                    sentence(
                        "Clean and sanitise at {at}: {unit}, in use since {at_2} (FDA Food Code "
                        "4-602.11); {local_code}.",
                        at=clock(at),
                        unit=_unit(view, one, hold),
                        at_2=clock(since),
                        local_code=LOCAL_CODE,
                    )
                )
    return lines


def _unit(view: PlanView, one: Assignment, hold: int) -> str:
    """The surface or tool of a hold, with its number where there are several: ``Blender 2``."""
    spec = view.problem.holds[hold]
    name, unit = view.resource_name(spec), dict(one.units).get(hold)
    several = view.problem.resources[spec.resource].capacity > 1
    return f"{name} {unit + 1}" if several and unit is not None else name


def _goes_on(view: PlanView, lot: Lot) -> list[str]:
    """How it waits for the step after this one."""
    if lot.finishes:
        note = view.catalog.components[lot.component].note
        return [note] if note else []
    step, component = view.step(lot), view.catalog.components[lot.component]
    lines = []
    most = longest_wait(view.catalog, component, lot.step)
    if most is not None:
        lines.append(sentence("The next step starts within {most} minutes.", most=most))
    elif step.min_wait_minutes:
        lines.append(
            sentence(
                "Rests at least {min_wait_minutes} minutes before the next step.",
                min_wait_minutes=step.min_wait_minutes,
            )
        )
    hold = step.hold
    if hold is None and component.tcs and most is None and _waits_long(view, lot):
        hold = held_after(component, lot.step)
    if hold is not None:
        lines.append(sentence("Hold {kept} until the next step.", kept=_WHERE[hold]))
    return lines


def _out_so_far(view: PlanView, lot: Lot) -> list[str]:
    """Told where it is longer than the kitchen's limit for a single wait."""
    rules = view.kitchen.rules
    minutes = max((view.minutes_out.get(item.task, 0) for item in lot.tasks), default=0)
    if minutes <= rules.uncontrolled_minutes:
        return []
    return [
        sentence(
            "Out of the cold so far: {minutes} min of {out_of_control_minutes}.",
            minutes=minutes,
            out_of_control_minutes=rules.out_of_control_minutes,
        )
    ]


def _waits_long(view: PlanView, lot: Lot) -> bool:
    """Whether some of it stands longer than the kitchen's limit for food out of its temperature."""
    ends = [view.assignments[item.task].end for item in lot.tasks if item.task in view.assignments]
    starts = [
        view.assignments[item.task].start
        for index in view.downstream.get(lot.index, ())
        for item in view.lots[index].tasks
        if item.part is Part.WORK and item.task in view.assignments
    ]
    if not ends or not starts:
        return True  # it goes to a shelf
    return max(starts) - max(ends) > view.kitchen.rules.uncontrolled_minutes


def _looked_at(view: PlanView, lot: Lot) -> list[str]:
    """What a look is for: the first limit of cooling food, and the operation's own words."""
    guidance = view.operation(lot).guidance
    lines = [FIRST_STAGE] if cools_cooked(view, lot) else []
    return [*lines, guidance] if guidance else lines


def _taken_out(view: PlanView, lot: Lot) -> list[str]:
    if not lot.unattended:
        return []
    within = view.operation(lot).finish_within_minutes
    if not any(task.part is Part.FINISH for task in lot.tasks):
        return [NOBODY_TAKES_IT_OUT] if view.operation(lot).finish_minutes else []
    return (
        [sentence("Take out within {within} minutes of being done.", within=within)]
        if within is not None
        else []
    )


def _keeps_date(view: PlanView, one: BatchOutput) -> bool:
    if one.label is None:
        return False
    days = view.catalog.components[one.component].shelf_life_days
    return (one.label.use_by - one.label.made).days < days - 1
