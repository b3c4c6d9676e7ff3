"""Batches moved or held by hand: asked for, stored as a run, and kept for the day's next plans."""

import datetime as dt
import json
import uuid
from collections.abc import Sequence
from dataclasses import dataclass

from planner.kitchen.document import Kitchen
from planner.pins.types import Pin, PinError, changed_pins, pins_of_batch
from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import KitchenSheet
from service.clock import Now
from service.db.unit_of_work import Database, UnitOfWork
from service.documents import kept_kitchen, kept_sheet
from service.errors import ConflictError, Fault, NotFoundError, WishError
from service.floor_values import Release
from service.nearby import NearOrder, StoredDay
from service.replanning import RestOrder, pin_texts, wrong_wish
from service.usecases.floor import tick_of
from service.usecases.plans import plan_state, plan_status, plan_texts
from service.usecases.released import released_plan
from service.values import PlanChoices, PlanState, PlanStatus, PlanTexts
from web.language import _

_DAY = 24 * 60


@dataclass(frozen=True, slots=True)
class Wish:
    """What is wished for one batch, by its number on the sheet.

    ``cook`` is an id and ``begin`` minutes after midnight; None: left to the plan. ``free``: it is
    not held any more, whatever else is said.
    """

    batch: int
    cook: str | None = None
    begin: int | None = None
    exactly: bool = False
    free: bool = False


@dataclass(frozen=True, slots=True)
class Moved:
    """A plan in which batches were moved, beside the plan they were moved in.

    ``told`` is what people must be told of it.
    """

    plan: PlanStatus
    sheet: KitchenSheet
    before: PlanStatus
    before_sheet: KitchenSheet
    told: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Movable:
    """A plan whose batches may be moved, with the kitchen it is of."""

    plan: PlanStatus
    sheet: KitchenSheet
    kitchen: Kitchen


def movable(database: Database, plan_id: uuid.UUID) -> Movable:
    """A plan that is done, for its batches to be moved.

    Raises
    ------
    NotFoundError
        There is no such plan.
    ConflictError
        It is not done, or the floor works from a later one than it goes on from.
    """
    status = plan_status(database, plan_id)
    if status.state is not PlanState.DONE:
        raise ConflictError(
            Fault(
                "plan",
                str(plan_id),
                _("it is %(state)s: its batches cannot be moved", state=plan_state(status.state)),
                _("Wait until it is done, or stop its search")
                if status.state is not PlanState.FAILED
                else _("Mend what its error names and plan the day anew"),
            )
        )
    texts = plan_texts(database, plan_id)
    with database.reading() as unit:
        _goes_on_from(unit, status)
        version, _date, _choices = unit.plans.inputs(plan_id)
        kitchen = kept_kitchen(unit.kitchens.version(version).document)
    return Movable(status, kept_sheet(texts.sheet), kitchen)


def request_move(
    database: Database,
    plan_id: uuid.UUID,
    wishes: Sequence[Wish],
    choices: PlanChoices,
    *,
    actor: str,
    now: Now,
) -> PlanStatus:
    """Store a run that solves a plan anew around what is held by hand in it.

    Raises
    ------
    NotFoundError
        There is no such plan.
    ConflictError
        It is not done, or is out of date.
    WishError
        A batch cannot be held so; says why and what can be.
    """
    base = movable(database, plan_id)
    texts = plan_texts(database, plan_id)
    pins = _pins(base.sheet, pins_in(texts.document), wishes)
    order = RestOrder(texts.document, texts.course, (), (), 0, pins)
    try:
        wrong = wrong_wish(base.kitchen, order)
    except ValueError as error:
        raise ConflictError(
            Fault(
                "plan",
                str(plan_id),
                _("it cannot be read again: %(error)s", error=error),
                _("Plan the day anew"),
            )
        ) from None
    if wrong is not None:
        raise WishError(_fault(wrong))
    with database.writing() as unit:
        release = _goes_on_from(unit, base.plan)
        if release is not None:
            plan = released_plan(unit, release.plan_id)
            if plan.minutes(now()) >= max(plan.sheet.end, _DAY):
                raise ConflictError(
                    Fault("date", str(plan.sheet.date), _("the day is over"), _("Plan another day"))
                )
        version_id, date, _choices = unit.plans.inputs(plan_id)
        run = unit.runs.add(
            unit.kitchens.version(version_id),
            date,
            choices,
            actor=actor,
            now=now(),
            after_release=None if release is None else release.number,
            news=None if release is None else [],
            moved_from=plan_id,
            pins=pin_texts().dump_python(pins, mode="json"),
        )
        unit.commit()
    return plan_status(database, run)


def moved_plan(database: Database, plan_id: uuid.UUID) -> Moved:
    """What moving batches has changed.

    Raises
    ------
    NotFoundError
        There is no such plan, or none of its batches was moved.
    NotReadyError, NothingMadeError
        It has made nothing yet, or has failed.
    """
    status = plan_status(database, plan_id)
    if status.moved_from is None:
        raise NotFoundError(
            Fault(
                "plan", str(plan_id), _("no batch was moved in it"), _("Open its page of batches")
            )
        )
    texts = plan_texts(database, plan_id)
    before = plan_texts(database, status.moved_from)
    return Moved(
        status,
        kept_sheet(texts.sheet),
        plan_status(database, status.moved_from),
        kept_sheet(before.sheet),
        texts.told,
    )


