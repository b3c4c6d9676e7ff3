"""The kitchen's yields in use: usual, own, interval, tests, what was decided."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.kitchen.base import OwnShare, OwnYield
from planner.yields.decide import Proposal, TrimProposal, Way
from planner.yields.drift import Drift, DriftKind
from planner.yields.judging import Judged, Lesson, Standing
from planner.yields.keys import KitchenYield
from web.bench.form_view import yield_name
from web.bench.trim_view import TrimView, trim_view
from web.bench.words import (
    drift_words,
    hold_words,
    question_words,
    standing_words,
    trim_hold_words,
    way_words,
    weight,
)
from web.language import _, ngettext
from web.presenters.yields import beside_usual, percent, tests_counted


@dataclass(frozen=True, slots=True)
class DecisionEntry:
    """A decision as it is stored, its moment already in words."""

    number: int
    when: str
    who: str
    way: Way
    before: OwnYield | None
    after: OwnYield | None
    since_before: dt.date | None
    since_after: dt.date | None
    reason: str
    trim_before: tuple[tuple[str, OwnShare], ...] = ()
    trim_after: tuple[tuple[str, OwnShare], ...] = ()


@dataclass(frozen=True, slots=True)
class YieldEntry:
    """All that is known of one yield; ``links`` lead to the records of bench tests, by key."""

    known: KitchenYield
    lesson: Lesson
    drifts: tuple[Drift, ...]
    proposal: Proposal | None
    trim_proposal: TrimProposal | None
    own: OwnYield | None
    since: dt.date | None
    decisions: tuple[DecisionEntry, ...]
    overruled: bool
    links: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class TestView:
    """One test in words, with what can be answered."""

    key: str
    id: str
    date: str
    what: str
    fraction: str
    standing: str
    href: str
    questions: tuple[str, ...]
    may_count: bool
    may_leave: bool


@dataclass(frozen=True, slots=True)
class DecisionView:
    """One decision in words."""

    number: int
    when: str
    what: str
    reason: str
    latest: bool


@dataclass(frozen=True, slots=True)
class DriftView:
    """A change that the tests speak for; ``since`` can be counted from where it is of a time."""

    words: str
    since: str


@dataclass(frozen=True, slots=True)
class YieldView:
    """One yield on the page. Empty text: there is nothing to say."""

    key: str
    id: str
    name: str
    used_by: str
    in_use: str
    how: str
    source: str
    yours: str
    interval: str
    counted: str
    suppliers: tuple[str, ...]
    propose: str
    held: str
    own: bool
    since: str
    overruled: bool
    open: int
    drifts: tuple[DriftView, ...]
    asked: tuple[TestView, ...]
    tests: tuple[TestView, ...]
    decisions: tuple[DecisionView, ...]
    trim: TrimView | None


@dataclass(frozen=True, slots=True)
class YieldsView:
    """The page: what needs somebody, what has tests or a figure of its own, and the rest."""

    asked: tuple[YieldView, ...]
    own: tuple[YieldView, ...]
    rest: tuple[YieldView, ...]
    waiting: str


def yields_view(entries: Sequence[YieldEntry], unit: str = "g") -> YieldsView:
    """All yields in the file's order, those that need somebody first; weights in ``unit``."""
    views = [_view(entry, unit) for entry in entries]
    needs = [_needs(view) for view in views]
    waiting = sum(view.open for view in views)
    return YieldsView(
        asked=tuple(view for view, need in zip(views, needs, strict=True) if need),
        own=tuple(
            view
            for view, need in zip(views, needs, strict=True)
            if not need and (view.own or view.tests or view.decisions)
        ),
        rest=tuple(
            view
            for view, need in zip(views, needs, strict=True)
            if not (need or view.own or view.tests or view.decisions)
        ),
        waiting=ngettext(
            "%(n)s test waits for an answer.", "%(n)s tests wait for an answer.", waiting
        )
        if waiting
        else "",
    )


def _needs(view: YieldView) -> bool:
    """Whether somebody has to look: cooks who differ are told of, and nothing hangs on it."""
    changed = any(drift.since for drift in view.drifts)
    trim = view.trim is not None and view.trim.propose
    return bool(view.open or changed or view.propose or trim or view.overruled)


