"""What it costs a cook to turn from one batch to the next, and which surfaces must be cleaned."""

from collections.abc import Hashable, Sequence

from planner.schedule.problem import Changeovers, Family, Hygiene
from planner.schedule.timetable import Lead


def needs_clean(before: Hygiene, after: Hygiene) -> bool:
    """Tell whether a surface left by ``before`` must be cleaned and sanitised for ``after``.

    Due on leaving raw animal food for anything but the same species, and on leaving an allergen
    for food without it. Stricter than asking only before ready-to-eat food (FDA Food Code
    4-602.11): cleaning at once keeps the state of a surface that of its last user, which makes the
    relation transitive, so nothing hides behind a neutral batch between chicken and salad.
    """
    raw = before.raw_animal is not None and before.raw_animal != after.raw_animal
    return raw or not before.allergens <= after.allergens


def lead_between(before: Family | None, after: Family, changeovers: Changeovers) -> Lead:
    """Minutes one cook needs from a task of ``before`` to a task of ``after``, cleaning apart.

    ``before`` is None for the cook's first task: only the set-up is due. Within one family nothing
    is. The changeover is the largest single difference, not a sum: a walk to another station
    already includes picking up another food.
    """
    if before is None:
        return Lead(set_up=after.set_up)
    if before == after:
        return Lead()
    if before.station != after.station:
        walks = walks_of(changeovers)
        changeover = walks.get((before.station, after.station), changeovers.another_station)
    elif before.operation != after.operation:
        changeover = changeovers.another_operation
    elif before.food != after.food:
        changeover = changeovers.another_food
    else:
        changeover = 0
    wash = changeovers.hand_wash if needs_clean(before.hygiene, after.hygiene) else 0
    return Lead(set_up=after.set_up, changeover=changeover, hand_wash=wash)


def walks_of(changeovers: Changeovers) -> dict[tuple[str, str], int]:
    """Minutes between pairs of stations that have their own, by pair, both ways."""
    there = {(walk.station, walk.other): walk.minutes for walk in changeovers.walks}
    return there | {(other, station): minutes for (station, other), minutes in there.items()}


def lead_minutes(
    families: Sequence[Family], changeovers: Changeovers
) -> tuple[tuple[int, ...], ...]:
    """Total minutes of ``lead_between`` from each family, and in the last row from none, to each.

    The same figures in one pass over small codes: a large morning has half a million pairs.
    """
    station = _codes([family.station for family in families])
    operation = _codes([family.operation for family in families])
    food = _codes([family.food for family in families])
    hygiene = _codes([family.hygiene for family in families])
    whole = _codes(families)
    classes = list(dict.fromkeys(family.hygiene for family in families))
    wash = [
        [changeovers.hand_wash if needs_clean(before, after) else 0 for after in classes]
        for before in classes
    ]
    by_operation = changeovers.another_operation
    walks = walks_of(changeovers)
    stations = list(dict.fromkeys(family.station for family in families))
    between = [
        [walks.get((one, other), changeovers.another_station) for other in stations]
        for one in stations
    ]
    by_food = changeovers.another_food
    columns = list(
        zip(
            whole,
            station,
            operation,
            food,
            hygiene,
            [family.set_up for family in families],
            strict=True,
        )
    )
    rows = []
    for same, at, doing, on, left, _ in columns:
        washes, to = wash[left], between[at]
        rows.append(
            tuple(
                [
                    0
                    if w == same
                    else up
                    + washes[h]
                    + (
                        to[s]
                        if s != at
                        else by_operation
                        if o != doing
                        else by_food
                        if f != on
                        else 0
                    )
                    for w, s, o, f, h, up in columns
                ]
            )
        )
    rows.append(tuple(family.set_up for family in families))
    return tuple(rows)


def _codes(values: Sequence[Hashable]) -> list[int]:
    """Equal values get equal numbers, from 0 in the order of their first appearance."""
    seen: dict[Hashable, int] = {}
    return [seen.setdefault(value, len(seen)) for value in values]
