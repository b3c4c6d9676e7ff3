"""Someone can do each operation, and shifts are ones a cook can work."""

from collections.abc import Iterator

from planner.kitchen.base import clock_minutes
from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Rules
from planner.kitchen.errors import FileError, Place, places, suggestion
from planner.kitchen.rests import have_room, rests_of, too_long
from planner.kitchen.work import Cook, Shift

_PAST_MIDNIGHT = "times past midnight go on: 2 in the morning is '26:00'"

_Stretch = tuple[int, int, Place, str]
"""First and last minute, where it is entered, and how."""


def check_people(catalog: Catalog) -> Iterator[FileError]:
    """Yield each operation nobody may do, and each shift, break or block that cannot be."""
    yield from _able(catalog)
    yield from _learning(catalog)
    for place, cook in places("cooks", catalog.kitchen.cooks):
        yield from _one_shift_a_day(place, cook)
        for below, shift in place.items("shifts", cook.shifts):
            yield from _shift(below, shift, catalog.kitchen.rules)


def _learning(catalog: Catalog) -> Iterator[FileError]:
    """Trainees work beside a cook who is none, and each such cook has one at most."""
    taught: dict[str, str] = {}
    for place, cook in places("cooks", catalog.kitchen.cooks):
        below = place.field("learns_from")
        mentor = catalog.cooks.get(cook.learns_from or "")
        if mentor is None:
            continue  # nobody, or told with the references
        if mentor.learns_from is not None:
            itself = mentor is cook
            yield below.error(
                cook.learns_from,
                "nobody learns from themselves" if itself else f"{mentor.name} is a trainee too",
                "name a cook who works alone, or leave it out",
            )
        elif mentor.id in taught:
            yield below.error(
                cook.learns_from,
                f"{mentor.name} has a trainee already: {taught[mentor.id]}",
                "name another cook, or leave it out",
            )
        taught.setdefault(mentor.id, cook.name)


def _able(catalog: Catalog) -> Iterator[FileError]:
    cooks = [cook for cook in catalog.kitchen.cooks if cook.learns_from is None]
    skills = {skill.skill for cook in cooks for skill in cook.skills}
    for place, operation in places("operations", catalog.kitchen.operations):
        if operation.skill not in skills:
            yield place.field("skill").error(
                operation.skill,
                f"missing skill: no cook has the skill to {operation.name.lower()}",
                f"{suggestion(operation.skill, skills)}give it to a cook, or name a skill one has",
            )
        elif operation.station in catalog.stations:
            yield from _admitted(
                place.field("station"), catalog, operation.station, operation.skill
            )


def _admitted(place: Place, catalog: Catalog, station: str, skill: str) -> Iterator[FileError]:
    def works_there(cook: Cook) -> bool:
        return cook.stations is None or station in cook.stations

    cooks = [cook for cook in catalog.kitchen.cooks if cook.learns_from is None]
    name = catalog.stations[station].name
    if not any(works_there(cook) for cook in cooks):
        yield place.error(
            station, f"no cook may work at {name}", f"add '{station}' to a cook's stations"
        )
    elif not any(
        works_there(cook) and any(has.skill == skill for has in cook.skills) for cook in cooks
    ):
        yield place.error(
            station,
            f"no cook with the skill '{skill}' may work at {name}",
            f"add '{station}' to the stations of a cook who has it, or the skill to one who works "
            "there",
        )


def _one_shift_a_day(place: Place, cook: Cook) -> Iterator[FileError]:
    seen: dict[object, Place] = {}
    for below, shift in place.items("shifts", cook.shifts):
        if shift.date in seen:
            day = "every day" if shift.date is None else str(shift.date)
            yield below.field("date").error(
                shift.date,
                f"{cook.name} has two shifts for {day}, the first at {seen[shift.date].path}",
                "keep one and enter the time between as a break or under on_line, or give each its "
                "date",
            )
        seen.setdefault(shift.date, below)