def _view(entry: YieldEntry, unit: str) -> YieldView:
    known, own = entry.known, entry.own
    usual = known.usual.fraction
    proposal = entry.proposal
    newest = tuple(reversed(entry.lesson.tests))
    yours = interval = ""
    if proposal is not None:
        yours = percent(proposal.own.fraction)
        interval = _interval(proposal.own)
    return YieldView(
        key=str(known.key),
        id=str(known.key).replace("/", "-"),
        name=yield_name(known),
        used_by=", ".join(known.used_by),
        in_use=percent(usual if own is None else own.fraction),
        how=_("usual %(usual)s", usual=percent(usual, 0))
        if own is None
        else beside_usual(usual, own.fraction, own.tests),
        source=known.usual.source,
        yours=yours,
        interval=interval,
        counted=tests_counted(len(entry.lesson.counting)) if entry.lesson.tests else "",
        suppliers=_suppliers(entry),
        propose=_proposed(entry),
        held=hold_words(proposal.held) if proposal is not None else "",
        own=own is not None,
        since="" if entry.since is None else entry.since.isoformat(),
        overruled=entry.overruled,
        open=entry.lesson.open,
        drifts=tuple(_drift(drift) for drift in _new(entry)),
        asked=tuple(_test(one, entry, unit) for one in newest if _waits(one)),
        tests=tuple(_test(one, entry, unit) for one in newest if not _waits(one)),
        decisions=tuple(
            _decision(one, known, latest=index == 0) for index, one in enumerate(entry.decisions)
        ),
        trim=trim_view(
            str(known.key).replace("/", "-"),
            known,
            entry.trim_proposal,
            None if proposal is None else proposal.own.fraction,
            "" if entry.trim_proposal is None else trim_hold_words(entry.trim_proposal.held),
        ),
    )


def _waits(judged: Judged) -> bool:
    return judged.standing is Standing.ASKED


def _interval(own: OwnYield) -> str:
    if own.low is None or own.high is None:
        return ""
    return _("%(low)s to %(high)s", low=percent(own.low), high=percent(own.high))


def _proposed(entry: YieldEntry) -> str:
    """The figure that can be taken, where it is another than the one in use."""
    proposal, own = entry.proposal, entry.own
    if proposal is None or proposal.held is not None:
        return ""
    return "" if own == proposal.own else percent(proposal.own.fraction)


def _suppliers(entry: YieldEntry) -> tuple[str, ...]:
    found = entry.lesson.learned.suppliers
    if not any(found) or len(found) == 1:
        return ()
    return tuple(
        _(
            "%(supplier)s: %(own)s (%(tests)s)",
            supplier=name or _("not named"),
            own=percent(one.expected),
            tests=tests_counted(one.tests),
        )
        for name, one in found.items()
    )


def _new(entry: YieldEntry) -> tuple[Drift, ...]:
    """Changes that nobody has answered by counting from a later day."""
    since = entry.since
    return tuple(
        drift
        for drift in entry.drifts
        if drift.kind is DriftKind.COOK or since is None or drift.since > since
    )


def _drift(drift: Drift) -> DriftView:
    since = drift.since.isoformat()
    words = drift_words(drift, since)
    return DriftView(words, since if drift.kind is DriftKind.TIME else "")


def _test(judged: Judged, entry: YieldEntry, unit: str) -> TestView:
    links, kinds = entry.links, dict(entry.known.kinds)
    test = judged.test
    load = test.load
    who = ", ".join(filter(None, (test.cook, test.supplier)))
    what = _(
        "%(usable)s of %(gross)s",
        usable=weight(load.grams_out, unit),
        gross=weight(load.grams_in, unit),
    )
    fields = {"gross": _("What went in"), "parts.0": _("What came out"), "usable": _("The yield")}
    fields |= {"trim": _("Trim"), **kinds}
    trim = [f"{kinds.get(item, item)} {weight(grams, unit)}" for item, grams in test.trim]
    return TestView(
        key=test.key,
        id=test.key.replace("/", "-"),
        date=test.date.isoformat(),
        what=", ".join(filter(None, (what, *trim, who))),
        fraction=percent(load.fraction),
        standing=standing_words(judged.standing),
        href=links.get(test.key, ""),
        questions=tuple(
            question_words(one, lambda place: fields.get(place, place), unit)
            for one in judged.questions
        )
        if judged.standing is Standing.ASKED
        else (),
        may_count=judged.standing in (Standing.ASKED, Standing.LEFT_OUT),
        may_leave=judged.standing in (Standing.ASKED, Standing.COUNTS),
    )


def _decision(entry: DecisionEntry, known: KitchenYield, *, latest: bool) -> DecisionView:
    usual = known.usual.fraction

    def figure(own: OwnYield | None) -> str:
        return percent(usual if own is None else own.fraction)

    if entry.since_before != entry.since_after:
        since = entry.since_after
        change = (
            _("all tests count") if since is None else _("tests since %(day)s count", day=since)
        )
    elif entry.trim_before != entry.trim_after and entry.before == entry.after:
        change = _(
            "trim, of what is taken off: %(before)s to %(after)s",
            before=_shares(known, entry.trim_before),
            after=_shares(known, entry.trim_after),
        )
    else:
        change = _(
            "%(before)s to %(after)s", before=figure(entry.before), after=figure(entry.after)
        )
    return DecisionView(
        number=entry.number,
        when=entry.when,
        what=f"{change}, {way_words(entry.way)} ({entry.who})",
        reason=entry.reason,
        latest=latest,
    )


def _shares(known: KitchenYield, own: tuple[tuple[str, OwnShare], ...]) -> str:
    """``Onion trim 62 %``, the usual shares where they are not the kitchen's own."""
    names, shares = dict(known.kinds), {one.item: one.share for one in known.trim}
    shares |= {item: one.share for item, one in own}
    return "; ".join(
        f"{names.get(item, item)} {percent(share, 0)}" for item, share in shares.items()
    )
