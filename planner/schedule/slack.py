"""How much longer the lead of work that stays in place may become.

Putting a task in front of another can lengthen the other's lead: it comes from further away. The
other keeps its start, so its lead needs free minutes right before it: on its cook's line, and on
every place and vessel that is held from the lead on.
"""

from collections import defaultdict

from planner.schedule.assemble import Incumbent
from planner.schedule.tables import Tables

_MOST = 5
"""Minutes of growth at most: what a changeover takes."""

Stretch = tuple[int, int]


def room_before(tables: Tables, incumbent: Incumbent, free: frozenset[int]) -> dict[int, int]:
    """Per frozen task: minutes its lead may grow by; all may at once.

    Reserved on its holds task after task; free work counts where the incumbent has it, so that the
    incumbent itself stays possible.
    """
    stretches = _stretches(tables, incumbent)
    found: dict[int, int] = {}
    for worker, line in sorted(incumbent.lines.items()):
        away = (*tables.problem.workers[worker].blocked, *incumbent.rests[worker])
        last = tables.problem.workers[worker].start
        for task in line:
            item = incumbent.by_task[task]
            if tables.problem.tasks[task].lot in free:
                continue
            busy = item.start - item.lead.total
            last = max([last, *(end for _, end in away if end <= busy)])
            room = min(_MOST, busy - last)
            while room > 0 and not _reserve(tables, incumbent, stretches, task, room):
                room -= 1
            if room > 0:
                found[task] = room
            last = item.end
    return found


def _stretches(tables: Tables, incumbent: Incumbent) -> dict[int, dict[int, Stretch]]:
    """Per resource: where the incumbent has each hold."""
    found: dict[int, dict[int, Stretch]] = defaultdict(dict)
    for index, hold in enumerate(tables.problem.holds):
        first, last = incumbent.by_task.get(hold.first), incumbent.by_task.get(hold.last)
        if first is not None and last is not None:
            begin = first.start - first.lead.total
            found[hold.resource][index] = (begin, last.end + hold.tail)
    return found


def _reserve(
    tables: Tables,
    incumbent: Incumbent,
    stretches: dict[int, dict[int, Stretch]],
    task: int,
    room: int,
) -> bool:
    """Hold everything that opens with ``task`` so much longer, if it is free."""
    holds = tables.problem.holds
    for hold in tables.opens[task]:
        resource = holds[hold].resource
        begin = stretches[resource][hold][0]
        others = [
            (other, stretch)
            for other, stretch in stretches[resource].items()
            if other != hold and stretch[0] < begin and begin - room < stretch[1]
        ]
        if tables.contact(hold):
            unit = incumbent.unit_of[hold]
            if any(incumbent.unit_of[other] == unit for other, _ in others):
                return False
        elif (
            sum(holds[other].units for other, _ in others) + holds[hold].units
            > tables.problem.resources[resource].capacity
        ):
            return False
    for hold in tables.opens[task]:
        resource = holds[hold].resource
        begin, end = stretches[resource][hold]
        stretches[resource][hold] = (begin - room, end)
    return True
