"""Orders: of tasks on each cook's line, and of holds on each unit that must be cleaned.

A line is a circuit from the cook's start through the tasks and back. The arc from t to u carries
the lead that u then needs, so set-up is paid once per batch and like work is worth keeping
together. Arcs are sparse: a frozen task is followed by the next frozen one or by a free task that
fits in the gap between them.
"""

from collections.abc import Sequence

from ortools.sat.python import cp_model

from planner.schedule.variables import Linear, TaskVars, Variables

Arc = tuple[int, int, cp_model.LiteralT]


def add_lines(out: Variables) -> None:
    """Give every cook of the model an order of tasks, free of overlap, breaks respected."""
    for worker in sorted(out.workers | _current_workers(out)):
        _add_line(out, worker)


def close_leads(out: Variables) -> None:
    """Make each lead the sum of what lines and units put into it; call once both are in."""
    for shown in out.tasks.values():
        if isinstance(shown.lead, cp_model.IntVar):
            out.model.add(shown.lead == sum(shown.lead_parts))


def _current_workers(out: Variables) -> frozenset[int]:
    return frozenset(worker for shown in out.free_tasks() for worker in shown.does)


def _add_line(out: Variables, worker: int) -> None:
    model, problem = out.model, out.tables.problem
    person = problem.workers[worker]
    free = [shown for shown in out.free_tasks() if worker in shown.does]
    frozen = [
        out.tasks[task] if task in out.tasks else _fixed(out, task)
        for task in out.incumbent.lines.get(worker, ())
        if problem.tasks[task].lot not in out.free
    ]
    if not free and not any(isinstance(s.lead, cp_model.IntVar) for s in frozen):
        return
    intervals = [
        model.new_fixed_size_interval_var(begin, end - begin, f"away{worker}_{begin}")
        for begin, end in person.blocked
    ]
    for shown in frozen:
        intervals.append(
            model.new_interval_var(shown.busy, shown.end - shown.busy, shown.end, "frozen")
        )
    for shown in free:
        literal = shown.does[worker]
        size = model.new_int_var(0, problem.horizon - problem.start, "size")
        model.add(size == shown.end - shown.busy)
        intervals.append(
            model.new_optional_interval_var(shown.busy, size, shown.end, literal, "free")
        )
        model.add(shown.busy >= person.start).only_enforce_if(literal)
        model.add(shown.end <= person.latest_end).only_enforce_if(literal)
    model.add_no_overlap(intervals)
    if _has_leads(out, [*free, *frozen]):
        _add_circuit(out, worker, frozen, free)


def _fixed(out: Variables, task: int) -> TaskVars:
    """A frozen task of a cook outside the crew: only its place matters."""
    item = out.incumbent.by_task[task]
    return TaskVars(task, False, item.start, item.end, item.start - item.lead.total, 0)


def _has_leads(out: Variables, shown: Sequence[TaskVars]) -> bool:
    families = {out.tables.problem.tasks[item.task].family for item in shown}
    rows = (*families, len(out.tables.problem.families))
    return any(out.tables.leads[row][column].total for row in rows for column in families)


