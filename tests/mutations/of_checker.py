"""Rules of the independent checker."""

from tests.mutations.mutation import within

PINS = within(
    "planner/check/pins.py",
    ("tests/pins/test_pins.py",),
    ("what is held is a lot of the plan", "if pin.lot not in work_of:", "if False:"),
    (
        "what is held is made",
        "        if a is None:\n            yield Violation(Rule.PIN",
        "        if a is None:\n            continue\n            yield Violation(Rule.PIN",
    ),
    (
        "it stays with its cook",
        "if pin.cook is not None and cooks[a.worker] != pin.cook:",
        "if False:",
    ),
    ("it begins no sooner", "if a.start < pin.begin:", "if False:"),
    (
        "nor later, where it is held to the minute",
        "if pin.exactly and a.start > pin.begin:",
        "if False:",
    ),
)

TIMETABLE = within(
    "planner/check/timetable.py",
    ("tests/check/test_timetable.py",),
    ("there is such a task", "if not 0 <= a.task < len(problem.tasks):", "if False:"),
    ("there is such a cook", "elif not 0 <= a.worker < len(problem.workers):", "elif False:"),
    ("a task is done once", "elif a.task in done:", "elif False:"),
    ("only who can does it", "if a.worker not in task.minutes:", "if False:"),
    (
        "it takes its minutes",
        "elif a.end - a.start - pauses != task.minutes[a.worker]:",
        "elif False:",
    ),
    (
        "it is within the day",
        "if a.start - a.lead.total < problem.start or a.end > problem.horizon:",
        "if False:",
    ),
    ("not before its release", "if a.start < task.release:", "if False:"),
    (
        "fresh food not too soon",
        "if task.earliest_end is not None and a.end < task.earliest_end:",
        "if False:",
    ),
    (
        "what is held at a minute starts by it",
        "if task.start_by is not None and a.start > task.start_by:",
        "if False:",
    ),
    ("not after it is of use", "if task.until is not None and a.end > task.until:", "if False:"),
    (
        "within the shift, its start",
        "if begin < cook.start or a.end > cook.latest_end:",
        "if a.end > cook.latest_end:",
    ),
    (
        "within the shift, its latest end",
        "if begin < cook.start or a.end > cook.latest_end:",
        "if begin < cook.start:",
    ),
    ("not in a break", "if begin < end and a.end > start:", "if False:"),
    ("one thing at a time", "if later.start - later.lead.total < earlier.end:", "if False:"),
    ("leads are as they must be", "if a.lead != lead:", "if False:"),
    ("least minutes of a wait", "if minutes < wait.minimum or too_long:", "if too_long:"),
    (
        "most minutes of a wait",
        "too_long = wait.maximum is not None and minutes > wait.maximum",
        "too_long = False",
    ),
    ("a job is done wholly", "if started and left:", "if False:"),
    ("nothing impossible is done", "if started and job.impossible:", "if False:"),
    ("what is needed is made", "if not made[need]:", "if False:"),
)

HOLDS = within(
    "planner/check/holds.py",
    ("tests/check/test_timetable.py", "tests/outside/test_brute_force.py"),
    (
        "what is taken is given back",
        "if last is None:\n            yield",
        "if last is None:\n            continue\n            yield",
    ),
    ("not given back before it is taken", "if end < begin:", "if False:"),
    ("held from the lead on", "first.start - first.lead.total, last.end", "first.start, last.end"),
    ("held for its tail", "last.end + hold.tail", "last.end"),
    ("a unit is named", "for index in sorted(opens[a.task] - set(named)):", "for index in ():"),
    ("no other unit is named", "if index not in opens[a.task]:", "if False:"),
    ("one unit is named", "elif named.count(index) > 1:", "elif False:"),
    ("there is such a unit", "if not 0 <= unit < what.capacity:", "if False:"),
    ("a unit in one hand at a time", "if stay.begin < longest.end:", "if False:"),
    (
        "also under a longer hold",
        "longest = max(longest, stay, key=lambda each: each.end)",
        "longest = stay",
    ),
    ("no more than the capacity", "if most > what.capacity:", "if False:"),
)

LEADS = within(
    "planner/check/leads.py",
    ("tests/check/test_leads.py", "tests/check/test_timetable.py"),
    (
        "a clean on leaving raw animal food",
        "other_species = before.raw_animal is not None and before.raw_animal != after.raw_animal",
        "other_species = False",
    ),
    (
        "a clean on leaving an allergen",
        "return other_species or bool(before.allergens - after.allergens)",
        "return other_species",
    ),
    ("a clean is charged", "clean = problem.changeovers.clean * cleans", "clean = 0"),
    (
        "another station",
        "if {walk.station, walk.other} == pair),\n            costs.another_station",
        "if False), 0",
    ),
    ("another operation", "changeover = costs.another_operation", "changeover = 0"),
    ("another food", "changeover = costs.another_food", "changeover = 0"),
    (
        "a hand-wash",
        "wash = costs.hand_wash if leaves_behind(was.hygiene, family.hygiene) else 0",
        "wash = 0",
    ),
    ("cleans between users of a unit", "count[later] += 1", "pass"),
)

