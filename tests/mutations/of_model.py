"""Rules of the CP-SAT model: variables, constraints, objective."""

from tests.mutations.mutation import within

OPTIMUM = (
    "tests/schedule/test_model.py",
    "tests/outside/test_optimum.py",
    "tests/outside/test_held.py",
)

MODEL = within(
    "planner/schedule/model.py",
    OPTIMUM,
    (
        "least minutes of a wait",
        "limits = [out.model.add(after >= before + wait.minimum)]",
        "limits = [out.model.add(after >= 0)]",
    ),
    (
        "most minutes of a wait",
        "limits.append(out.model.add(after <= before + wait.maximum))",
        "pass",
    ),
    ("a wait binds only what is made", "limit.only_enforce_if(literals)", "pass"),
    ("what is made needs what it takes from", "out.model.add(done <= needed)", "pass"),
    ("an earlier term is held at what was reached", "model.add(target <= reached)", "pass"),
    ("a term known beforehand is held", "model.add(target <= known)", "pass"),
    (
        "a term is taken as known only while no earlier one got better",
        "if known <= floor and as_before:",
        "if known <= floor:",
    ),
    ("a step of an earlier term outweighs all later ones", "= reach + 1", "= 1"),
)

VARIABLES = within(
    "planner/schedule/variables.py",
    OPTIMUM,
    (
        "each task of a job that is made has one cook",
        "model.add(sum(does.values()) == present)",
        "model.add(sum(does.values()) <= 1)",
    ),
    (
        "work of one length lasts that long",
        "return start + minutes.pop()",
        "return start + 1",
    ),
    (
        "fresh food ends no sooner than it may",
        "bound = model.add(end >= task.earliest_end)",
        "bound = model.add(end >= 0)",
    ),
    (
        "what is held at a minute starts by it",
        "limit = model.add(start <= task.start_by)",
        "limit = model.add(start >= 0)",
    ),
    (
        "wanted jobs are sure only while nothing is short",
        "kept = frozenset() if short_portions(tables, set(incumbent.done)) else tables.wanted",
        "kept = tables.wanted",
    ),
    (
        "tasks keep to their windows",
        "low, high = out.tables.earliest[task], out.tables.latest[task]",
        "low, high = out.tables.problem.start, out.tables.problem.horizon",
    ),
)

OBJECTIVE = within(
    "planner/schedule/objective.py",
    OPTIMUM,
    (
        "a promise is as short as each of its components",
        "out.model.add(short >= sum(part.missing))",
        "out.model.add(short >= 0)",
    ),
    ("portions short are weighted", "total += weight * short", "total += short"),
    (
        "minutes late count",
        "limit = model.add(late >= out.tasks[index].end - task.due)",
        "limit = model.add(late >= 0)",
    ),
    (
        "only what is made is late",
        "limit = model.add(late >= out.tasks[index].end - task.due)\n"
        "        if present is not True:",
        "limit = model.add(late >= out.tasks[index].end - task.due)\n        if False:",
    ),
    (
        "minutes late are weighted",
        "total, most = total + task.due_weight * late,",
        "total, most = total + late,",
    ),
    (
        "leads are labor",
        "for w, literal in shown.does.items()) + shown.lead",
        "for w, literal in shown.does.items())",
    ),
    (
        "work is labor",
        "total += sum(task.minutes[w] * literal for w, literal in shown.does.items()) + shown.lead",
        "total += shown.lead",
    ),
    (
        "overtime is labor",
        "model.add(overtime[worker] >= shown.end - person.end).only_enforce_if(literal)",
        "pass",
    ),
    (
        "minutes before the due time count",
        "limit = model.add(early >= task.due - out.tasks[index].end)",
        "limit = model.add(early >= 0)",
    ),
    (
        "minutes before the due time are weighted",
        "total, most = total + task.fresh_weight * early,",
        "total, most = total - task.fresh_weight * early,",
    ),
    (
        "the finish is no sooner than any end",
        "limit = model.add(finish >= shown.end)",
        "limit = model.add(finish >= 0)",
    ),
)

SEQUENCES = within(
    "planner/schedule/sequences.py",
    OPTIMUM,
    (
        "a cook does one thing at a time",
        "    model.add_no_overlap(intervals)\n    if free",
        "    if free",
    ),
    # That ``busy`` and ``end`` lie a lead and the minutes apart is stated twice, there and here;
    # either alone is enough.
    (
        "a cook is busy for the lead and the work",
        "size = out.tables.problem.tasks[shown.task].minutes[worker] + shown.lead",
        "size = shown.lead",
    ),
    (
        "nobody works in a break",
        "intervals = add_rests(out, worker, [shown.task for shown in frozen], free)",
        "intervals = []",
    ),
    (
        "nobody works before the shift",
        "model.add(shown.busy >= person.start).only_enforce_if(literal)",
        "pass",
    ),
    (
        "nobody works after the latest end",
        "model.add(shown.end <= person.latest_end).only_enforce_if(literal)",
        "pass",
    ),
    (
        "the order of a line is that of time",
        "model.add(shown.busy >= nodes[tail - 1].end).only_enforce_if(literal)",
        "pass",
    ),
    ("an arc charges the lead", "shown.lead_parts.append(lead * literal)", "pass"),
    (
        "a line is one circuit",
        "~shown.does[worker]) for shown in free]\n    model.add_circuit(arcs)",
        "~shown.does[worker]) for shown in free]",
    ),
    (
        "an arc between dirty holds charges the clean",
        "out.tasks[holds[names[head - 1]].first].lead_parts.append(clean * literal)",
        "pass",
    ),
    (
        "the order on a unit is that of time",
        "model.add(begin >= end_of(out, before.last) + before.tail).only_enforce_if(literal)",
        "pass",
    ),
    (
        "a unit's holds are one circuit",
        "for f, (_, literal) in enumerate(free)]\n    model.add_circuit(arcs)",
        "for f, (_, literal) in enumerate(free)]",
    ),
    (
        "a lead is the sum of its parts",
        "out.model.add(shown.lead == sum(shown.lead_parts))",
        "pass",
    ),
)

PLACES = within(
    "planner/schedule/places.py",
    (*OPTIMUM, "tests/outside/test_job_shops.py"),
    (
        "a pool is never over its capacity",
        "model.add_cumulative(intervals, demands, capacity)",
        "pass",
    ),
    ("a unit is in one hand at a time", "model.add_no_overlap(intervals)", "pass"),
    (
        "a hold has one unit",
        "model.add(sum(on[hold].values()) == out.present[job])",
        "model.add(sum(on[hold].values()) <= 1)",
    ),
    (
        "a place is held for its tail",
        "end = end_of(out, spec.last) + spec.tail",
        "end = end_of(out, spec.last) + 0",
    ),
    (
        "a pool is left out only where hands are fewer",
        "return sum(most.values()) <= capacity",
        "return True",
    ),
    (
        "and only where nothing stays in it by itself",
        "if any(spec.first != spec.last or spec.tail for spec in specs):",
        "if False:",
    ),
)

ALL = (*MODEL, *VARIABLES, *OBJECTIVE, *SEQUENCES, *PLACES)
