"""The extract of USDA SR28, and how a kitchen file's figures agree with it.

SR28 gives refuse as a percent of the food as purchased, and the grams of household measures, which
are of the edible portion [from memory]. So a trim yield is 1 - refuse / 100, and a piece as
purchased weighs grams / (1 - refuse / 100). Refuse is careful home trimming; a kitchen's cuts lose
more.
"""

import csv
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from planner.kitchen.base import Amount
from planner.units import Dimension, standard_unit

EXTRACT = Path(__file__).parent / "data" / "usda_sr28.csv"
SOURCE = "USDA SR28 "
FRACTION_ROUNDING = 0.005
GRAMS_ROUNDING = 0.5
"""SR28 prints whole grams above ten; a kitchen may round again."""
DENSITY_ROUNDING = 0.006
VOLUMES = ("cup", "fl oz", "tbsp", "tsp", "ml")


@dataclass(frozen=True)
class Food:
    """One food: its refuse in percent, and (amount, measure, edible grams) of its measures."""

    name: str
    refuse_percent: float
    measures: tuple[tuple[float, str, float], ...]

    @property
    def trim_yield(self) -> float:
        """Edible portion / as purchased."""
        return 1 - self.refuse_percent / 100

    def edible(self, measure: str) -> float:
        """Edible grams of one ``measure``: that very name, else the only name that starts so."""
        each = {name: grams / amount for amount, name, grams in self.measures}
        if measure in each:
            return each[measure]
        (grams,) = [grams for name, grams in each.items() if name.startswith(measure)]
        return grams

    def as_purchased(self, measure: str) -> float:
        """Grams of that measure before trimming."""
        return self.edible(measure) / self.trim_yield


def read_extract() -> dict[str, Food]:
    """Foods by NDB number."""
    measures: dict[str, list[tuple[float, str, float]]] = {}
    about: dict[str, tuple[str, float]] = {}
    with EXTRACT.open(encoding="utf-8", newline="") as lines:
        for row in csv.DictReader(lines):
            about[row["ndb"]] = (row["name"], float(row["refuse_percent"]))
            measures.setdefault(row["ndb"], []).append(
                (float(row["amount"]), row["measure"], float(row["grams"]))
            )
    return {ndb: Food(name, refuse, tuple(measures[ndb])) for ndb, (name, refuse) in about.items()}


def figures(value: Any, path: str = "") -> Iterator[tuple[str, dict[str, Any]]]:
    """Every object of a kitchen file whose ``source`` cites SR28, with its path."""
    if isinstance(value, dict):
        if str(value.get("source", "")).startswith(SOURCE):
            yield path, value
        for key, below in value.items():
            yield from figures(below, f"{path}.{key}" if path else key)
    elif isinstance(value, list):
        for index, below in enumerate(value):
            yield from figures(below, f"{path}[{index}]")


def disagreements(document: dict[str, Any], extract: dict[str, Food]) -> list[str]:
    """What in a kitchen file cites SR28 and does not follow from it, one sentence each."""
    found = []
    for path, figure in figures(document):
        ndb = figure["source"].removeprefix(SOURCE)[:5]
        food = extract.get(ndb)
        if food is None:
            wrong = ["its food is not in the extract"]
        else:
            wrong = [*_misquoted(figure["source"], food), *_wrong(path, figure, food)]
        found += [f"{path}, '{figure['source']}': {what}" for what in wrong]
    return found


def _misquoted(source: str, food: Food) -> Iterator[str]:
    """Numbers in the source's own words: its refuse, and the grams of its measures."""
    for percent in re.findall(r"refuse ([0-9.]+) ?%", source):
        if float(percent) != food.refuse_percent:
            yield f"its refuse is {food.refuse_percent:g} %"
    known = {grams for _, _, grams in food.measures}
    for quoted in re.findall(r"([0-9.]+) g\b(?! as purchased)", source):
        if float(quoted) not in known:
            yield f"none of its measures weighs {quoted} g"


def _wrong(path: str, figure: dict[str, Any], food: Food) -> Iterator[str]:
    if "fraction" in figure:
        fraction = _yield_of(figure["source"], food)
        if abs(figure["fraction"] - fraction) > FRACTION_ROUNDING:
            yield f"yield {figure['fraction']}, but it says {fraction:.3f}"
    elif "weight" in figure:
        yield from _wrong_weight(path, figure, food)
    elif "g_per_ml" in figure:
        yield from _wrong_density(figure["g_per_ml"], food)
    else:
        yield "no yield, weight or density stands beside the source"


def _yield_of(source: str, food: Food) -> float:
    """``48 g juice, of 109 g as purchased`` is a yield of its own; else refuse gives it."""
    told = re.search(r"([0-9.]+) g\b.* of ([0-9.]+) g as purchased", source)
    return float(told[1]) / float(told[2]) if told else food.trim_yield


def _wrong_weight(path: str, figure: dict[str, Any], food: Food) -> Iterator[str]:
    weight = Amount.parse(figure["weight"])
    unit = standard_unit(weight.unit)
    assert unit is not None
    assert unit.dimension is Dimension.MASS
    # An ingredient is weighed as purchased; a component is trimmed already.
    before = food.trim_yield if path.startswith("ingredients") else 1.0
    known = [grams / amount / before for amount, _, grams in food.measures]
    if all(abs(weight.number * unit.size - grams) > GRAMS_ROUNDING for grams in known):
        yield f"weight {weight}, but its measures weigh {', '.join(f'{g:.1f}' for g in known)} g"


def _wrong_density(g_per_ml: float, food: Food) -> Iterator[str]:
    known = []
    for amount, name, grams in food.measures:
        named = next((unit for unit in VOLUMES if re.match(rf"{unit}\b", name)), None)
        unit = standard_unit(named) if named else None
        if unit is not None:
            known.append(grams / amount / unit.size)
    if all(abs(g_per_ml - density) > DENSITY_ROUNDING for density in known):
        yield f"density {g_per_ml}, but its measures give {', '.join(f'{d:.3f}' for d in known)}"
