"""The list of mutations keeps up with the code."""

import ast
from collections import Counter

import pytest

from tests.mutations.catalog import CATALOG
from tests.mutations.mutation import ROOT, Mutation

MUST_BE_COVERED = [
    *(f"planner/schedule/{name}.py" for name in ("model", "variables", "objective", "sequences")),
    *(f"planner/schedule/{name}.py" for name in ("places", "windows", "placing", "state", "leads")),
    *(f"planner/check/{name}.py" for name in ("timetable", "holds", "leads", "score", "links")),
    *(f"planner/check/{name}.py" for name in ("minutes", "wants", "vessels")),
]


def name_of(mutation: Mutation) -> str:
    return f"{mutation.file}: {mutation.rule}"


@pytest.mark.parametrize("mutation", CATALOG, ids=name_of)
def test_what_a_mutation_takes_away_is_there_once_and_leaves_python(mutation: Mutation) -> None:
    text = (ROOT / mutation.file).read_text(encoding="utf-8")
    mutant = mutation.applied(text)
    assert mutant != text
    ast.parse(mutant)
    for test in mutation.tests:
        assert (ROOT / test.partition("::")[0]).exists()


def test_no_rule_of_a_file_is_listed_twice() -> None:
    assert max(Counter(map(name_of, CATALOG)).values()) == 1


@pytest.mark.parametrize("file", MUST_BE_COVERED)
def test_every_file_with_rules_has_mutations(file: str) -> None:
    assert sum(mutation.file == file for mutation in CATALOG) >= 4
