"""Decide on the yields in use: by the tests, by hand, back to the usual, put back, by rule.

Each decision stores the kitchen file with it as its next version, and itself with what stood
before, in one transaction.
"""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, replace
from zoneinfo import ZoneInfo

from planner.entry.edit import EnteredFile
from planner.kitchen.errors import KitchenErrors
from planner.yields.decide import TrimProposal, Way, by_hand, outlived
from planner.yields.edit import with_own_trim, with_own_yield, with_pulling
from planner.yields.keys import YieldKey
from service.clock import Now
from service.db.unit_of_work import Database, UnitOfWork
from service.errors import ConflictError, Fault, InvalidError, NotFoundError
from service.usecases.yield_lessons import YieldLine, YieldsNow, newest_version, yields_in
from service.yield_values import YieldState
from web.language import _

RULE = "rule"
"""Who decides where the kitchen's rule does."""
_LEAST, _MOST = 0.01, 10.0


@dataclass(frozen=True, slots=True)
class Wish:
    """What somebody wants: of which yield, on seeing which version of the file, and why."""

    of: str
    reason: str = ""


def take_tests(database: Database, slug: str, wish: Wish, *, actor: str, now: Now) -> int:
    """Take what the tests say; number of the decision.

    Raises
    ------
    NotFoundError
        There is no such kitchen or yield.
    ConflictError
        No test counts.
    """

    def change(line: YieldLine, today: dt.date) -> YieldState:
        del today
        if line.proposal is None:
            raise ConflictError(
                Fault(
                    "yield", wish.of, _("no test of it counts"), _("Weigh one on the yield bench")
                )
            )
        return replace(line.state, own=line.proposal.own)

    return _decided(database, slug, wish, Way.TESTS, change, actor=actor, now=now)


def take_trim(database: Database, slug: str, wish: Wish, *, actor: str, now: Now) -> int:
    """Take the shares of the trim that the tests say; number of the decision.

    Raises
    ------
    NotFoundError
        There is no such kitchen or yield.
    ConflictError
        No test that counts tells of its trim.
    """

    def change(line: YieldLine, today: dt.date) -> YieldState:
        del today
        if line.trim_proposal is None:
            raise ConflictError(
                Fault(
                    "yield",
                    wish.of,
                    "no test that counts says what its trim was kept as",
                    "Weigh the kinds of trim on the yield bench",
                )
            )
        return _with_trim(line.state, line.trim_proposal)

    return _decided(database, slug, wish, Way.TESTS, change, actor=actor, now=now)


def use_usual_trim(database: Database, slug: str, wish: Wish, *, actor: str, now: Now) -> int:
    """Go back to the usual shares of the trim; number of the decision."""

    def change(line: YieldLine, today: dt.date) -> YieldState:
        del today
        return replace(line.state, trim=())

    return _decided(database, slug, wish, Way.USUAL, change, actor=actor, now=now)


def enter_by_hand(
    database: Database, slug: str, wish: Wish, fraction: float, *, actor: str, now: Now
) -> int:
    """Use a figure that somebody enters; number of the decision.

    Raises
    ------
    NotFoundError
        There is no such kitchen or yield.
    InvalidError
        It is no yield.
    """

    def change(line: YieldLine, today: dt.date) -> YieldState:
        if not _LEAST <= fraction <= _MOST:
            raise InvalidError(
                Fault(
                    "percent",
                    f"{fraction * 100:g}",
                    _("no food has such a yield"),
                    _("Enter mass out of mass in, in percent: 84"),
                )
            )
        return replace(line.state, own=by_hand(fraction, today))

    return _decided(database, slug, wish, Way.HAND, change, actor=actor, now=now)


def use_usual(database: Database, slug: str, wish: Wish, *, actor: str, now: Now) -> int:
    """Go back to the usual figure of the file; number of the decision."""

    def change(line: YieldLine, today: dt.date) -> YieldState:
        del today
        return replace(line.state, own=None)

    return _decided(database, slug, wish, Way.USUAL, change, actor=actor, now=now)


def count_since(
    database: Database, slug: str, wish: Wish, since: dt.date | None, *, actor: str, now: Now
) -> int:
    """Count tests from a day on (None: all of them); number of the decision."""

    def change(line: YieldLine, today: dt.date) -> YieldState:
        if since is not None and since > today:
            raise InvalidError(
                Fault(
                    "since",
                    since.isoformat(),
                    _("that day is not here yet"),
                    _("Choose a day past"),
                )
            )
        return replace(line.state, since=since)

    return _decided(database, slug, wish, Way.SINCE, change, actor=actor, now=now)


def put_back(
    database: Database, slug: str, number: int, reason: str, *, actor: str, now: Now
) -> int:
    """Bring again what stood before a decision; number of the new one.

    Raises
    ------
    NotFoundError
        There is no such kitchen or decision.
    """
    with database.writing() as unit:
        here = yields_in(unit, slug, now=now)
        stored = newest_version(unit, slug)
        for decision in unit.yields.decisions(stored.kitchen_id):
            if decision.number == number:
                made = _store(
                    unit,
                    here,
                    Wish(decision.of, reason),
                    Way.BACK,
                    decision.before,
                    puts_back=number,
                    actor=actor,
                    now=now,
                )
                unit.commit()
                return made
    raise NotFoundError(
        Fault("decision", str(number), _("there is no such decision"), _("Choose one on the page"))
    )


