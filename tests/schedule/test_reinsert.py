"""Taking work out and putting it in again keeps every rule, and finds what is better."""

import random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planner.check.score import score_of as checked_score
from planner.check.timetable import check_timetable
from planner.schedule.assemble import Choice, assemble
from planner.schedule.clusters import clusters_of, linked
from planner.schedule.construct import constructive_plans
from planner.schedule.problem import (
    Family,
    Hold,
    Hygiene,
    Job,
    Problem,
    Resource,
    Task,
    Wait,
    Worker,
)
from planner.schedule.reinsert import Reinsertion
from planner.schedule.removal import state_of, take_out
from planner.schedule.ruins import RUINS, Scene
from planner.schedule.score import Scorer
from planner.schedule.state import State
from planner.schedule.tables import Tables, tables_of
from planner.schedule.timetable import Timetable
from planner.schedule.together import place_cluster
from tests.bench.generate import generate
from tests.outside.random_problems import tiny_problems

SIZES = ("bistro", "house", "hotel")


def settled(tables: Tables, state: State) -> Timetable:
    choices = {t: Choice(e.worker, e.start, e.end) for t, e in state.entries.items()}
    return assemble(tables, choices, state.unit_of, state.rests, state.cleaned())


def scene_of(tables: Tables, state: State) -> Scene:
    rng = random.Random(1)  # noqa: S311 - no secret
    return Scene(tables, linked(tables, clusters_of(tables)), state, rng)


def mornings(size: str) -> tuple[Tables, Timetable]:
    tables = tables_of(generate(size, "tight", 1).problem)
    _, timetable, _ = next(constructive_plans(tables))
    return tables, timetable


@pytest.mark.parametrize("size", SIZES)
def test_a_plan_is_the_same_plan_as_a_state(size: str) -> None:
    tables, timetable = mornings(size)
    state = state_of(tables, timetable)
    assert settled(tables, state) == timetable
    assert Scorer(tables).score(state) == checked_score(tables.problem, timetable)


@pytest.mark.parametrize("size", SIZES)
def test_what_stays_keeps_every_rule_when_work_is_taken_out(size: str) -> None:
    """Jobs that need one that was taken out go with it, as the search never leaves them."""
    tables, timetable = mornings(size)
    links = linked(tables, clusters_of(tables))
    for seed in range(20):
        rng = random.Random(seed)  # noqa: S311 - no secret
        state = state_of(tables, timetable)
        picked = rng.sample(range(len(links.jobs)), 6)
        for cluster in picked:
            picked += [taker for taker in links.takers[cluster] if taker not in picked]
        gone = take_out(state, [links.tasks[c][0] for c in picked], links.tied)
        assert not gone & set(state.entries)
        lots = {tables.problem.tasks[t].lot for t in gone}
        orphans = {j for lot in lots for j in tables.needed_by[lot]}
        left = {tables.problem.tasks[t].lot for t in state.entries}
        if not orphans & left:
            assert check_timetable(tables.problem, settled(tables, state)) == ()


@given(tiny_problems(most_tasks=6, by_clock=True), st.integers(0, 1000))
@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
def test_every_plan_on_the_way_keeps_every_rule(problem: Problem, seed: int) -> None:
    tables = tables_of(problem)
    _, timetable, score = next(constructive_plans(tables))
    search = Reinsertion(tables, timetable, seed)
    for number in range(40):
        search.step(number / 40)
        now = settled(tables, search.state)
        assert check_timetable(problem, now) == ()
    best = search.timetable()
    assert check_timetable(problem, best) == ()
    assert checked_score(problem, best) <= search.best <= score


@pytest.mark.parametrize("size", SIZES)
def test_the_search_gets_better_and_the_same_seed_finds_the_same(size: str) -> None:
    tables, timetable = mornings(size)
    found = []
    for _ in range(2):
        search = Reinsertion(tables, timetable, seed=7)
        for number in range(300):
            search.step(number / 300)
        found.append(search.timetable())
    assert found[0] == found[1]
    assert check_timetable(tables.problem, found[0]) == ()
    assert checked_score(tables.problem, found[0]) < checked_score(tables.problem, timetable)


@pytest.mark.parametrize("kind", sorted(RUINS))
def test_every_kind_finds_work_on_a_large_morning(kind: str) -> None:
    tables, timetable = mornings("hotel")
    scene = scene_of(tables, state_of(tables, timetable))
    for _ in range(10):
        out, first = RUINS[kind](scene, 8)
        assert out
        assert len(out) == len(set(out))
        assert all(0 <= cluster < len(scene.clusters.jobs) for cluster in [*out, *first])


@pytest.mark.parametrize("kind", sorted(RUINS))
def test_no_kind_stumbles_over_an_empty_plan(kind: str) -> None:
    tables, _ = mornings("bistro")
    scene = scene_of(tables, State(tables))
    out, _ = RUINS[kind](scene, 8)
    assert out == []


def test_a_lead_that_was_saved_is_due_again_when_the_work_before_it_is_taken_back() -> None:
    """A cluster that does not fit leaves the work behind it as it was, set-up and all."""
    family = Family("dice", "onion", "board", Hygiene(), set_up=5)
    problem = Problem(
        start=0,
        horizon=100,
        workers=(Worker("ana", 0, 100, 100), Worker("ben", 0, 5, 5)),
        resources=(Resource("board", 1),),
        families=(family,),
        tasks=(
            Task("first", 0, 0, {0: 10}, 0),
            Task("then", 0, 0, {1: 10}, 0),
            Task("behind", 1, 0, {0: 10}, 50),
        ),
        jobs=(Job("pair", (0, 1)), Job("single", (2,))),
        waits=(Wait(0, 1),),
        holds=(Hold(0, 2, 2),),
    )
    state = State(tables_of(problem))
    state.dice = random.Random(1)  # noqa: S311 - no secret
    assert place_cluster(state, [2], 0.0)
    before = state.entries[2], state.pools[0].copy()
    assert not place_cluster(state, [0, 1], 0.0)
    assert (state.entries[2], state.pools[0]) == before
    assert state.entries[2].lead == 5