SCORE = within(
    "planner/check/score.py",
    ("tests/check/test_score.py",),
    ("short by promise weight", "problem.promises[promise].weight * max", "max"),
    (
        "as short as the shortest component",
        "max(by_component.values())",
        "sum(by_component.values())",
    ),
    (
        "minutes late, weighted",
        "task.due_weight * max(0, a.end - task.due)",
        "max(0, a.end - task.due)",
    ),
    (
        "minutes early, weighted",
        "task.fresh_weight * max(0, task.due - a.end)",
        "max(0, task.due - a.end)",
    ),
    (
        "leads are labor",
        "pauses_in(problem, breaks, a) + a.lead.total",
        "pauses_in(problem, breaks, a)",
    ),
    ("overtime is labor", "for a in done)\n        + overtime", "for a in done)"),
    ("each cook's last end", "max(a.end, last.get(a.worker, a.end))", "a.end"),
    ("the finish is from the start", "max(last.values()) - problem.start", "max(last.values())"),
)

QUANTITIES = ("tests/check/test_quantities.py::test_a_single_change_breaks_its_rule",)

LINKS = within(
    "planner/check/links.py",
    QUANTITIES,
    ("a job per lot", "if len(lots) != len(problem.jobs):", "if False:"),
    (
        "a job has its lot's tasks",
        "if set(job.tasks) != {item.task for item in lot.tasks}:",
        "if False:",
    ),
    (
        "no wait for what is not needed",
        "if problem.tasks[before].lot not in _needed(problem, problem.tasks[after].lot):",
        "if False:",
    ),
    (
        "a lot needs what it takes from",
        "if source.index not in problem.jobs[lot.index].needs:",
        "if False:",
    ),
    (
        "it waits long enough for it",
        "if not any(wait.minimum >= least for wait in stated):",
        "if False:",
    ),
    ("and not too long", "if most is not None and not any(", "if False and not any("),
    ("trim is there before it is used", "if not covers(there, grams):", "if False:"),
    ("unattended minutes of the route", "if lot.unattended != alone:", "if False:"),
    (
        "not taken out too soon",
        "if not any(wait.minimum >= alone for wait in stated):",
        "if False:",
    ),
    ("taken out in time", "if within is not None and not any(", "if False and not any("),
    ("a lot names its allergens", "if not allergens <= lot.allergens:", "if False:"),
    ("surfaces are told of allergens", "if not own <= hygiene.allergens:", "if False:"),
    (
        "raw animal food is told of",
        "if (raw and known != raw) or (not raw and known is not None):",
        "if not raw and known is not None:",
    ),
    (
        "and nothing else is called raw",
        "if (raw and known != raw) or (not raw and known is not None):",
        "if raw and known != raw:",
    ),
)

MINUTES = within(
    "planner/check/minutes.py",
    QUANTITIES,
    (
        "book minutes follow the rate",
        "if abs(item.book_minutes - expected[item.part]) >",
        "if False and 1 >",
    ),
    ("only with skill and station", "if index in minutes and pace is None:", "if False:"),
    (
        "a station is learnt",
        "if cook.stations is not None and operation.station not in cook.stations:",
        "if False:",
    ),
    ("at least a minute", "if minutes.get(index, 1) < 1:", "if False:"),
    (
        "checks and take-outs follow the pace",
        "if not needed - _EXACT <= minutes[index] <= needed + _ROUNDING:",
        "if False:",
    ),
    ("a stage follows the pace", "if sum(planned) < sum(needed) - _ROUNDING:", "if False:"),
    (
        "each lot follows the pace",
        "if not least - _ROUNDING - tiny <= minutes <= max(1.0, least) + 2 * _ROUNDING:",
        "if False:",
    ),
)

WANTS = within(
    "planner/check/wants.py",
    QUANTITIES,
    ("what is wanted today is made", "if not covers(have, wanted):", "if False:"),
    ("lots make what a step should", "if not near(lots, step.grams_out):", "if False:"),
    ("a step gets what it works on", "if not covers(coming, step.grams_in):", "if False:"),
    (
        "nothing that nobody needs",
        "if component == need.component and index not in by_index and not near(grams, 0.0):",
        "if False:",
    ),
    ("portions are wanted", "if not covers(wanted[item, service], grams):", "if False:"),
)

VESSELS = within(
    "planner/check/vessels.py",
    QUANTITIES,
    ("no lot over its limit", "if not covers(limit, lot.grams_in):", "if False:"),
    ("no more vessels than a lot may have", "if units > use.max_units:", "if False:"),
    ("vessels enough", "if sum(hold.units for hold in held) < units:", "if False:"),
    (
        "held until it is done",
        "if hold.last != (work if finish is None else finish) or alone:",
        "if False:",
    ),
    ("at its largest", "largest = max(lot.grams_in, lot.grams_out)", "largest = lot.grams_in"),
)

ALL = (*PINS, *TIMETABLE, *HOLDS, *LEADS, *SCORE, *LINKS, *MINUTES, *WANTS, *VESSELS)
