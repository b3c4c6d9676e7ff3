"""Which yields a kitchen has: one for each food, operation and cut, found along the routes."""

from collections import defaultdict
from dataclasses import dataclass

from planner.kitchen.base import Fraction
from planner.kitchen.catalog import Catalog
from planner.kitchen.foods import Component, Trim
from planner.kitchen.route import NO_LOSS, food_yield, usual_fraction, worked_foods
from planner.kitchen.work import Caution

_SPLIT = "/"
_TAKES_WEIGHT = frozenset({Caution.HOT_FAT, Caution.STEAM, Caution.HOT_SURFACE})


@dataclass(frozen=True, slots=True, order=True)
class YieldKey:
    """What a yield is of: ids of food and operation, and of the cut where the step has one."""

    food: str
    operation: str
    cut: str = ""

    def __str__(self) -> str:
        return _SPLIT.join((self.food, self.operation, self.cut)).rstrip(_SPLIT)

    @classmethod
    def parse(cls, text: str) -> "YieldKey":
        """Back from text; raise ValueError where it names none."""
        parts = text.split(_SPLIT)
        if len(parts) not in (2, 3) or not parts[0] or not parts[1]:
            raise ValueError(f"{text}: a yield is named by food/operation or food/operation/cut")
        return cls(*parts)


@dataclass(frozen=True, slots=True)
class KitchenYield:
    """A yield of the kitchen file.

    Attributes
    ----------
    usual
        The file's figure with its source, and the kitchen's own where one is in use.
    used_by
        Names of the components whose routes use it, in the file's order.
    supplier
        Who the food is bought from now, or empty.
    may_lose, may_gain
        Whether weight goes or comes that no scale sees: heat, water.
    trim
        What the file says of its loss is of use.
    kinds
        By-products that trim of it can be kept as, id and name: those of ``trim`` first, then all
        others of the kitchen. Empty where the file has no place for them.
    """

    key: YieldKey
    food: str
    operation: str
    cut: str
    usual: Fraction
    used_by: tuple[str, ...]
    supplier: str
    may_lose: bool
    may_gain: bool
    trim: tuple[Trim, ...] = ()
    kinds: tuple[tuple[str, str], ...] = ()


def key_of(catalog: Catalog, component: Component, index: int) -> YieldKey | None:
    """What the yield of a step is of; None: it has none of its own, as a recipe's measured step.

    The food is the one that the file states a yield for, else the raw food at the bottom of the
    route. A fraction that stands at the step itself is of the component alone.
    """
    step = component.route[index]
    cut = step.cut or ""
    if step.fraction is not None:
        return YieldKey(component.id, step.operation, cut)
    entry = food_yield(catalog, component, index)
    if entry is not None:
        return YieldKey(entry.food, step.operation, cut)
    if component.makes is not None:
        return None
    return YieldKey(worked_foods(catalog, component)[-1], step.operation, cut)


def yields_of(catalog: Catalog) -> dict[YieldKey, KitchenYield]:
    """Every yield along the kitchen's routes, in the order of the file."""
    users: dict[YieldKey, list[tuple[Component, int]]] = defaultdict(list)
    for component in catalog.kitchen.components:
        for index in range(len(component.route)):
            key = key_of(catalog, component, index)
            if key is not None:
                users[key].append((component, index))
    return {key: _yield(catalog, key, found) for key, found in users.items()}


def _yield(catalog: Catalog, key: YieldKey, found: list[tuple[Component, int]]) -> KitchenYield:
    component, index = found[0]
    operation = catalog.operations[key.operation]
    usual = usual_fraction(catalog, component, index) or Fraction(fraction=1.0, source=NO_LOSS)
    bought = catalog.ingredients.get(key.food)
    food = catalog.foods[key.food]
    at_step = component.route[index].fraction is not None
    entry = None if at_step else food_yield(catalog, component, index)
    trim = () if entry is None else entry.trim
    return KitchenYield(
        key=key,
        food=food.name,
        operation=operation.name,
        cut=catalog.cuts[key.cut].name if key.cut else "",
        usual=usual,
        used_by=tuple(dict.fromkeys(one.name for one, _ in found)),
        supplier=bought.purchase.supplier if bought is not None else "",
        may_lose=operation.cooks_through or bool(operation.cautions & _TAKES_WEIGHT),
        may_gain=usual.fraction > 1,
        trim=trim,
        kinds=() if at_step or usual.fraction >= 1 else _kinds(catalog, trim),
    )


def _kinds(catalog: Catalog, trim: tuple[Trim, ...]) -> tuple[tuple[str, str], ...]:
    stated = [one.item for one in trim]
    others = [
        one.id for one in catalog.kitchen.ingredients if one.by_product and one.id not in stated
    ]
    return tuple((item, catalog.name(item)) for item in (*stated, *others))
