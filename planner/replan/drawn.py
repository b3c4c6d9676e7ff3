"""How much of each component a lot takes from each lot before it.

A lot says how many grams it takes from another in all. Where lots hold food for several components,
what it takes of each follows from what it needs of each: the table of sources and components is
fitted to both totals, a few rounds by rows and columns in turn.
"""

from collections import defaultdict

from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.lots.types import Lot, Workload

_ROUNDS = 25

Draws = dict[tuple[int, str], float]
"""Grams by (lot that gives, component)."""


def draws_of(catalog: Catalog, converter: Converter, workload: Workload, lot: Lot) -> Draws:
    """Grams that ``lot`` takes, by lot and component; they add up to what its ``upstream`` says."""
    own: list[tuple[int, float, list[str]]] = []
    inputs: list[tuple[int, float, list[str]]] = []
    carried = {share.component: share.grams for share in lot.shares}
    joining = _joining(catalog, converter, lot)
    for index, grams in lot.upstream:
        source = workload.lots[index]
        given = [share.component for share in source.shares]
        mine = [name for name in given if name in carried]
        if source.step == lot.step - 1 and mine:
            own.append((index, grams, mine))
        else:
            inputs.append((index, grams, [name for name in given if name in joining] or given))
    stock = dict(lot.stock)
    return {
        **_fitted(own, _scaled(own, carried, stock), stock),
        **_fitted(inputs, _scaled(inputs, joining, stock), stock),
    }


def _joining(catalog: Catalog, converter: Converter, lot: Lot) -> dict[str, float]:
    """What goes in at the lot's step, in the proportions of its recipes."""
    found: dict[str, float] = defaultdict(float)
    for share in lot.shares:
        for taken in catalog.components[share.component].inputs:
            if taken.after_step == lot.step:
                weight = 1.0 if taken.amount is None else converter.grams(taken.item, taken.amount)
                found[taken.item] += weight * share.grams
    return found


def _scaled(
    sources: list[tuple[int, float, list[str]]], weights: dict[str, float], stock: dict[str, float]
) -> dict[str, float]:
    """What is needed of each component: by its weight, of all that comes from lots and stock."""
    names = {name for _, _, given in sources for name in given}
    total = sum(grams for _, grams, _ in sources) + sum(stock.get(name, 0.0) for name in names)
    whole = sum(weights.get(name, 1.0) for name in names)
    return {name: total * weights.get(name, 1.0) / whole for name in names} if whole else {}


def _fitted(
    sources: list[tuple[int, float, list[str]]], needed: dict[str, float], stock: dict[str, float]
) -> Draws:
    wanted = {name: max(0.0, grams - stock.get(name, 0.0)) for name, grams in needed.items()}
    table: Draws = {
        (index, name): max(wanted.get(name, 0.0), 1e-9)
        for index, _, given in sources
        for name in given
    }
    for _ in range(_ROUNDS if any(len(given) > 1 for _, _, given in sources) else 1):
        for name, grams in wanted.items():
            column = [key for key in table if key[1] == name]
            have = sum(table[key] for key in column)
            for key in column:
                table[key] *= grams / have if have else 0.0
        for index, grams, given in sources:
            have = sum(table[index, name] for name in given)
            for name in given:
                table[index, name] = (
                    table[index, name] * grams / have if have else grams / len(given)
                )
    return table