def pins_in(document: str) -> tuple[Pin, ...]:
    """What is held by hand in a plan file; nothing in one of before there was such a thing."""
    stated = json.loads(document).get("pins", ())
    return tuple(
        Pin(
            one["lot"],
            one["cook"],
            None if one["begin"] is None else one["begin"]["minutes"],
            one["exactly"],
            one["follows"],
        )
        for one in stated
    )


def move_order(unit: UnitOfWork, plan_id: uuid.UUID, now: dt.datetime) -> RestOrder | None:
    """What a run that moves batches starts from; None: it moves none."""
    known = unit.plans.moves(plan_id)
    if known is None:
        return None
    base, pins = known
    texts = unit.plans.texts(base)
    if texts is None:
        raise LookupError(f"plan {plan_id} moves batches of {base}, which has made nothing")
    order = RestOrder(texts.document, texts.course, (), (), 0, pin_texts().validate_python(pins))
    goes_on = unit.plans.news(plan_id)
    if goes_on is None:
        return order
    slug, (_version, date, _choices) = unit.plans.kitchen_of(plan_id), unit.plans.inputs(plan_id)
    release = unit.floor.release(slug, date, goes_on[0])
    if release is None:
        raise LookupError(f"plan {plan_id} goes on from release {goes_on[0]}, which is not there")
    plan = released_plan(unit, release.plan_id)
    return RestOrder(
        order.document,
        order.course,
        tuple(tick_of(plan, tick) for tick in unit.floor.ticks(release)),
        (),
        max(0, int(plan.minutes(now))),
        order.pins,
    )


def near_order(unit: UnitOfWork, plan_id: uuid.UUID) -> NearOrder | None:
    """What a day planned from its start is planned beside; None: there is nothing.

    That is the plan the floor works from, and the pins of the day's newest plan before.
    """
    slug, (_version, date, _choices) = unit.plans.kitchen_of(plan_id), unit.plans.inputs(plan_id)
    release = unit.floor.release(slug, date)
    released = None if release is None else _stored(unit, release.plan_id)
    held = None
    for plan in unit.plans.of_day(slug, date):
        texts = unit.plans.texts(plan.id)
        if plan.id != plan_id and plan.state is PlanState.DONE and texts is not None:
            if pins_in(texts.document):
                held = _stored(unit, plan.id, texts)
            break
    return None if released is None and held is None else NearOrder(released, held)


def _stored(
    unit: UnitOfWork, plan_id: uuid.UUID, texts: PlanTexts | None = None
) -> StoredDay | None:
    texts = texts or unit.plans.texts(plan_id)
    if texts is None:
        return None
    version, _date, _choices = unit.plans.inputs(plan_id)
    return StoredDay(unit.kitchens.version(version).document, texts.document, texts.course)


def _goes_on_from(unit: UnitOfWork, status: PlanStatus) -> Release | None:
    """The release whose floor a plan's batches are moved on; None: nothing of it has begun."""
    newest = unit.floor.release(status.kitchen, status.date)
    if newest is None:
        return None
    if status.id == newest.plan_id or status.after_release == newest.number:
        return newest
    if status.after_release is not None or unit.floor.count(newest):
        raise ConflictError(
            Fault(
                "plan",
                str(status.id),
                _(
                    "cooks work from release %(number)s by now, which this plan knows nothing of",
                    number=newest.number,
                ),
                _("Move batches in the plan of release %(number)s instead", number=newest.number),
            )
        )
    return None


def _pins(sheet: KitchenSheet, before: tuple[Pin, ...], wishes: Sequence[Wish]) -> tuple[Pin, ...]:
    if not wishes:
        raise WishError(
            Fault(
                "batches", "", _("nothing is wished for"), _("Name a batch, and a cook or a time")
            )
        )
    batches = {batch.number: batch for cook in sheet.cooks for batch in cook.batches}
    pins = before
    for wish in wishes:
        lots = _lots(batches, wish)
        if wish.free:
            pins = changed_pins(pins, (), lots)
            continue
        if wish.cook is None and wish.begin is None:
            raise WishError(
                Fault(
                    "cook",
                    "",
                    _("of batch %(batch)s neither a cook nor a time is said", batch=wish.batch),
                    _("Name one of them, or both"),
                )
            )
        held = pins_of_batch(lots, wish.cook, wish.begin, exactly=wish.exactly)
        pins = changed_pins(pins, held, ())
    return pins


def _lots(batches: dict[int, SheetBatch], wish: Wish) -> list[str]:
    batch = batches.get(wish.batch)
    if batch is None:
        most = max(batches, default=0)
        raise WishError(
            Fault(
                "batch",
                str(wish.batch),
                _("the plan has no such batch"),
                _("Name one from 1 to %(most)s", most=most) if most else _("The plan has none"),
            )
        )
    lots = [task.lot for task in batch.tasks if task.part == "work"]
    if not lots:
        raise WishError(
            Fault(
                "batch",
                str(wish.batch),
                _("this only looks at food or takes it out"),
                _("Move the batch in which its work is done"),
            )
        )
    return lots


def _fault(error: PinError) -> Fault:
    return Fault(error.field, error.value, error.message, error.remedy)
