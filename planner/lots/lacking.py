"""Who gets raw food that is short, and what lacks it, through every component that takes from it.

A pot that needs a kilo of leeks more than there are must not hold up the leeks that are there: what
lacks something goes into lots of its own. And what cannot be made for want of one thing holds back
nothing else: its other food is given to those who can use it.
"""

import math
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace

from planner.demand.types import DishDemand
from planner.lots.stages import Portion, portions_of
from planner.measures import AsPurchased
from planner.quantities.compute import all_draws, plated
from planner.quantities.kitchenry import Kitchenry
from planner.quantities.order import consumers_first
from planner.quantities.supply import Allotment, Draw, DrawKey, allotments_of, in_turn
from planner.quantities.types import ComponentNeed, Making, Quantities, Reason, Supply, Want
from planner.wording import sentence

_LEAST = 1e-6
_ROUNDS = 6
"""Times that food is given out again after what cannot be made has stepped back."""

_Taker = tuple[str, int]
"""Consumer and making index (below 0: a dish that takes food as it is)."""
_Dish = tuple[str, str]
"""Service and dish."""
_Lacks = dict[str, float]
"""Fraction that lacks an item, by the raw food that it is."""


@dataclass(frozen=True, slots=True)
class Shared:
    """Food as it is given out: portions of every component, and who gets which raw food."""

    portions: tuple[Portion, ...]
    allotted: dict[DrawKey, list[Allotment]]


def share_out(kit: Kitchenry, demands: tuple[DishDemand, ...], quantities: Quantities) -> Shared:
    """Give out raw food, first wanted first served, to those who can do something with it.

    Whoever lacks one thing steps back behind all others for every other thing, and food is given
    out again, until that changes nothing.
    """
    draws = all_draws(kit, demands, quantities.needs)
    plates = plated(kit, demands)
    back: dict[_Taker, _Lacks] = {}
    for _ in range(_ROUNDS):
        turns = in_turn(part for draw in draws for part in _in_two(draw, back))
        allotted = allotments_of(kit.catalog, kit.converter, turns, kit.date)
        found = _portions(kit, quantities, allotted, back)
        now = _stepping_back(found, allotted, plates, quantities)
        if now == back:
            break
        back = now
    ordered = [one for need in quantities.needs for one in found.get(need.component, [])]
    return Shared(tuple(ordered), allotted)


def _in_two(draw: Draw, back: dict[_Taker, _Lacks]) -> Iterable[Draw]:
    """The part of a draw that is served in turn, and the part that steps back."""
    part = _lacks_besides(back.get((draw.consumer, draw.making), {}), (draw.ingredient,))
    grams = draw.purchased.grams
    if part < 1 - _LEAST:
        kept = AsPurchased(grams * (1 - part))
        yield replace(draw, purchased=kept, span=(0.0, 1 - part))
    if part > _LEAST:
        yield replace(
            draw, purchased=AsPurchased(grams * part), span=(1 - part, 1.0), steps_back=True
        )


def _portions(
    kit: Kitchenry,
    quantities: Quantities,
    allotted: dict[DrawKey, list[Allotment]],
    back: dict[_Taker, _Lacks],
) -> dict[str, list[Portion]]:
    """Portions by component; what one cannot give its takers follows from what it gets itself."""
    found: dict[str, list[Portion]] = {}
    known = dict(allotted)
    for component in reversed(consumers_first(kit.catalog)):
        need = quantities.by_component.get(component)
        if need is not None:
            found[component] = portions_of(need, known)
            known.update(_passed_on(need, found[component], quantities, back))
    return found


def _passed_on(
    need: ComponentNeed,
    portions: list[Portion],
    quantities: Quantities,
    back: dict[_Taker, _Lacks],
) -> dict[DrawKey, list[Allotment]]:
    """What takers of a component get of it where not all of it is sound; else nothing.

    First what is on hand or surely made, then what should have been begun on an earlier day, then
    what lacks something.
    """
    finished = [one for one in portions if one.making.finishes]
    lacks = tuple(sorted({item for one in finished for item in one.missing}))
    missed = sum(one.grams for one in finished if one.missed and not one.missing)
    if not lacks and not missed:
        return {}
    sound = sum(use.grams for use in need.stock if use.after_step is None)
    sound += sum(one.grams for one in finished if not one.missing and not one.missed)
    shelf = (
        _Part(sound, Supply(sound, 0, sentence("made today"))),
        _Part(missed, Supply(missed, 0, sentence("begun late"), late=True)),
        _Part(math.inf, Supply(0.0, 0, sentence("cannot be made"), available=False, lacks=lacks)),
    )
    given: dict[DrawKey, list[Allotment]] = defaultdict(list)
    for _, _, key, grams, (begin, end) in _queue(need, quantities, back, lacks):
        got = 0.0
        for part in shelf:
            taken = min(grams - got, part.left)
            if taken <= _LEAST:
                continue
            part.left -= taken
            if key is not None:
                first, last = (begin + (end - begin) * g / grams for g in (got, got + taken))
                given[key].append(Allotment(first, last, part.supply))
            got += taken
    return given


