"""Orders: of tasks on each cook's line, and of holds on each unit that must be cleaned.

A line is a circuit from the cook's start through the tasks and back. The arc from t to u carries
the lead that u then needs, so set-up is paid once per batch and like work is worth keeping
together.
"""

from collections.abc import Sequence

from ortools.sat.python import cp_model

from planner.schedule.away import add_rests
from planner.schedule.orders import followers, order_arcs
from planner.schedule.upkeep import add_use, is_timed
from planner.schedule.variables import Linear, TaskVars, Variables

Arc = tuple[int, int, cp_model.LiteralT]


def add_lines(out: Variables) -> None:
    """Give every cook of the model an order of tasks, free of overlap, breaks respected."""
    able = {worker for shown in out.free_tasks() for worker in shown.does}
    for worker in sorted(out.workers | able):
        _add_line(out, worker)


def close_leads(out: Variables) -> None:
    """Make each lead the sum of what lines and units put into it; call once both are in."""
    for shown in out.tasks.values():
        if isinstance(shown.lead, cp_model.IntVar):
            out.model.add(shown.lead == sum(shown.lead_parts))


def end_of(out: Variables, task: int) -> Linear:
    """End of a task: variable, or where the incumbent has it."""
    shown = out.tasks.get(task)
    return out.incumbent.by_task[task].end if shown is None else shown.end


def start_of(out: Variables, task: int) -> Linear:
    """Start of a task: variable, or where the incumbent has it."""
    shown = out.tasks.get(task)
    return out.incumbent.by_task[task].start if shown is None else shown.start


def _add_line(out: Variables, worker: int) -> None:
    model = out.model
    person = out.tables.problem.workers[worker]
    free = [shown for shown in out.free_tasks() if worker in shown.does]
    frozen = [
        out.tasks[task] if task in out.tasks else _fixed(out, task)
        for task in out.incumbent.lines.get(worker, ())
        if out.tables.problem.tasks[task].lot not in out.free
    ]
    intervals = add_rests(out, worker, [shown.task for shown in frozen], free)
    for shown in frozen:
        intervals.append(
            model.new_interval_var(shown.busy, shown.end - shown.busy, shown.end, "frozen")
        )
    for shown in free:
        literal = shown.does[worker]
        size = _busy_size(out, shown, worker)
        intervals.append(
            model.new_optional_interval_var(shown.busy, size, shown.end, literal, "free")
        )
        model.add(shown.busy >= person.start).only_enforce_if(literal)
        model.add(shown.end <= person.latest_end).only_enforce_if(literal)
    model.add_no_overlap(intervals)
    if free and _has_leads(out, [*free, *frozen]):
        _add_circuit(out, worker, frozen, free)
    else:
        for shown in frozen:
            shown.lead_parts.append(_lead_now(out, shown))


def _busy_size(out: Variables, shown: TaskVars, worker: int) -> Linear:
    """Minutes from the start of a free task's lead to its end, with the rests it lies around."""
    size = out.tables.problem.tasks[shown.task].minutes[worker] + shown.lead
    if not any(own == worker for own, _ in shown.over):
        return size
    longer = out.model.new_int_var(0, out.tables.problem.horizon, f"size{shown.task}_{worker}")
    out.model.add(longer == shown.end - shown.busy)
    item = out.incumbent.by_task.get(shown.task)
    out.hint(longer, 0 if item is None else item.end - item.start + item.lead.total)
    return longer


def _fixed(out: Variables, task: int) -> TaskVars:
    """A frozen task of a cook outside the crew: only its place matters."""
    item = out.incumbent.by_task[task]
    return TaskVars(task, False, item.start, item.end, item.start - item.lead.total, 0)


def _lead_now(out: Variables, shown: TaskVars) -> int:
    """The incumbent's lead of a frozen task, cleaning apart."""
    item = out.incumbent.by_task[shown.task]
    return item.lead.total - item.lead.clean


def _has_leads(out: Variables, shown: Sequence[TaskVars]) -> bool:
    if not out.tables.has_leads:
        return False
    families = {out.tables.problem.tasks[item.task].family for item in shown}
    rows = (*families, len(out.tables.problem.families))
    return any(out.tables.leads[row][column] for row in rows for column in families)


def _add_circuit(out: Variables, worker: int, frozen: list[TaskVars], free: list[TaskVars]) -> None:
    model, tables = out.model, out.tables
    nodes = [*frozen, *free]
    place = {shown.task: node + 1 for node, shown in enumerate(nodes)}
    hinted_tasks = [place[t] for t in out.incumbent.lines.get(worker, ()) if t in place]
    fits = _fitting_gaps(out, worker, frozen, free)
    arcs: list[Arc] = []
    touched: set[int] = set()
    listed = list(order_arcs(len(frozen), fits, lambda f, h: _may_follow(out, free[f], free[h])))
    used = {node for tail, head, _ in listed for node in (tail, head)}
    hinted = followers([node for node in hinted_tasks if node in used or node > len(frozen)])
    for tail, head, certain in listed:
        if certain:
            arcs.append((tail, head, model.new_constant(1)))
            continue
        shown = nodes[head - 1]
        lead = 0
        if head:
            before = nodes[tail - 1].task if tail else None
            lead = tables.minutes_before(before, shown.task)
            if not shown.free:
                touched.add(shown.task)
                if lead > out.most_lead(shown.task):
                    continue  # no room for so long a lead before a frozen task
        literal = model.new_bool_var(f"arc{worker}_{tail}_{head}")
        out.hint(literal, int((tail, head) in hinted))
        arcs.append((tail, head, literal))
        if head:
            if lead:
                shown.lead_parts.append(lead * literal)
            if tail:
                model.add(shown.busy >= nodes[tail - 1].end).only_enforce_if(literal)
    arcs += [(place[shown.task], place[shown.task], ~shown.does[worker]) for shown in free]
    model.add_circuit(arcs)
    for shown in frozen:
        if shown.task not in touched:
            shown.lead_parts.append(_lead_now(out, shown))


