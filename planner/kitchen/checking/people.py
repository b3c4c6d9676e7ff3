"""Someone can do each operation, and shifts are ones a cook can work."""

from collections.abc import Iterator

from planner.kitchen.base import clock_minutes
from planner.kitchen.catalog import Catalog
from planner.kitchen.document import Rules
from planner.kitchen.errors import FileError, Place, places, suggestion
from planner.kitchen.rests import have_room, rests_of, too_long
from planner.kitchen.work import Cook, Shift
from planner.wording import sentence

_PAST_MIDNIGHT = sentence("times past midnight go on: 2 in the morning is '26:00'")

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
                sentence("nobody learns from themselves")
                if itself
                else sentence("{mentor} is a trainee too", mentor=mentor.name),
                sentence("name a cook who works alone, or leave it out"),
            )
        elif mentor.id in taught:
            yield below.error(
                cook.learns_from,
                sentence(
                    "{mentor} has a trainee already: {trainee}",
                    mentor=mentor.name,
                    trainee=taught[mentor.id],
                ),
                sentence("name another cook, or leave it out"),
            )
        taught.setdefault(mentor.id, cook.name)


def _able(catalog: Catalog) -> Iterator[FileError]:
    cooks = [cook for cook in catalog.kitchen.cooks if cook.learns_from is None]
    skills = {skill.skill for cook in cooks for skill in cook.skills}
    for place, operation in places("operations", catalog.kitchen.operations):
        if operation.skill not in skills:
            yield place.field("skill").error(
                operation.skill,
                sentence(
                    "missing skill: no cook has the skill to {work}", work=operation.name.lower()
                ),
                suggestion(operation.skill, skills)
                + sentence("give it to a cook, or name a skill one has"),
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
            station,
            sentence("no cook may work at {name}", name=name),
            sentence("add '{station}' to a cook's stations", station=station),
        )
    elif not any(
        works_there(cook) and any(has.skill == skill for has in cook.skills) for cook in cooks
    ):
        yield place.error(
            station,
            sentence("no cook with the skill '{skill}' may work at {name}", skill=skill, name=name),
            sentence(
                "add '{station}' to the stations of a cook who has it, or the skill to "
                "one who works there",
                station=station,
            ),
        )


def _one_shift_a_day(place: Place, cook: Cook) -> Iterator[FileError]:
    seen: dict[object, Place] = {}
    for below, shift in place.items("shifts", cook.shifts):
        if shift.date in seen:
            first = seen[shift.date].path
            yield below.field("date").error(
                shift.date,
                sentence(
                    "{cook} has two shifts for every day, the first at {path}",
                    cook=cook.name,
                    path=first,
                )
                if shift.date is None
                else sentence(
                    "{cook} has two shifts for {day}, the first at {path}",
                    cook=cook.name,
                    day=shift.date,
                    path=first,
                ),
                sentence(
                    "keep one and enter the time between as a break or under on_line, or "
                    "give each its date"
                ),
            )
        seen.setdefault(shift.date, below)


def _shift(place: Place, shift: Shift, rules: Rules) -> Iterator[FileError]:
    start, end = clock_minutes(shift.start), clock_minutes(shift.end)
    if end <= start:
        yield place.field("end").error(
            shift.end,
            sentence(
                "the shift ends at {end}, not after it starts at {start}",
                end=shift.end,
                start=shift.start,
            ),
            sentence("enter a later end; {past_midnight}", past_midnight=_PAST_MIDNIGHT),
        )
        return
    wrong = list(_breaks(place, shift))
    stretches = [*_fixed(place, shift)]
    for below, block in place.items("on_line", shift.on_line):
        first, last = clock_minutes(block.start), clock_minutes(block.end)
        if last <= first:
            yield below.field("end").error(
                block.end,
                sentence(
                    "the block ends at {end}, not after it starts at {start}",
                    end=block.end,
                    start=block.start,
                ),
                sentence("enter a later end; {past_midnight}", past_midnight=_PAST_MIDNIGHT),
            )
        else:
            words = sentence("{at} to {at_2}", at=block.start, at_2=block.end)
            stretches.append((first, last, below, words))
    wrong += [*_inside(shift, start, end, stretches), *_apart(stretches)]
    yield from wrong
    if not wrong:
        yield from _rested(place, shift, rules)


