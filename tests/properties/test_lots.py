"""Lots of any small kitchen: no gram appears from nowhere, is used twice, or is forgotten."""

from collections import defaultdict

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.lots.build import workload_of
from planner.lots.types import Workload
from planner.quantities.compute import all_draws, quantities_of
from planner.schedule.tables import tables_of
from tests.kitchens.bench import File, kit_of
from tests.properties.kitchens import kitchens

GRAM = 0.01


def day_of(file: File, *, pooled: bool = True) -> Workload:
    kit = kit_of(file)
    demands, quantities = quantities_of(kit)
    return workload_of(kit, demands, quantities, pooled=pooled)


@settings(max_examples=60)
@given(kitchens(), st.booleans())
def test_what_goes_in_comes_from_somewhere_and_is_used_once(file: File, pooled: bool) -> None:
    work = day_of(file, pooled=pooled)
    taken: dict[int, float] = defaultdict(float)
    for lot in work.lots:
        for source, grams in lot.upstream:
            taken[source] += grams
        inflow = sum(grams for _, grams in (*lot.upstream, *lot.pulls, *lot.stock))
        assert inflow == pytest.approx(lot.grams_in, abs=GRAM)
        assert sum(share.grams for share in lot.shares) == pytest.approx(lot.grams_out, abs=GRAM)
    for lot in work.lots:
        assert taken[lot.index] <= lot.grams_out + GRAM


@settings(max_examples=40)
@given(kitchens(), st.booleans())
def test_lots_pull_what_the_day_draws_from_the_shelf(file: File, pooled: bool) -> None:
    kit = kit_of(file)
    demands, quantities = quantities_of(kit)
    drawn: dict[str, float] = defaultdict(float)
    for draw in all_draws(kit, demands, quantities.needs):
        if draw.making >= 0:
            drawn[draw.ingredient] += draw.purchased.grams
    pulled: dict[str, float] = defaultdict(float)
    for lot in workload_of(kit, demands, quantities, pooled=pooled).lots:
        for item, grams in lot.pulls:
            pulled[item] += grams
    assert dict(pulled) == pytest.approx(dict(drawn), abs=GRAM)


@settings(max_examples=40)
@given(kitchens(), st.booleans())
def test_each_component_makes_what_its_need_says(file: File, pooled: bool) -> None:
    kit = kit_of(file)
    demands, quantities = quantities_of(kit)
    made: dict[tuple[str, int], float] = defaultdict(float)
    for lot in workload_of(kit, demands, quantities, pooled=pooled).lots:
        for share in lot.shares:
            made[share.component, lot.step] += share.grams
    wanted = {
        (need.component, step.index): step.grams_out
        for need in quantities.needs
        for step in need.steps
    }
    assert dict(made) == pytest.approx(wanted, abs=GRAM)


@settings(max_examples=40)
@given(kitchens(), st.booleans())
def test_no_lot_waits_for_itself(file: File, pooled: bool) -> None:
    """Nor for another that waits for it, by whatever route: the tables could not be made."""
    problem = day_of(file, pooled=pooled).problem
    tables_of(problem)
    before: dict[int, set[int]] = {i: set(job.needs) for i, job in enumerate(problem.jobs)}
    placed: set[int] = set()
    while ready := {job for job, needs in before.items() if job not in placed and needs <= placed}:
        placed |= ready
    assert len(placed) == len(before)
