"""One component's day: what of its wants is made today, from which step to which."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from planner.kitchen.day import PreparedStock
from planner.kitchen.flow import Flow
from planner.kitchen.foods import Component
from planner.kitchen.hours import DAY
from planner.quantities.credits import TrimPool
from planner.quantities.draws import draws_of, draws_on_later_days, passed_on, with_draws
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.netting import Piece, Shelf
from planner.quantities.timing import StepTiming, timings
from planner.quantities.types import (
    ComponentNeed,
    Credit,
    InputNeed,
    Making,
    Reason,
    StepNeed,
    Want,
)
from planner.wording import sentence

_GRACE = 60
"""Minutes after the last shift's end until which work for a later day may still be started."""


@dataclass(frozen=True, slots=True)
class ComponentDay:
    """A component's need, what it passes on to its inputs, and stock past its use-by."""

    need: ComponentNeed
    input_wants: tuple[tuple[str, Want], ...]
    expired: tuple[PreparedStock, ...]
    later: tuple[tuple[int, Want], ...]
    """(day the work starts, want) of what does not start today."""


def component_day(
    kit: Kitchenry, component: Component, wants: Sequence[Want], pool: TrimPool
) -> ComponentDay:
    """Work out what of ``component`` is made, or started, on the planned day."""
    flow = kit.flows.of(component)
    prepared = [s for s in kit.catalog.kitchen.prepared if s.item == component.id]
    shelf = Shelf(prepared, flow, kit.converter, kit.date)
    pieces = [piece for want in sorted(wants, key=lambda w: w.due) for piece in shelf.serve(want)]
    notes: list[str] = []
    pieces += _par_pieces(kit, component, pieces, shelf, notes)
    makings, later = _split(kit, component, pieces)
    makings, later = _for_days(kit, component, makings, later, notes)
    makings += _rounded_up(kit, component, makings, notes)
    makings = [with_draws(kit, component, making, pool) for making in makings]
    need = ComponentNeed(
        component=component.id,
        name=component.name,
        wants=tuple(wants),
        stock=shelf.used,
        to_make=sum(making.grams for making in makings),
        makings=tuple(makings),
        steps=_steps(component, flow, makings),
        inputs=_inputs(component, makings),
        notes=tuple(notes),
    )
    passed = [
        (draw.item, passed_on(component, making.want, making.grams, draw))
        for making in makings
        for draw in (*making.draws, *draws_on_later_days(kit, component, making))
        if draw.grams > 1e-6
    ]
    starts = []
    for piece in later:
        timing = _timing(kit, component, piece)
        starts.append((timing[piece.first_step].start // DAY, piece.want))
        passed += [
            (draw.item, passed_on(component, piece.want, piece.grams, draw))
            for draw in draws_of(kit, component, piece.grams, [step.start for step in timing])
            if draw.step >= piece.first_step
        ]
    return ComponentDay(need, tuple(passed), shelf.expired, tuple(starts))


def _timing(kit: Kitchenry, component: Component, piece: Piece) -> tuple[StepTiming, ...]:
    return timings(kit.calendar, kit.flows, kit.efforts, component, piece.grams, piece.want.due)


def _own_want(kit: Kitchenry, component: Component, reason: Reason, grams: float, due: int) -> Want:
    """A want of the kitchen itself: a par, or a batch rounded up."""
    return Want(
        reason=reason,
        consumer=component.id,
        consumer_name=f"{component.name}, {reason.value}",
        grams=grams,
        expected=grams,
        buffer=0.0,
        due=due,
        until=max(due, kit.calendar.closes(0) + _GRACE),
        doors=due,
        day=0,
    )


def _par_pieces(
    kit: Kitchenry,
    component: Component,
    pieces: Sequence[Piece],
    shelf: Shelf,
    notes: list[str],
) -> list[Piece]:
    """What brings the component up to par beyond what is there on the day anyway.

    That is stock, and what is made, for the day itself or a later one; what is eaten on the day was
    there on it too.
    From raw food it is due by the end of the first day on which it can be ready if it is begun
    today: what brines over night is up to par tomorrow, when today's portions are eaten. What is
    part-made is finished today.
    """
    if component.par is None:
        return []
    par = kit.converter.grams(component.id, component.par)
    ready, raw_want = _ready_in_time(kit, component, par)
    found: list[Piece] = []
    for day in sorted({0, ready}):
        there = shelf.finished(day) + _made_by(kit, component, pieces, day)
        there += 0.0 if day else kit.eaten.get(component.id, 0.0)
        extra = par - there - sum(piece.grams for piece in found)
        if extra <= 1e-6:
            continue
        want = _own_want(kit, component, Reason.PAR, extra, kit.calendar.closes(0))
        if day == ready:
            want = replace(raw_want, grams=extra, expected=extra)
        served = shelf.serve(want, finished=False)
        found += [piece for piece in served if day == ready or piece.first_step]
    if found:
        notes.append(sentence("brought up to its par of {par}", par=component.par))
    return found


def _made_by(kit: Kitchenry, component: Component, pieces: Sequence[Piece], day: int) -> float:
    """Grams made for ``day``, or for a later one and finished on it or before."""
    return sum(
        piece.grams
        for piece in pieces
        if piece.want.day == day
        or (piece.want.day > day and _timing(kit, component, piece)[-1].day <= day)
    )


def _ready_in_time(kit: Kitchenry, component: Component, grams: float) -> tuple[int, Want]:
    """First day with anybody in that the route can meet from today on, and a want due at its close.

    The planned day where there is none.
    """
    for day in range(kit.catalog.kitchen.rules.lookahead_days + 2):
        if kit.calendar.hours.get(day) is None:
            continue
        due = kit.calendar.closes(day)
        want = replace(_own_want(kit, component, Reason.PAR, grams, due), until=due + _GRACE)
        if _timing(kit, component, Piece(want, grams))[0].day >= 0:
            return day, want
    return 0, _own_want(kit, component, Reason.PAR, grams, kit.calendar.closes(0))


def _split(
    kit: Kitchenry, component: Component, pieces: Sequence[Piece]
) -> tuple[list[Making], list[Piece]]:
    """What is worked on today, and what is not touched before a later day."""
    makings: list[Making] = []
    later: list[Piece] = []
    for piece in pieces:
        timing = _timing(kit, component, piece)
        last = piece.first_step
        while last < len(timing) and timing[last].day <= 0:
            last += 1
        if last == piece.first_step:
            later.append(piece)
        else:
            makings.append(_making(kit, piece, timing, last))
    return makings, later


def _making(kit: Kitchenry, piece: Piece, timing: tuple[StepTiming, ...], last: int) -> Making:
    finishes = last == len(timing)
    due = timing[last - 1].end
    if finishes:
        due = piece.want.due if due < 0 else due  # a day that has gone by is no day to be late for
        until = piece.want.until
    else:  # only its start today matters: as long as somebody is in
        until = due + max(0, kit.calendar.closes(0) + _GRACE - timing[last - 1].start)
    return Making(
        want=piece.want,
        grams=piece.grams,
        first_step=piece.first_step,
        last_step=last,
        due=due,
        until=max(due, until),
        finishes=finishes,
        missed=timing[piece.first_step].day < 0,
        starts=tuple(step.start for step in timing),
    )


def _for_days(
    kit: Kitchenry,
    component: Component,
    makings: list[Making],
    later: list[Piece],
    notes: list[str],
) -> tuple[list[Making], list[Piece]]:
    """Pull later days' wants into today's batch as far as the kitchen and shelf life allow."""
    days = min(component.make_for_days, component.shelf_life_days)
    somebody = kit.calendar.hours.get(0) is not None
    if days <= 1 or not somebody or not any(m.first_step == 0 and m.finishes for m in makings):
        return makings, later
    due = kit.calendar.closes(0)
    kept: list[Piece] = []
    pulled: list[Making] = []
    for piece in later:
        if piece.first_step or piece.want.day >= days:
            kept.append(piece)
            continue
        want = replace(
            piece.want, reason=Reason.DAYS, due=min(due, piece.want.due), until=due + _GRACE
        )
        again = Piece(want, piece.grams)
        timing = _timing(kit, component, again)
        if timing[0].day == timing[-1].day == 0:
            pulled.append(_making(kit, again, timing, len(timing)))
        else:  # today has no room for the whole route
            kept.append(piece)
    if pulled:
        notes.append(sentence("made for {days} days at once", days=days))
    return makings + pulled, kept


def _rounded_up(
    kit: Kitchenry, component: Component, makings: Sequence[Making], notes: list[str]
) -> list[Making]:
    """Round what is started today up to the batch minimum and multiple."""
    started = [making for making in makings if making.first_step == 0]
    total = sum(making.grams for making in started)
    if not started:
        return []
    target = total
    if component.batch_minimum is not None:
        target = max(target, kit.converter.grams(component.id, component.batch_minimum))
    if component.batch_multiple is not None:
        multiple = kit.converter.grams(component.id, component.batch_multiple)
        if multiple > 0:
            target = math.ceil(target / multiple - 1e-9) * multiple
    if target - total <= 1e-6:
        return []
    rule = " ".join(
        (
            *(
                [sentence("to at least {amount}", amount=least)]
                if (least := component.batch_minimum)
                else []
            ),
            *(
                [sentence("in multiples of {amount}", amount=step)]
                if (step := component.batch_multiple)
                else []
            ),
        )
    )
    notes.append(sentence("rounded up by {n:.0f} g {rule}", n=target - total, rule=rule))
    model = max(started, key=lambda making: making.due)
    grams = target - total
    want = _own_want(kit, component, Reason.BATCH, grams, model.want.due)
    want = replace(want, until=model.want.until, day=model.want.day, doors=model.want.doors)
    return [replace(model, want=want, grams=grams)]


def _steps(component: Component, flow: Flow, makings: Sequence[Making]) -> tuple[StepNeed, ...]:
    found: list[StepNeed] = []
    for index, (step, through) in enumerate(zip(component.route, flow, strict=True)):
        grams = sum(m.grams for m in makings if m.first_step <= index < m.last_step)
        if grams <= 0:
            continue
        entered = sum(m.grams for m in makings if m.first_step == index + 1)
        found.append(
            StepNeed(
                index=index,
                operation=step.operation,
                grams_in=grams * through.grams_in,
                grams_out=grams * through.grams_out,
                fraction=through.fraction,
                source=through.source,
                from_stock=entered * through.grams_out,
            )
        )
    return tuple(found)


def _inputs(component: Component, makings: Sequence[Making]) -> tuple[InputNeed, ...]:
    found: list[InputNeed] = []
    for taken in component.inputs:
        step = taken.after_step
        grams = sum(
            draw.grams
            for making in makings
            for draw in making.draws
            if (draw.item, draw.step) == (taken.item, step)
        )
        given: dict[tuple[str, str, int], float] = {}
        for making in makings:
            for credit in making.credits:
                if credit.by_product in taken.may_use and credit.into_step == step:
                    key = (credit.by_product, credit.from_component, credit.from_step)
                    given[key] = given.get(key, 0.0) + credit.grams
        if grams > 0 or given:
            credited = tuple(Credit(*key, amount, step) for key, amount in given.items())
            found.append(InputNeed(taken.item, grams, credited, step))
    return tuple(found)
