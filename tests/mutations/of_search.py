"""Rules of what comes before the model: windows, leads, and the constructive placing."""

from tests.mutations.mutation import within

PLACED = (
    "tests/schedule/test_state.py",
    "tests/outside/test_optimum.py",
    "tests/schedule/test_reinsert.py",
)

WINDOWS = within(
    "planner/schedule/windows.py",
    ("tests/schedule/test_windows.py", "tests/outside/test_optimum.py"),
    (
        "nothing starts before its release",
        "start = max(task.release, problem.start)",
        "start = problem.start",
    ),
    (
        "nothing ends after it is of use",
        "end = problem.horizon if task.until is None else min(problem.horizon, task.until)",
        "end = problem.horizon",
    ),
    ("no work within a break", "low = next_free(away, low, minutes)", "pass"),
    (
        "a set-up after the shift's start",
        "low = max(start, worker.start + set_up)",
        "low = max(start, worker.start)",
    ),
    (
        "no end before what is fresh",
        "end = max(low + minutes, least_end)",
        "end = low + minutes",
    ),
    ("only waits of what is surely made bind", "if tasks[wait.before].lot in certain:", "if True:"),
    ("no end after the cook's latest", "if end <= worker.latest_end:", "if True:"),
    (
        "only what is surely made must still follow",
        "if tasks[wait.after].lot == task.lot:",
        "if True:",
    ),
    (
        "waits push what follows",
        "start = max(start, soonest[wait.before] + wait.minimum)",
        "start = max(start, 0)",
    ),
)

LEADS = within(
    "planner/schedule/leads.py",
    ("tests/schedule/test_leads.py", "tests/outside/test_optimum.py"),
    (
        "a clean on leaving raw animal food",
        "raw = before.raw_animal is not None and before.raw_animal != after.raw_animal",
        "raw = False",
    ),
    (
        "a clean on leaving an allergen",
        "return raw or not before.allergens <= after.allergens",
        "return raw",
    ),
    ("the first task has its set-up", "return Lead(set_up=after.set_up)", "return Lead()"),
    ("nothing between tasks of one family", "if before == after:", "if False:"),
    (
        "a changeover to another station",
        "changeover = walks.get((before.station, after.station), changeovers.another_station)",
        "changeover = 0",
    ),
    (
        "a changeover to another operation",
        "changeover = changeovers.another_operation",
        "changeover = 0",
    ),
    ("a changeover to another food", "changeover = changeovers.another_food", "changeover = 0"),
    (
        "a hand-wash where a clean is due",
        "wash = changeovers.hand_wash if needs_clean(before.hygiene, after.hygiene) else 0",
        "wash = 0",
    ),
    (
        "every batch has its set-up",
        "return Lead(set_up=after.set_up, changeover",
        "return Lead(set_up=0, changeover",
    ),
    ("the table has the set-up", "else up\n", "else 0\n"),
    ("the table has the hand-wash", "+ washes[h]", "+ 0"),
    (
        "the table has the station",
        "to[s]\n                        if s != at",
        "0\n                        if s != at",
    ),
    ("the table has the operation", "else by_operation", "else 0"),
    ("the table has the food", "else by_food", "else 0"),
    (
        "the table has a first task",
        "rows.append(tuple(family.set_up for family in families))",
        "rows.append(tuple(0 for family in families))",
    ),
)

STATE = within(
    "planner/schedule/state.py",
    PLACED,
    ("a hold fills its pool", "self._fill(spec.resource, start, end, spec.units)", "pass"),
    ("a hold given back empties it", "self._fill(spec.resource, *taken, -spec.units)", "pass"),
    (
        "a hold lasts for its tail",
        "end = self.entries[spec.last].end + spec.tail",
        "end = self.entries[spec.last].end",
    ),
    ("a full pool is waited for", "if not window or max(window) <= room:", "if True:"),
    (
        "a hold that never fits is left",
        "if room < 0:\n            return None",
        "room = max(0, room)",
    ),
    ("a unit in use is waited for", "if at and uses[at - 1][1] > start:", "if False:"),
    (
        "a unit is not dirtied for who has it next",
        "if at < len(uses) and self.soils(uses[at]",
        "if False and self.soils(uses[at]",
    ),
    ("a dirty unit is cleaned", "before is not None\n", "False\n"),
    (
        "what is cleaned anyhow is not soiled",
        "return hold not in self.entries[self.tables.problem.holds[hold].first].cleaned",
        "return False",
    ),
)

PLACING = within(
    "planner/schedule/placing.py",
    PLACED,
    ("nothing ends after it is of use", "latest = min(latest, spec.until)", "pass"),
    (
        "nobody works before the shift",
        "low = line[position - 1].end if position else person.start",
        "low = line[position - 1].end if position else state.low",
    ),
    (
        "fresh food ends no sooner than it may",
        "earliest = max(earliest, spec.earliest_end - minutes)",
        "pass",
    ),
    ("nobody works after the latest end", "latest = min(latest, person.latest_end)", "pass"),
    ("the lead behind does not grow without room", "if grown > 0:", "if False:"),
    ("the lead behind is not overrun", "high = min(high, following.busy)\n", "pass\n"),
    ("a clean does not reach into work before", "if retry == start and busy < low:", "if False:"),
    ("nobody works in a break", "if busy < until and begin < end:", "if False:"),
    ("a full pool is waited for", "retry = max(retry, free + lead)", "pass"),
    ("a clean is part of the lead", "lead += len(cleaned) * problem.changeovers.clean", "pass"),
    ("a unit in use is waited for", "if at and uses[at - 1][1] > begin:", "if False:"),
    (
        "a unit is not dirtied for who has it next",
        "state.soils(uses[at], onward)",
        "False",
    ),
)

TOGETHER = within(
    "planner/schedule/together.py",
    PLACED,
    (
        "nothing starts before its release",
        "tables.problem.tasks[task].release, tables",
        "0, tables",
    ),
    ("least minutes of a wait", "earliest = max(earliest, entry.end + wait.minimum)", "pass"),
    ("what waits is not overtaken", "latest = min(latest, entry.start - wait.minimum)", "pass"),
    ("most minutes of a wait", "if excess > 0:", "if False:"),
    ("a vessel is free until it is given back", "if free > opener.busy:", "if False:"),
)

REFINE = within(
    "planner/schedule/neighbourhoods.py",
    ("tests/outside/test_job_shops.py",),
    (
        "the search goes on where a kind finds nothing",
        "found = _KINDS[kind](self, rng) or _window(self, rng)",
        "found = _KINDS[kind](self, rng)",
    ),
)

ALL = (*WINDOWS, *LEADS, *STATE, *PLACING, *TOGETHER, *REFINE)
