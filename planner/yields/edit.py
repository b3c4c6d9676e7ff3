"""Put a yield of the kitchen's own into a kitchen file, or take it out."""

from collections.abc import Mapping
from typing import Any

from planner.entry.edit import EnteredFile, file_bytes
from planner.kitchen.base import OwnShare, OwnYield
from planner.kitchen.catalog import Catalog
from planner.kitchen.json_text import parse_document
from planner.kitchen.reading import read_kitchen
from planner.kitchen.route import NO_LOSS
from planner.yields.keys import YieldKey, yields_of

_Values = dict[str, Any]


def with_own_yield(data: bytes, key: YieldKey, own: OwnYield | None) -> EnteredFile:
    """The file with another yield in use; ``own`` None: the usual one again.

    What the file states stays as it is. Where it states a yield for any cut and ``key`` is of one,
    the entry gets a copy for that cut; where it states none, one of 1 is added.

    Raises
    ------
    LookupError
        The kitchen has no such yield.
    planner.kitchen.errors.KitchenErrors
        The file would be bad.
    """
    kitchen = read_kitchen(data)
    known = yields_of(Catalog(kitchen)).get(key)
    if known is None:
        raise LookupError(f"the kitchen has no yield {key}")
    if known.usual.own == own:
        return EnteredFile(data, changed=False)
    file: _Values = parse_document(data).values
    value = None if own is None else own.model_dump(mode="json", exclude_defaults=True)
    for place in _places(file, key):
        if value is None:
            place.pop("own", None)
        else:
            place["own"] = value
    made = file_bytes(file)
    read_kitchen(made)
    return EnteredFile(made, changed=True)


def with_own_trim(data: bytes, key: YieldKey, own: Mapping[str, OwnShare]) -> EnteredFile:
    """The file with these own shares of the trim in use; who is not in ``own`` is usual again.

    A by-product that the file does not state for this yield is added with a usual share of 0, and
    goes again with its own one.

    Raises
    ------
    LookupError
        The kitchen has no such yield, or its figure stands at a step, which has no trim.
    planner.kitchen.errors.KitchenErrors
        The file would be bad.
    """
    known = yields_of(Catalog(read_kitchen(data))).get(key)
    if known is None or (own and not known.kinds):
        raise LookupError(f"the kitchen has no yield {key} with trim")
    if {one.item: one.own for one in known.trim if one.own is not None} == dict(own):
        return EnteredFile(data, changed=False)
    file: _Values = parse_document(data).values
    for place in _places(file, key):
        kept = []
        stated = {trim["item"]: trim for trim in place.get("trim", [])}
        for item in dict.fromkeys([*stated, *own]):
            trim = {**stated.get(item, {"item": item, "share": 0.0})}
            trim.pop("own", None)
            if item in own:
                trim["own"] = own[item].model_dump(mode="json", exclude_defaults=True)
            if trim["share"] or "own" in trim:
                kept.append(trim)
        place["trim"] = kept
    made = file_bytes(file)
    read_kitchen(made)
    return EnteredFile(made, changed=True)


def with_pulling(data: bytes, level: float, *, by_rule: bool) -> EnteredFile:
    """The file with another level of caution, and whether tests decide by rule.

    Raises
    ------
    planner.kitchen.errors.KitchenErrors
        The file would be bad.
    """
    rules = read_kitchen(data).rules
    if (rules.pull_level, rules.learns_yields) == (level, by_rule):
        return EnteredFile(data, changed=False)
    file: _Values = parse_document(data).values
    file.setdefault("rules", {}).update(pull_level=level, learns_yields=by_rule)
    made = file_bytes(file)
    read_kitchen(made)
    return EnteredFile(made, changed=True)


def _places(file: _Values, key: YieldKey) -> list[_Values]:
    """Where the file states the yield: at the component's own steps, or with the operation."""
    at_steps = [
        step["fraction"]
        for component in file["components"]
        if component["id"] == key.food
        for step in component["route"]
        if step["operation"] == key.operation
        and (step.get("cut") or "") == key.cut
        and step.get("fraction") is not None
    ]
    if at_steps:
        return at_steps
    operation = next(one for one in file["operations"] if one["id"] == key.operation)
    entries: list[_Values] = operation.setdefault("yields", [])
    of_food = [one for one in entries if one["food"] == key.food]
    exact = [one for one in of_food if (one.get("cut") or "") == key.cut]
    if exact:
        return exact
    any_cut = next((one for one in of_food if not one.get("cut")), None)
    made: _Values = (
        {"food": key.food, "fraction": 1.0, "source": NO_LOSS}
        if any_cut is None
        else {name: value for name, value in any_cut.items() if name != "own"}
    )
    if key.cut:
        made["cut"] = key.cut
    entries.append(made)
    return [made]
