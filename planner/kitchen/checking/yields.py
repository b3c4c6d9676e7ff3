"""Yields are ones a food can have, and trim is a part of what a yield takes off."""

import math
from collections.abc import Iterator

from planner.kitchen.base import OwnShare, OwnYield
from planner.kitchen.catalog import Catalog
from planner.kitchen.checking.recipes import LEAST_OUTPUT, MOST_OF_A_STEP, MOST_OUTPUT
from planner.kitchen.errors import FileError, Place, places
from planner.kitchen.foods import FoodYield
from planner.kitchen.route import stated_fraction
from planner.wording import sentence

_ROUNDING = 1e-6


def check_yields(catalog: Catalog) -> Iterator[FileError]:
    """Yield each fraction, share of trim or product of fractions that cannot be meant."""
    for place, operation in places("operations", catalog.kitchen.operations):
        for below, entry in place.items("yields", operation.yields):
            yield from _fraction(below.field("fraction"), entry.fraction)
            yield from _own(below.field("own"), entry.own)
            yield from _trim(below, entry)
    for place, component in places("components", catalog.kitchen.components):
        for below, step in place.items("route", component.route):
            if step.fraction is not None:
                yield from _fraction(
                    below.field("fraction").field("fraction"), step.fraction.fraction
                )
                yield from _own(below.field("fraction").field("own"), step.fraction.own)
        if component.makes is not None:
            continue  # Its output is measured: the check of recipes sees to it.
        stated = [stated_fraction(catalog, component, i) for i in range(len(component.route))]
        fractions = [1.0 if entry is None else entry.fraction for entry in stated]
        product = math.prod(fractions)
        if max(fractions) <= MOST_OF_A_STEP and not LEAST_OUTPUT <= product <= MOST_OUTPUT:
            yield place.field("route").error(
                f"{product:.3g}",
                sentence(
                    "implausible: the yields of this route come to {n:.3g} ({product})",
                    n=product,
                    product=" x ".join(f"{fraction:g}" for fraction in fractions),
                ),
                sentence(
                    "check each step's yield; together they lie between {n:g} and {n_2:g}",
                    n=LEAST_OUTPUT,
                    n_2=MOST_OUTPUT,
                ),
            )


def _fraction(place: Place, fraction: float) -> Iterator[FileError]:
    if fraction > MOST_OF_A_STEP:
        yield place.error(
            fraction,
            sentence("implausible: 1 kg in would give {n:g} kg out", n=fraction),
            sentence(
                "enter mass out / mass in: 0.89 for 89 percent; above 1 only for what "
                "takes up water, to {n:g} at most",
                n=MOST_OF_A_STEP,
            ),
        )


def _own(place: Place, own: OwnYield | None) -> Iterator[FileError]:
    if own is None:
        return
    yield from _fraction(place.field("fraction"), own.fraction)
    low, high = own.low, own.high
    if (low is not None and low > own.fraction) or (high is not None and high < own.fraction):
        yield place.error(
            f"{own.fraction:g}",
            sentence(
                "the expected yield lies outside its own range, {n} to {n_2}", n=low, n_2=high
            ),
            sentence("enter low <= fraction <= high, or leave the range out"),
        )


def _trim(place: Place, entry: FoodYield) -> Iterator[FileError]:
    own = sum(trim.in_use for trim in entry.trim)
    if own > 1 + _ROUNDING and any(trim.own is not None for trim in entry.trim):
        yield place.field("trim").error(
            f"{own:g}",
            sentence(
                "the kitchen's own shares of trim, with the usual ones beside them, add up to "
                "{n:g} of what is taken off",
                n=own,
            ),
            sentence("lower them to 1 or less, or leave the own shares out"),
        )
    for below, trim in place.items("trim", entry.trim):
        yield from _own_share(below.field("own"), trim.own)
    total = sum(trim.share for trim in entry.trim)
    if total > 1 + _ROUNDING:
        yield place.field("trim").error(
            f"{total:g}",
            sentence("the shares of trim add up to {n:g} of what is taken off", n=total),
            sentence("lower them to 1 or less; what is left to 1 is waste"),
        )
    elif total > 0 and 1 <= entry.fraction <= MOST_OF_A_STEP:
        yield place.field("trim").error(
            f"{total:g}",
            sentence("a yield of {n:g} takes nothing off, so there is no trim", n=entry.fraction),
            sentence("leave the trim out, or enter a yield below 1"),
        )


def _own_share(place: Place, own: OwnShare | None) -> Iterator[FileError]:
    if own is None:
        return
    low, high = own.low, own.high
    if (low is not None and low > own.share) or (high is not None and high < own.share):
        yield place.error(
            f"{own.share:g}",
            sentence(
                "the expected share lies outside its own range, {low} to {high}", low=low, high=high
            ),
            sentence("enter low <= share <= high, or leave the range out"),
        )