def _fixed(place: Place, shift: Shift) -> Iterator[_Stretch]:
    """Breaks that are where they are."""
    for below, rest in place.items("breaks", shift.breaks):
        if rest.latest in (None, rest.start):
            at = clock_minutes(rest.start)
            words = sentence("{at} for {n} min", at=rest.start, n=rest.minutes)
            yield at, at + rest.minutes, below, words


def _breaks(place: Place, shift: Shift) -> Iterator[FileError]:
    """Windows of breaks that the plan places."""
    for below, rest in place.items("breaks", shift.breaks):
        if rest.latest in (None, rest.start):
            continue
        first, last = clock_minutes(rest.start), clock_minutes(rest.latest)
        if last < first:
            yield below.field("latest").error(
                rest.latest,
                sentence(
                    "the break may start no later than {latest}, but no sooner than {start}",
                    latest=rest.latest,
                    start=rest.start,
                ),
                sentence(
                    "enter a later time, or leave it out: then it is at {start}", start=rest.start
                ),
            )
        elif first < clock_minutes(shift.start) or last + rest.minutes > clock_minutes(shift.end):
            yield below.error(
                f"{rest.start} to {rest.latest} for {rest.minutes} min",
                sentence(
                    "this lies outside the shift from {start} to {end}",
                    start=shift.start,
                    end=shift.end,
                ),
                sentence("move it into the shift, or change the shift"),
            )


def _rested(place: Place, shift: Shift, rules: Rules) -> Iterator[FileError]:
    """Whether the breaks find room, and keep the kitchen's rest rules wherever they are."""
    below = place.field("breaks")
    taken = [(clock_minutes(one.start), clock_minutes(one.end)) for one in shift.on_line]
    if rules.station_set_up_minutes:
        start = clock_minutes(shift.start)
        taken.append((start, start + rules.station_set_up_minutes))
    if not have_room(rests_of(shift, rules), taken):
        yield below.error(
            shift.breaks,
            sentence(
                "there is no room for the breaks beside what is on_line and the station set-up"
            )
            if shift.breaks
            else sentence(
                "there is no room for the breaks that the rest rules ask for beside what is "
                "on_line and the station set-up"
            ),
            sentence("give them wider windows, or change on_line"),
        )
        return
    spell = too_long(shift, rules)
    if spell is not None:
        hours, least = spell.rule.after_hours, spell.rule.minutes
        yield below.error(
            shift.breaks,
            sentence(
                "from {since} to {until} there may be no break of {n} min, which the rest "
                "rules ask for after {n_2:g} h",
                since=_clock(spell.since),
                until=_clock(spell.until),
                n=least,
                n_2=hours,
            ),
            sentence(
                "enter one, move one, make one longer or its window narrower; or leave "
                "breaks out: then the plan places what the rules ask for"
            ),
        )


def _clock(minutes: int) -> str:
    """As the file writes it, past midnight too."""
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def _inside(shift: Shift, start: int, end: int, stretches: list[_Stretch]) -> Iterator[FileError]:
    for first, last, place, words in stretches:
        if first < start or last > end:
            yield place.error(
                words,
                sentence(
                    "this lies outside the shift from {start} to {end}",
                    start=shift.start,
                    end=shift.end,
                ),
                sentence("move it into the shift, or change the shift"),
            )


def _apart(stretches: list[_Stretch]) -> Iterator[FileError]:
    latest: _Stretch | None = None
    for after in sorted(stretches, key=lambda stretch: (stretch[0], stretch[1])):
        if latest is not None and after[0] < latest[1]:
            yield after[2].error(
                after[3],
                sentence("this overlaps {path} ({span})", path=latest[2].path, span=latest[3]),
                sentence("move one of the two"),
            )
        if latest is None or after[1] > latest[1]:
            latest = after
