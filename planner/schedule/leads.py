"""What it costs a cook to turn from one batch to the next, and which surfaces must be cleaned."""

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
        changeover = changeovers.another_station
    elif before.operation != after.operation:
        changeover = changeovers.another_operation
    elif before.food != after.food:
        changeover = changeovers.another_food
    else:
        changeover = 0
    wash = changeovers.hand_wash if needs_clean(before.hygiene, after.hygiene) else 0
    return Lead(set_up=after.set_up, changeover=changeover, hand_wash=wash)
