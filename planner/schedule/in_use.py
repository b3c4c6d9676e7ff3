"""How long the surfaces and tools of a partial timetable are in use without a clean.

Only where ``Changeovers.clean_every`` is set; see ``cleans`` for what a run is. A place is fit for
work only if its own hold, and those that its run goes on with, end in time.
"""

from bisect import bisect_left

from planner.schedule.cleans import run_begin
from planner.schedule.state import Entry, State, UnitUse


def is_over(state: State, uses: list[UnitUse], at: int, end: int) -> bool:
    """Whether what ends then, right after the use ``at``, is too late for the run of that use."""
    every = state.tables.problem.changeovers.clean_every
    if every is None:
        return False
    holds = state.tables.problem.holds
    latest = end - every
    while run_begin(holds[uses[at][2]], uses[at][0]) >= latest:
        if at == 0 or _is_cleaned(state, uses[at]):
            return False
        at -= 1
    return True


def is_first_over(state: State, hold: int, uses: list[UnitUse], at: int, begin: int) -> bool:
    """Whether a run that ``hold`` begins then and the use ``at`` goes on with lasts too long."""
    every = state.tables.problem.changeovers.clean_every
    if every is None:
        return False
    begun = run_begin(state.tables.problem.holds[hold], begin)
    return _run_end(state, uses, at) > begun + every


def over_when_closed(state: State, hold: int, begin: int, end: int) -> int | None:
    """When the opener of a hold, found to last so long, must begin instead; None: all is well.

    A hold that would have to be cleaned for is remembered in ``wary``: next time it is, at once.
    """
    tables = state.tables
    if tables.problem.changeovers.clean_every is None:
        return None
    spec = tables.problem.holds[hold]
    uses = state.units[spec.resource][state.unit_of[hold]]
    at = bisect_left(uses, (begin,))
    cleaned = hold in state.entries[spec.first].cleaned
    if at and not cleaned and is_over(state, uses, at - 1, end):
        again = begin + 1 if hold in state.wary else begin
        state.wary.add(hold)
        return again
    if (at == 0 or cleaned) and is_first_over(state, hold, uses, at, begin):
        return uses[at][1]
    return None


def cleans_by_clock(state: State, task: int) -> tuple[set[int], set[int]]:
    """Of the contact holds of a task in place: those too late for their run, and those whose run
    would last too long without a clean before them, be it for what comes after.
    """
    late: set[int] = set()
    wished: set[int] = set()
    for hold in state.tables.contact_opens[task]:
        if hold not in state.held:
            continue
        uses, at = _place(state, hold)
        if at and is_over(state, uses, at - 1, uses[at][1]):
            late.add(hold)
        if at and is_over(state, uses, at - 1, max(uses[at][1], _run_end(state, uses, at + 1))):
            wished.add(hold)
    return late, wished


def keeps_runs(state: State, entry: Entry, cleaned: frozenset[int], busy: int) -> bool:
    """Whether the runs that a task in place begins are short enough if its lead begins then."""
    if state.tables.problem.changeovers.clean_every is None:
        return True
    for hold in state.tables.contact_opens[entry.task]:
        if hold in state.held:
            uses, at = _place(state, hold)
            if (at == 0 or hold in cleaned) and is_first_over(state, hold, uses, at + 1, busy):
                return False
    return True


def joined_by(state: State, hold: int) -> list[int]:
    """Holds that come into an older run if this one, cleaned before, is taken out: in order."""
    if state.tables.problem.changeovers.clean_every is None:
        return []
    uses, at = _place(state, hold)
    if not _is_cleaned(state, uses[at]):
        return []
    found = []
    for use in uses[at + 1 :]:
        if _is_cleaned(state, use):
            break
        found.append(use[2])
    return found


def _place(state: State, hold: int) -> tuple[list[UnitUse], int]:
    """The uses of a taken hold's unit, and where among them it is."""
    uses = state.units[state.tables.problem.holds[hold].resource][state.unit_of[hold]]
    return uses, bisect_left(uses, (*state.held[hold], hold))


def _is_cleaned(state: State, use: UnitUse) -> bool:
    return use[2] in state.entries[state.tables.problem.holds[use[2]].first].cleaned


def _run_end(state: State, uses: list[UnitUse], at: int) -> int:
    """End of the uses from ``at`` on that nothing is cleaned between or before; 0 if none."""
    end = 0
    for use in uses[at:]:
        if _is_cleaned(state, use):
            break
        end = use[1]
    return end