def _add_circuit(out: Variables, worker: int, frozen: list[TaskVars], free: list[TaskVars]) -> None:
    model, tables = out.model, out.tables
    person = tables.problem.workers[worker]
    nodes = [*frozen, *free]
    gaps = [
        [
            int(_end_of(out, frozen[g - 1])) if g else person.start,
            int(_start_of(out, frozen[g])) if g < len(frozen) else person.latest_end,
        ]
        for g in range(len(frozen) + 1)
    ]
    fits = {
        f: [g for g, gap in enumerate(gaps) if _fits(out, shown, gap)]
        for f, shown in enumerate(free)
    }
    arcs: list[Arc] = []

    def arc(tail: int, head: int) -> None:
        """Add an arc between nodes (0 is the cook's start and end, node i is ``nodes[i - 1]``)."""
        lead = 0
        if head:
            before = nodes[tail - 1].task if tail else None
            lead = tables.lead(before, nodes[head - 1].task).total
            shown = nodes[head - 1]
            if not shown.free and lead > _most_lead(out, shown):
                return
        literal = model.new_bool_var(f"arc{worker}_{tail}_{head}")
        arcs.append((tail, head, literal))
        if head:
            shown = nodes[head - 1]
            if lead:
                shown.lead_parts.append(lead * literal)
            if tail:
                model.add(shown.busy >= nodes[tail - 1].end).only_enforce_if(literal)

    count = len(frozen)
    for g in range(count + 1):
        after = g + 1 if g < count else 0
        if after or g:
            arc(g, after)
        for f in range(len(free)):
            if g in fits[f]:
                arc(g, count + 1 + f)
                arc(count + 1 + f, after)
    for f, one in enumerate(free):
        for h, two in enumerate(free):
            if f != h and set(fits[f]) & set(fits[h]) and _may_follow(out, one, two):
                arc(count + 1 + f, count + 1 + h)
    for f, shown in enumerate(free):
        arcs.append((count + 1 + f, count + 1 + f, ~shown.does[worker]))
    if not frozen:  # a cook may have nothing to do
        idle = model.new_bool_var(f"idle{worker}")
        arcs.append((0, 0, idle))
    model.add_circuit(arcs)


def _most_lead(out: Variables, shown: TaskVars) -> int:
    item = out.incumbent.by_task[shown.task]
    return item.lead.total - item.lead.clean


def _start_of(out: Variables, shown: TaskVars) -> int:
    return out.incumbent.by_task[shown.task].start


def _end_of(out: Variables, shown: TaskVars) -> int:
    return out.incumbent.by_task[shown.task].end


def _fits(out: Variables, shown: TaskVars, gap: list[int]) -> bool:
    """Whether a free task can lie in a gap between two frozen ones, by its window alone."""
    tables = out.tables
    begin = max(gap[0], tables.earliest[shown.task])
    end = min(gap[1], tables.latest[shown.task])
    return begin + tables.least[shown.task] <= end


def _may_follow(out: Variables, one: TaskVars, two: TaskVars) -> bool:
    """Whether ``two`` can come right after ``one``: no wait runs the other way, windows touch."""
    tables = out.tables
    if any(wait.before == two.task for wait in tables.waits_before[one.task]):
        return False
    earliest = tables.earliest[one.task] + tables.least[one.task]
    return earliest + tables.least[two.task] <= tables.latest[two.task]


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
    if not any(tables.dirty[a][b] for a in families for b in families):
        return
    clean = tables.problem.changeovers.clean
    arcs: list[Arc] = []

    def arc(tail: int, head: int) -> None:
        dirty = bool(tail and head and tables.dirty[families[tail - 1]][families[head - 1]])
        if dirty and head <= count and names[head - 1] not in out.incumbent.cleaned:
            return
        literal = model.new_bool_var(f"unit{unit}_{tail}_{head}")
        arcs.append((tail, head, literal))
        if head > count:
            shown = out.tasks[holds[names[head - 1]].first]
            if dirty:
                shown.lead_parts.append(clean * literal)
            if tail:
                before = holds[names[tail - 1]]
                model.add(shown.busy >= end_of(out, before.last) + before.tail).only_enforce_if(
                    literal
                )
        elif head and tail > count:
            before = holds[names[tail - 1]]
            first = out.incumbent.by_task[holds[names[head - 1]].first]
            begin = first.start - first.lead.total
            model.add(end_of(out, before.last) + before.tail <= begin).only_enforce_if(literal)

    for g in range(count + 1):
        after = g + 1 if g < count else 0
        if after or g:
            arc(g, after)
        for f in range(len(free)):
            arc(g, count + 1 + f)
            arc(count + 1 + f, after)
    for f in range(len(free)):
        for h in range(len(free)):
            if f != h:
                arc(count + 1 + f, count + 1 + h)
    for f, (_, literal) in enumerate(free):
        arcs.append((count + 1 + f, count + 1 + f, ~literal))
    if not frozen:
        arcs.append((0, 0, model.new_bool_var(f"unused{unit}")))
    model.add_circuit(arcs)


def end_of(out: Variables, task: int) -> Linear:
    """End of a task: variable, or where the incumbent has it."""
    shown = out.tasks.get(task)
    return out.incumbent.by_task[task].end if shown is None else shown.end
