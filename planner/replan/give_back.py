"""Batches given back to the cook who had them before, where that makes nothing worse."""

from planner.check.timetable import check_timetable
from planner.replan.match import Match
from planner.schedule.assemble import Choice, assemble
from planner.schedule.clusters import Clusters, clusters_of, linked
from planner.schedule.placing import place_cluster
from planner.schedule.removal import state_of, take_out
from planner.schedule.score import score_of
from planner.schedule.tables import Tables
from planner.schedule.timetable import Timetable


def given_back(tables: Tables, held: Tables, timetable: Timetable, known: Match) -> Timetable:
    """Take each batch that has changed hands out, and put it in with its old cook if it fits.

    ``held`` are the tables of the same problem with every batch its old cook's alone. A search
    finds plans that are less short or late, and moves more than it must on the way there.
    """
    links = linked(tables, clusters_of(tables))
    best, rank = timetable, _rank(tables, timetable)
    moved = {
        links.of_task[item.task]: item.start
        for item in timetable.assignments
        if _is_moved(held, known, item.task, item.worker)
    }
    for cluster in sorted(moved, key=lambda one: (moved[one], one)):
        tried = _with_old_cook(tables, held, best, links, cluster)
        if tried is None:
            continue
        new = _rank(tables, tried)
        if new <= rank and not check_timetable(tables.problem, tried):
            best, rank = tried, new
    return best


def _is_moved(held: Tables, known: Match, task: int, worker: int) -> bool:
    """Whether a task is with another cook though its old one could do it."""
    before = known.old.get(task)
    return (
        before is not None
        and before.worker != worker
        and list(held.problem.tasks[task].minutes) == [before.worker]
    )


def _with_old_cook(
    tables: Tables, held: Tables, timetable: Timetable, links: Clusters, cluster: int
) -> Timetable | None:
    state = state_of(tables, timetable)
    out = take_out(state, links.tasks[cluster], links.tied)
    if any(links.of_task[task] != cluster for task in out):
        return None  # Something behind it has no room without it.
    state.tables = held
    if not place_cluster(state, links.tasks[cluster], 0.0):
        return None
    choices = {t: Choice(e.worker, e.start, e.end) for t, e in state.entries.items()}
    return assemble(tables, choices, state.unit_of)


def _rank(tables: Tables, timetable: Timetable) -> tuple[int, int]:
    score = score_of(tables, timetable)
    return score.short, score.tardiness