def _fitting_gaps(
    out: Variables, worker: int, frozen: list[TaskVars], free: list[TaskVars]
) -> list[frozenset[int]]:
    """Gaps between frozen tasks in which each free task can lie, by its window alone."""
    person = out.tables.problem.workers[worker]
    by_task = out.incumbent.by_task
    lows = [person.start, *(by_task[shown.task].end for shown in frozen)]
    highs = [*(by_task[shown.task].start for shown in frozen), person.latest_end]
    found = []
    for shown in free:
        first, last = out.windows[shown.task]
        minutes = out.tables.problem.tasks[shown.task].minutes[worker]
        found.append(
            frozenset(
                g
                for g, (low, high) in enumerate(zip(lows, highs, strict=True))
                if max(low, first) + minutes <= min(high, last)
            )
        )
    return found


def _may_follow(out: Variables, one: TaskVars, two: TaskVars) -> bool:
    """Whether ``two`` can come right after ``one``: no wait runs the other way, windows touch."""
    tables = out.tables
    if any(wait.before == two.task for wait in tables.waits_before[one.task]):
        return False
    earliest = out.windows[one.task][0] + tables.least[one.task]
    return earliest + tables.least[two.task] <= out.windows[two.task][1]


def add_unit_order(
    out: Variables,
    unit: tuple[int, int],
    frozen: list[int],
    free: list[tuple[int, cp_model.IntVar]],
) -> None:
    """Order the holds on one unit of a contact resource and charge the cleans between them.

    ``frozen`` are hold indexes in time order, ``free`` (hold, literal that it is on this unit).
    """
    model, tables = out.model, out.tables
    holds = tables.problem.holds
    count = len(frozen)
    names = [*frozen, *(hold for hold, _ in free)]
    families = [tables.hold_family(hold) for hold in names]
    timed = is_timed(out)
    if not timed and not any(tables.dirty[a][b] for a in families for b in families):
        return
    clean = tables.problem.changeovers.clean
    fits = _fitting_stretches(out, frozen, [hold for hold, _ in free])
    listed = list(order_arcs(count, fits, lambda f, h: _may_share(out, free[f][0], free[h][0])))
    used = {node for tail, head, _ in listed for node in (tail, head)}
    present = _unit_order(out, unit[1], names)
    hinted = followers([node for node in present if node in used or node > count])
    arcs: list[Arc] = []
    for tail, head, certain in listed:
        if certain:
            arcs.append((tail, head, model.new_constant(1)))
            continue
        dirty = bool(tail and head and tables.dirty[families[tail - 1]][families[head - 1]])
        if dirty and head <= count and names[head - 1] not in out.incumbent.cleaned:
            continue  # nobody has time to clean before a frozen hold that was clean so far
        literal = model.new_bool_var(f"unit{unit}_{tail}_{head}")
        out.hint(literal, int((tail, head) in hinted))
        arcs.append((tail, head, literal))
        if not head:
            continue
        if head > count and dirty:
            out.tasks[holds[names[head - 1]].first].lead_parts.append(clean * literal)
        if timed:
            hold = names[head - 1]
            end = end_of(out, holds[hold].last) + holds[hold].tail
            add_use(out, literal, names[tail - 1] if tail else None, hold, end, dirty=dirty)
        if tail and (head > count or tail > count):
            before = holds[names[tail - 1]]
            begin = out.begin_of(names[head - 1])
            model.add(begin >= end_of(out, before.last) + before.tail).only_enforce_if(literal)
    arcs += [(count + 1 + f, count + 1 + f, ~literal) for f, (_, literal) in enumerate(free)]
    model.add_circuit(arcs)


def _fitting_stretches(out: Variables, frozen: list[int], free: list[int]) -> list[frozenset[int]]:
    """Gaps between frozen holds of a unit in which each free hold can begin and end."""
    stretches = [out.stretch(hold) for hold in frozen]
    lows = [out.tables.problem.start, *(end for _, end in stretches)]
    highs = [*(begin for begin, _ in stretches), out.tables.problem.horizon * 2]
    found = []
    for hold in free:
        spec = out.tables.problem.holds[hold]
        first = out.windows[spec.first][0]
        last = out.windows[spec.last][1] + spec.tail
        length = out.tables.least[spec.first] + spec.tail
        found.append(
            frozenset(
                g
                for g, (low, high) in enumerate(zip(lows, highs, strict=True))
                if max(low, first) + length <= min(high, last)
            )
        )
    return found


def _may_share(out: Variables, one: int, two: int) -> bool:
    """Whether hold ``two`` can come right after ``one`` on a unit, by windows and waits."""
    holds, tasks = out.tables.problem.holds, out.tasks
    return _may_follow(out, tasks[holds[one].last], tasks[holds[two].first])


def _unit_order(out: Variables, unit: int, names: Sequence[int]) -> list[int]:
    """Nodes of the holds that the incumbent has on this unit, in time order."""
    holds = out.tables.problem.holds
    there = [
        (out.incumbent.by_task[holds[hold].first].start, node + 1)
        for node, hold in enumerate(names)
        if out.incumbent.unit_of.get(hold) == unit
    ]
    return [node for _, node in sorted(there)]