def _shift(place: Place, shift: Shift, rules: Rules) -> Iterator[FileError]:
    start, end = clock_minutes(shift.start), clock_minutes(shift.end)
    if end <= start:
        yield place.field("end").error(
            shift.end,
            f"the shift ends at {shift.end}, not after it starts at {shift.start}",
            f"enter a later end; {_PAST_MIDNIGHT}",
        )
        return
    wrong = list(_breaks(place, shift))
    stretches = [*_fixed(place, shift)]
    for below, block in place.items("on_line", shift.on_line):
        first, last = clock_minutes(block.start), clock_minutes(block.end)
        if last <= first:
            yield below.field("end").error(
                block.end,
                f"the block ends at {block.end}, not after it starts at {block.start}",
                f"enter a later end; {_PAST_MIDNIGHT}",
            )
        else:
            stretches.append((first, last, below, f"{block.start} to {block.end}"))
    wrong += [*_inside(shift, start, end, stretches), *_apart(stretches)]
    yield from wrong
    if not wrong:
        yield from _rested(place, shift, rules)


def _fixed(place: Place, shift: Shift) -> Iterator[_Stretch]:
    """Breaks that are where they are."""
    for below, rest in place.items("breaks", shift.breaks):
        if rest.latest in (None, rest.start):
            at = clock_minutes(rest.start)
            yield at, at + rest.minutes, below, f"{rest.start} for {rest.minutes} min"


def _breaks(place: Place, shift: Shift) -> Iterator[FileError]:
    """Windows of breaks that the plan places."""
    for below, rest in place.items("breaks", shift.breaks):
        if rest.latest in (None, rest.start):
            continue
        first, last = clock_minutes(rest.start), clock_minutes(rest.latest)
        if last < first:
            yield below.field("latest").error(
                rest.latest,
                f"the break may start no later than {rest.latest}, but no sooner than {rest.start}",
                f"enter a later time, or leave it out: then it is at {rest.start}",
            )
        elif first < clock_minutes(shift.start) or last + rest.minutes > clock_minutes(shift.end):
            yield below.error(
                f"{rest.start} to {rest.latest} for {rest.minutes} min",
                f"this lies outside the shift from {shift.start} to {shift.end}",
                "move it into the shift, or change the shift",
            )


def _rested(place: Place, shift: Shift, rules: Rules) -> Iterator[FileError]:
    """Whether the breaks find room, and keep the kitchen's rest rules wherever they are."""
    below = place.field("breaks")
    taken = [(clock_minutes(one.start), clock_minutes(one.end)) for one in shift.on_line]
    if rules.station_set_up_minutes:
        start = clock_minutes(shift.start)
        taken.append((start, start + rules.station_set_up_minutes))
    if not have_room(rests_of(shift, rules), taken):
        asked = "" if shift.breaks else " that the rest rules ask for"
        yield below.error(
            shift.breaks,
            f"there is no room for the breaks{asked} beside what is on_line and the station set-up",
            "give them wider windows, or change on_line",
        )
        return
    spell = too_long(shift, rules)
    if spell is not None:
        hours, least = spell.rule.after_hours, spell.rule.minutes
        yield below.error(
            shift.breaks,
            f"from {_clock(spell.since)} to {_clock(spell.until)} there may be no break of "
            f"{least} min, which the rest rules ask for after {hours:g} h",
            "enter one, move one, make one longer or its window narrower; or leave breaks out: "
            "then the plan places what the rules ask for",
        )


def _clock(minutes: int) -> str:
    """As the file writes it, past midnight too."""
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def _inside(shift: Shift, start: int, end: int, stretches: list[_Stretch]) -> Iterator[FileError]:
    for first, last, place, words in stretches:
        if first < start or last > end:
            yield place.error(
                words,
                f"this lies outside the shift from {shift.start} to {shift.end}",
                "move it into the shift, or change the shift",
            )


def _apart(stretches: list[_Stretch]) -> Iterator[FileError]:
    latest: _Stretch | None = None
    for after in sorted(stretches, key=lambda stretch: (stretch[0], stretch[1])):
        if latest is not None and after[0] < latest[1]:
            yield after[2].error(
                after[3], f"this overlaps {latest[2].path} ({latest[3]})", "move one of the two"
            )
        if latest is None or after[1] > latest[1]:
            latest = after