def set_pulling(
    database: Database, slug: str, level: float, *, by_rule: bool, actor: str, now: Now
) -> None:
    """Set the level of caution and whether tests decide by rule, as the file's next version.

    Raises
    ------
    NotFoundError
        There is no such kitchen.
    InvalidError
        It is no such level.
    """
    with database.writing() as unit:
        stored = newest_version(unit, slug)
        try:
            made = with_pulling(stored.document, level, by_rule=by_rule)
        except KitchenErrors as errors:
            first = errors.errors[0]
            raise InvalidError(
                Fault(first.path, first.value, first.message, first.remedy)
            ) from None
        if made.changed:
            name = yields_in(unit, slug, now=now).kitchen.name
            unit.kitchens.add(slug=slug, name=name, document=made.data, actor=actor, now=now())
        decide_by_rule(unit, slug, now=now)
        unit.commit()


def decide_by_rule(unit: UnitOfWork, slug: str, *, now: Now) -> tuple[int, ...]:
    """Take every yield that the kitchen's rule may take, where the file says that it learns.

    Numbers of the decisions. Whoever calls commits.
    """
    here = yields_in(unit, slug, now=now)
    if not here.kitchen.rules.learns_yields:
        return ()
    made = _without_their_tests(unit, here, now=now)
    here = yields_in(unit, slug, now=now) if made else here
    for line in here.lines:
        if _was_put_back(line, here):
            continue
        state = line.state
        if line.proposal is not None and line.proposal.held is None:
            state = replace(state, own=line.proposal.own)
        if line.trim_proposal is not None and line.trim_proposal.held is None:
            state = _with_trim(state, line.trim_proposal)
        if state == line.state:
            continue
        wish = Wish(str(line.known.key))
        here = yields_in(unit, slug, now=now)
        made.append(_store(unit, here, wish, Way.RULE, state, actor=RULE, now=now))
    return tuple(made)


def _with_trim(state: YieldState, proposal: TrimProposal) -> YieldState:
    return replace(state, trim=tuple(sorted({**dict(state.trim), **proposal.own}.items())))


def _without_their_tests(unit: UnitOfWork, here: YieldsNow, *, now: Now) -> list[int]:
    """Correct what the rule itself took into use, where tests of it count no more."""
    made = []
    for line in here.lines:
        if not line.decisions or line.decisions[0].way is not Way.RULE or line.overruled:
            continue
        if outlived(line.known.usual, line.lesson, line.proposal):
            before = next((one for one in line.decisions if one.way is not Way.RULE), None)
            first = line.decisions[-1].before if before is None else before.after
            own = first.own if line.proposal is None else line.proposal.own
            state = replace(line.state, own=own)
            wish = Wish(str(line.known.key))
            current = yields_in(unit, here.slug, now=now)
            made.append(_store(unit, current, wish, Way.RULE, state, actor=RULE, now=now))
    return made


def _was_put_back(line: YieldLine, here: YieldsNow) -> bool:
    """Whether somebody has decided last: the rule does not take up again what people put down.

    It may once tests are newer than that, by the calendar on the kitchen's wall.
    """
    if not line.decisions or line.decisions[0].way is Way.RULE:
        return False
    zone = ZoneInfo(here.kitchen.time_zone)
    last = line.decisions[0].created_at.astimezone(zone).date()
    return not any(test.date > last for test in line.lesson.counting)


def _decided(
    database: Database,
    slug: str,
    wish: Wish,
    way: Way,
    change: Callable[[YieldLine, dt.date], YieldState],
    *,
    actor: str,
    now: Now,
) -> int:
    with database.writing() as unit:
        here = yields_in(unit, slug, now=now)
        state = change(here.of(wish.of), here.today)
        made = _store(unit, here, wish, way, state, actor=actor, now=now)
        unit.commit()
    return made


def _store(
    unit: UnitOfWork,
    here: YieldsNow,
    wish: Wish,
    way: Way,
    state: YieldState,
    *,
    puts_back: int | None = None,
    actor: str,
    now: Now,
) -> int:
    line = here.of(wish.of)
    stored = newest_version(unit, here.slug)
    if state == line.state and line.decisions:
        return line.decisions[0].number  # Sent twice: it is so already.
    version = stored.number
    try:
        key = YieldKey.parse(wish.of)
        first = with_own_yield(stored.document, key, state.own)
        second = with_own_trim(first.data, key, dict(state.trim))
        made = EnteredFile(second.data, first.changed or second.changed)
    except KitchenErrors as errors:
        bad = errors.errors[0]
        raise InvalidError(Fault(bad.path, bad.value, bad.message, bad.remedy)) from None
    if made.changed:
        summary, _ = unit.kitchens.add(
            slug=here.slug, name=here.kitchen.name, document=made.data, actor=actor, now=now()
        )
        version = summary.version
    return unit.yields.add_decision(
        stored.kitchen_id,
        wish.of,
        way,
        line.state,
        state,
        version,
        reason=wish.reason,
        puts_back=puts_back,
        actor=actor,
        now=now(),
    )
