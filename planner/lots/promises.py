"""What goes short when a lot is not made."""

from collections import defaultdict

from planner.demand.types import DishDemand
from planner.lots.draft import Draft
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.types import Making, Reason, Share
from planner.schedule.problem import Promise, Serving

OWN = "the kitchen"
"""Stands for the service in promises to the kitchen itself; with a blank it is no service's id."""


class Promises:
    """Portions per dish and service, and what the kitchen wants for itself (pars, batches)."""

    def __init__(self, kit: Kitchenry, demands: tuple[DishDemand, ...]) -> None:
        self._kit = kit
        self._totals = {(d.service, d.dish): d for d in demands}
        self._index: dict[tuple[str, str], int] = {}
        self._promises: list[Promise] = []
        self._given: dict[tuple[object, ...], float] = defaultdict(float)

    def all(self) -> tuple[Promise, ...]:
        """Every promise some lot serves."""
        return tuple(self._promises)

    def of(self, draft: Draft) -> tuple[tuple[Serving, ...], tuple[tuple[str, str, int], ...]]:
        """Servings of a lot that nothing else takes today, and the dishes behind any lot.

        A lot that another lot takes from serves through that one: dropping it drops the other.
        """
        servings: dict[tuple[int, str], int] = defaultdict(int)
        dishes: dict[tuple[str, str], int] = defaultdict(int)
        for part in draft.slices:
            portion = part.need.portion
            making = portion.making
            fraction = part.grams_out / part.need.grams_out * portion.grams / making.grams
            for share in making.want.shares:
                key = (draft.stage.key, portion.component, portion.making_index, share)
                count = self._portions(key, share, fraction)
                dishes[share.service, share.dish] += count
                if is_last_today(draft, making):
                    servings[self._dish(share), portion.component] += count
            if not making.want.shares and is_last_today(draft, making):
                kilos = self._kilos(portion.component, part.grams_out)
                servings[self._own(portion.component), portion.component] += kilos
        return (
            tuple(Serving(p, c, n) for (p, c), n in sorted(servings.items())),
            tuple(
                (service, dish, min(n, self._totals[service, dish].total))
                for (service, dish), n in sorted(dishes.items())
            ),
        )

    def _portions(self, key: tuple[object, ...], share: Share, fraction: float) -> int:
        """Whole portions by running total, so that the lots of a making add up to its share."""
        before = round(share.portions * self._given[key])
        self._given[key] = min(1.0, self._given[key] + fraction)
        return max(1, round(share.portions * self._given[key]) - before)

    def _kilos(self, component: str, grams: float) -> int:
        """Whole kilos by running total, and at least one."""
        before = round(self._given["", component] / 1000)
        self._given["", component] += grams
        return max(1, round(self._given["", component] / 1000) - before)

    def _dish(self, share: Share) -> int:
        key = (share.service, share.dish)
        if key not in self._index:
            demand = self._totals[key]
            self._index[key] = len(self._promises)
            self._promises.append(
                Promise(f"{demand.service}:{demand.dish}", demand.total, demand.weight)
            )
        return self._index[key]

    def _own(self, component: str) -> int:
        key = ("", component)
        if key not in self._index:
            need = self._kit.catalog.components[component]
            self._index[key] = len(self._promises)
            self._promises.append(Promise(f"{OWN}:{need.id}", 1, 1))
        return self._index[key]


def is_last_today(draft: Draft, making: Making) -> bool:
    """Whether a lot is the end of a making's day: no lot of the day takes that food from it."""
    if draft.stage.step != making.last_step - 1:
        return False
    taken_today = making.want.reason is Reason.COMPONENT and making.want.day <= 0
    return not making.finishes or not taken_today
