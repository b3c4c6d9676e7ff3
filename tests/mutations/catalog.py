"""All mutations. To add one: a line in one of the ``of_`` modules."""

from tests.mutations import (
    of_checker,
    of_model,
    of_numbers,
    of_safety,
    of_search,
    of_yields,
)
from tests.mutations.mutation import Mutation

CATALOG: tuple[Mutation, ...] = (
    *of_model.ALL,
    *of_search.ALL,
    *of_checker.ALL,
    *of_safety.ALL,
    *of_numbers.ALL,
    *of_yields.ALL,
)