@dataclass(slots=True)
class _Part:
    """Grams of a component that are alike: all sound, or all late, or all lacking something."""

    left: float
    supply: Supply


_Turn = tuple[bool, int, DrawKey | None, float, tuple[float, float]]


def _queue(
    need: ComponentNeed,
    quantities: Quantities,
    back: dict[_Taker, _Lacks],
    lacks: tuple[str, ...],
) -> list[_Turn]:
    """Takers of a component in turn: (steps back, due, key or None for a dish, grams, span)."""
    turns: list[_Turn] = []
    for other in quantities.needs:
        for index, making in enumerate(other.makings):
            part = _lacks_besides(back.get((other.component, index), {}), lacks)
            for draw in making.draws:
                if draw.item != need.component:
                    continue
                key = (other.component, index, draw.item, draw.step)
                if part < 1 - _LEAST:
                    turns.append((False, draw.due, key, draw.grams * (1 - part), (0, 1 - part)))
                if part > _LEAST:
                    turns.append((True, draw.due, key, draw.grams * part, (1 - part, 1)))
    turns += [
        (False, want.due, None, want.grams, (0, 1))
        for want in need.wants
        if want.reason is not Reason.COMPONENT and want.day <= 0
    ]
    return sorted(turns, key=lambda one: (one[0], one[1], one[2] is not None, one[2] or ()))


def _lacks_besides(lacks: _Lacks, items: tuple[str, ...]) -> float:
    """Fraction that lacks something other than ``items``."""
    return min(1.0, max((part for item, part in lacks.items() if item not in items), default=0.0))


def _stepping_back(
    found: dict[str, list[Portion]],
    allotted: dict[DrawKey, list[Allotment]],
    plates: list[tuple[Draw, Want]],
    quantities: Quantities,
) -> dict[_Taker, _Lacks]:
    """What each taker lacks: itself, or the dish or component that it is for."""
    own: dict[_Taker, _Lacks] = defaultdict(lambda: defaultdict(float))
    for component, portions in found.items():
        for one in portions:
            for item in one.missing:
                own[component, one.making_index][item] += one.grams / one.making.grams
    dishes = _short_dishes(own, allotted, plates, quantities)
    components = {need.component: _short_part(own, need) for need in quantities.needs}
    wants = [
        ((need.component, index), making.want)
        for need in quantities.needs
        for index, making in enumerate(need.makings)
    ]
    wants += [((draw.consumer, draw.making), want) for draw, want in plates]
    back: dict[_Taker, _Lacks] = {}
    for taker, want in wants:
        lacks = dict(own.get(taker, {}))
        for item, part in _for_nothing(want, dishes, components).items():
            lacks[item] = round(max(part, lacks.get(item, 0.0)), 9)
        if lacks:
            back[taker] = lacks
    return back


def _short_dishes(
    own: dict[_Taker, _Lacks],
    allotted: dict[DrawKey, list[Allotment]],
    plates: list[tuple[Draw, Want]],
    quantities: Quantities,
) -> dict[_Dish, _Lacks]:
    """What each dish lacks: of all it takes, the most of each item."""
    parts: list[tuple[Want, str, float]] = [
        (want, draw.ingredient, part.end - part.begin)
        for draw, want in plates
        for part in allotted.get(draw.key, ())
        if not part.supply.available
    ]
    parts += [
        (making.want, item, lost * _of(making))
        for need in quantities.needs
        for index, making in enumerate(need.makings)
        if making.want.reason is Reason.DISH
        for item, lost in own.get((need.component, index), {}).items()
    ]
    dishes: dict[_Dish, _Lacks] = defaultdict(dict)
    for want, item, lost in parts:
        for share in want.shares:
            lacks = dishes[share.service, share.dish]
            lacks[item] = max(lost, lacks.get(item, 0.0))
    return dishes


def _short_part(own: dict[_Taker, _Lacks], need: ComponentNeed) -> _Lacks:
    """What all that is made of a component lacks."""
    total = sum(making.grams for making in need.makings)
    lacks: _Lacks = defaultdict(float)
    for index, making in enumerate(need.makings):
        for item, part in own.get((need.component, index), {}).items():
            lacks[item] += part * making.grams / total
    return lacks


def _of(making: Making) -> float:
    """Fraction of the portions of a want that a making is for."""
    wanted = sum(share.grams for share in making.want.shares)
    return min(1.0, making.grams / wanted) if wanted > 0 else 0.0


def _for_nothing(want: Want, dishes: dict[_Dish, _Lacks], components: dict[str, _Lacks]) -> _Lacks:
    """What the dish, or the component, that a want is for lacks."""
    if want.reason is Reason.COMPONENT:
        return components.get(want.consumer, {})
    grams = sum(share.grams for share in want.shares)
    lacks: _Lacks = defaultdict(float)
    for share in want.shares:
        for item, part in dishes.get((share.service, share.dish), {}).items():
            lacks[item] += part * share.grams / grams
    return lacks
