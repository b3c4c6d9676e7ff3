"""Take what devices send: each tick kept once, known again, or refused for a reason of its own."""

import datetime as dt
import json
from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from planner.floor.ticks import Act, Weight
from service.clock import Now
from service.db.floor import StoredTick
from service.db.unit_of_work import Database, UnitOfWork
from service.errors import Fault
from service.floor_values import (
    Outcome,
    Release,
    TickError,
    TickReceived,
    TickSent,
    TicksReceived,
    TicksSent,
)
from service.usecases.floor import release_in
from service.usecases.released import ReleasedPlan, ReleasedPlans
from web.language import _

_OLDEST = dt.timedelta(days=2)
"""Older ticks are of another day: a clock that was set wrong between."""
_SHOWN = 60


class TickRefusedError(Exception):
    """One tick cannot be kept."""

    def __init__(self, path: str, value: object, message: str, remedy: str) -> None:
        super().__init__(f"{path}: {value}: {message}. {remedy}")
        self.fault = Fault(path, str(value)[:_SHOWN], message, remedy)


def take_ticks(
    database: Database,
    plans: ReleasedPlans,
    slug: str,
    date: dt.date,
    sent: TicksSent,
    *,
    actor: str,
    now: Now,
) -> TicksReceived:
    """Keep the ticks of one request, all in one transaction.

    A device's wrong clock is set right by what it is wrong by now. A tick that came before changes
    nothing; one that is bad is refused alone, so that it does not hold up those behind it.

    Raises
    ------
    NotFoundError
        Nothing is released for that day.
    """
    came = now()
    wrong_by = came - sent.sent_at.astimezone(dt.UTC)
    received = []
    with database.writing() as unit:
        newest = release_in(unit, slug, date)
        for raw in sent.ticks:
            try:
                tick = _read(raw)
                release = _release(unit, newest, tick.release)
                plan = plans.of(release.plan_id)
                stored = _checked(unit, release, plan, tick, sent.device, wrong_by, came)
                before = unit.floor.tick(release, tick.key)
                if before is None:
                    unit.floor.add_tick(release, stored, actor=actor, now=came)
                elif not before.says_the_same(stored):
                    raise TickRefusedError(
                        "key",
                        tick.key,
                        _("another tick has this key"),
                        _("Send it with a key of its own"),
                    )
            except TickRefusedError as refused:
                received.append(_refused(raw, refused))
            else:
                outcome = Outcome.KEPT if before is None else Outcome.KNOWN
                received.append(TickReceived(key=tick.key, outcome=outcome, error=None))
        version = unit.floor.count(newest)
        unit.commit()
    return TicksReceived(received=tuple(received), release=newest.number, version=version)


def _read(raw: Mapping[str, Any]) -> TickSent:
    try:
        return TickSent.model_validate_json(json.dumps(raw))  # strictly as JSON
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        path = ".".join(map(str, first["loc"])) or "tick"
        raise TickRefusedError(
            path, first["input"], first["msg"], _("Send a tick of the form TickSent")
        ) from None


def _release(unit: UnitOfWork, newest: Release, number: int) -> Release:
    """The release a tick is of: what was said of an older one is kept with that one."""
    if number == newest.number:
        return newest
    found = unit.floor.release(newest.kitchen, newest.date, number)
    if found is None:
        raise TickRefusedError(
            "release",
            number,
            _("the day has releases 1 to %(number)s", number=newest.number),
            _("Load the page again"),
        )
    return found


def _checked(
    unit: UnitOfWork,
    release: Release,
    plan: ReleasedPlan,
    tick: TickSent,
    device: str,
    wrong_by: dt.timedelta,
    came: dt.datetime,
) -> StoredTick:
    """The tick as it is kept; raise TickRefusedError where it says nothing that can be."""
    if tick.cook not in plan.cooks:
        raise TickRefusedError(
            "cook",
            tick.cook,
            _("is not on this sheet"),
            _("Use one of: %(known)s", known=", ".join(sorted(plan.cooks))),
        )
    for task in tick.tasks:
        if task not in plan.tasks:
            raise TickRefusedError(
                "tasks", task, _("is not on this sheet"), _("Load the page again")
            )
    _check_act(unit, release, tick)
    at = min(tick.at.astimezone(dt.UTC) + wrong_by, came)  # nothing is said after it is sent
    if came - at > _OLDEST:
        raise TickRefusedError(
            "at",
            tick.at.isoformat(),
            _("it was said more than %(n)s days ago", n=_OLDEST.days),
            _("Set the device's clock and tick it again"),
        )
    return StoredTick(
        key=tick.key,
        act=tick.act,
        at=at,
        device_at=tick.at.astimezone(dt.UTC),
        device=device,
        cook=tick.cook,
        tasks=tick.tasks,
        reason=tick.reason,
        weight=_weight(tick),
        takes_back=tick.takes_back,
    )


def _check_act(unit: UnitOfWork, release: Release, tick: TickSent) -> None:
    if tick.act is Act.TAKEN_BACK:
        before = unit.floor.tick(release, tick.takes_back)
        if before is None or before.act is Act.TAKEN_BACK:
            raise TickRefusedError(
                "takes_back",
                tick.takes_back,
                _("there is no such tick to take back"),
                _("Send the tick before what takes it back"),
            )
    elif not tick.tasks:
        raise TickRefusedError(
            "tasks", "", _("it is about nothing"), _("Name the tasks it is about")
        )
    if tick.act is Act.PROBLEM and not tick.reason.strip():
        raise TickRefusedError("reason", tick.reason, _("nothing is said"), _("Say what is wrong"))
    if tick.act is Act.WEIGHED and tick.weight is None:
        raise TickRefusedError(
            "weight", "", _("nothing was weighed"), _("Send what the scale showed")
        )


def _weight(tick: TickSent) -> Weight | None:
    if tick.weight is None:
        return None
    sent = tick.weight
    if sent.tare_grams >= sent.grams:
        raise TickRefusedError(
            "weight.tare_grams",
            sent.tare_grams,
            _(
                "the empty container weighs as much as the load of %(grams)s g or more",
                grams=f"{sent.grams:g}",
            ),
            _("Weigh both again; the load includes its container"),
        )
    return Weight(sent.kind, sent.grams, sent.tare_grams, sent.item)


def _refused(raw: Mapping[str, Any], refused: TickRefusedError) -> TickReceived:
    fault = refused.fault
    key = raw.get("key")
    return TickReceived(
        key=key[:_SHOWN] if isinstance(key, str) else "",
        outcome=Outcome.REFUSED,
        error=TickError(
            path=fault.path, value=fault.value, message=fault.message, remedy=fault.remedy
        ),
    )
