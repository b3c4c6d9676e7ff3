"""All mutations. To add one: a line in ``of_model``, ``of_search`` or ``of_checker``."""

from tests.mutations import of_checker, of_model, of_search
from tests.mutations.mutation import Mutation

CATALOG: tuple[Mutation, ...] = (*of_model.ALL, *of_search.ALL, *of_checker.ALL)
