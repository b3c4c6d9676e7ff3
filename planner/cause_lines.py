"""Single causes of a quantity, in words: stock, later days, whole units, supplies."""

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import replace

from planner.clock import clock
from planner.quantities.types import (
    ComponentNeed,
    PullLine,
    Reason,
    StockUse,
    Trace,
    Want,
)
from planner.wording import grams_text, pulled_text, sentence, short_date

LEAST_GRAMS = 0.5
"""A smaller difference is a float's last digits."""
_GRAM = "g"


def added_up(wants: Iterable[Want]) -> list[Want]:
    """One want per component and day: what it takes for several makings explains itself once."""
    found: dict[tuple[object, ...], Want] = {}
    for want in wants:
        key: tuple[object, ...] = (want.consumer, want.day)
        if want.reason is not Reason.COMPONENT:
            key = (*key, len(found))
        known = found.get(key)
        found[key] = replace(want, grams=want.grams + known.grams) if known else want
    return list(found.values())


def day_text(want: Want, planned: dt.date) -> str:
    """The day of a want, as sheets name it; nothing where it is the planned one."""
    return f", {short_date(planned + dt.timedelta(want.day))}" if want.day else ""


def stock_lines(uses: Iterable[StockUse]) -> Iterator[Trace]:
    """Counted stock that covers part of what is wanted."""
    for use in uses:
        grams = grams_text(use.grams)
        use_by = short_date(dt.date.fromisoformat(use.use_by))
        if use.after_step is None:
            yield Trace(
                sentence("less {amount} on hand, use by {use_by}", amount=grams, use_by=use_by),
                use.grams,
            )
        else:
            text = sentence(
                "of it {amount} part-made on hand, done to step {after_step}",
                amount=grams,
                after_step=use.after_step,
            )
            yield Trace(sentence("{text}, use by {use_by}", text=text, use_by=use_by), use.grams)


def not_started(need: ComponentNeed) -> Iterator[Trace]:
    """What is wanted but neither on hand nor begun today."""
    own = (Reason.PAR, Reason.BATCH)
    wanted = sum(want.grams for want in need.wants)
    added = sum(making.grams for making in need.makings if making.want.reason in own)
    stock = sum(use.grams for use in need.stock if use.after_step is None)
    rest = wanted + added - stock - need.to_make
    if rest >= LEAST_GRAMS:
        yield Trace(sentence("not started today: {amount}", amount=grams_text(rest)), rest)


def made_for_later(need: ComponentNeed) -> Iterator[Trace]:
    """What today's batch makes for later days."""
    later = sum(making.grams for making in need.makings if making.want.reason is Reason.DAYS)
    if later >= LEAST_GRAMS:
        yield Trace(
            sentence("of it {amount} made today for later days", amount=grams_text(later)), later
        )


def rounding(line: PullLine) -> str:
    """From exact grams to what is taken off the shelf."""
    packs = f"{line.packs:.3g} {line.pack_unit}"
    if line.pull_unit == _GRAM:
        return sentence(
            "weighed out: {pulled} ({packs})", pulled=pulled_text(line.pulled.grams), packs=packs
        )
    return sentence(
        "rounded up: {trace} ({packs}); {left_over}",
        trace=line.trace,
        packs=packs,
        left_over=left_over(line),
    )


def whole_units(line: PullLine) -> str:
    """What is pulled: whole pieces and their grams, or grams alone."""
    if line.pull_unit == _GRAM:
        return pulled_text(line.pulled.grams)
    return f"{line.units:g} {line.pull_unit} = {pulled_text(line.pulled.grams)}"


def left_over(line: PullLine) -> str:
    """What whole units leave over; nothing is said to be left of what is weighed out."""
    if line.left_over < LEAST_GRAMS or line.pull_unit == _GRAM:
        return sentence("nothing left over")
    return sentence("{amount} left over", amount=grams_text(line.left_over))


def supply_lines(line: PullLine) -> Iterator[Trace]:
    """Supplies as far as they are used, first to last."""
    left = line.need.grams
    for supply in line.supplies:
        used = min(left, supply.grams)
        if used < LEAST_GRAMS:
            continue
        left -= used
        when = ", " + sentence("there at {at}", at=clock(supply.at)) if supply.at else ""
        missing = "" if supply.available else " (" + sentence("nobody has it") + ")"
        yield Trace(f"{grams_text(used)} {supply.source}{when}{missing}", used)
    if line.short >= LEAST_GRAMS:
        yield Trace(sentence("short: {amount}", amount=grams_text(line.short)), line.short)
