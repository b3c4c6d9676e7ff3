"""Many mornings of one plan, with work that takes more or less than planned.

Each morning draws once what is not known of every figure (a rate that is guessed wrong is wrong all
morning) and once per batch what differs from batch to batch; then the longest way through the
plan's network gives every task its end. All mornings are worked out side by side.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.rates.network import Network, Node
from planner.rates.types import Key
from planner.rates.under_way import above

Floats = NDArray[np.float64]
_AT_ONCE = 2000
"""Mornings worked out side by side: they fit a processor's cache."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """How far a task's minutes are uncertain.

    Attributes
    ----------
    ratio
        Minutes it takes on average / minutes planned.
    keys
        Figures whose doubt it shares with other tasks.
    set_up
        The figure of its set-up.
    spread
        Standard deviation of the logarithm from batch to batch.
    """

    keys: tuple[Key, ...]
    spread: float
    ratio: float = 1.0
    set_up: Key | None = None
    set_up_ratio: float = 1.0


def simulate(
    network: Network,
    doubts: Sequence[Doubt],
    of_keys: Mapping[Key, float],
    *,
    mornings: int,
    seed: int = 1,
) -> Floats:
    """Ends of every task (minutes after midnight), places in the network x mornings.

    Parameters
    ----------
    network
        The plan.
    doubts
        Of each task, by its place in the network.
    of_keys
        Standard deviation of each figure's logarithm.
    mornings
        How many.
    seed
        The same seed gives the same mornings.

    Raises
    ------
    ValueError
        No mornings, or not one doubt for each task.
    """
    if mornings < 1:
        raise ValueError(f"at least one morning is worked out, not {mornings}")
    if len(doubts) != len(network.nodes):
        raise ValueError(f"{len(network.nodes)} tasks need a doubt each, not {len(doubts)}")
    dice = np.random.default_rng(seed)
    parts = [
        _side_by_side(network, doubts, of_keys, min(_AT_ONCE, mornings - done), dice)
        for done in range(0, mornings, _AT_ONCE)
    ]
    return np.concatenate(parts, axis=1)


def _side_by_side(
    network: Network,
    doubts: Sequence[Doubt],
    of_keys: Mapping[Key, float],
    count: int,
    dice: np.random.Generator,
) -> Floats:
    drawn = {key: dice.normal(0.0, sd, count) - sd**2 / 2 for key, sd in sorted(of_keys.items())}
    of_batch = dice.standard_normal((network.batches, count))
    ends = np.empty((len(network.nodes), count))
    for at, (node, doubt) in enumerate(zip(network.nodes, doubts, strict=True)):
        if node.begun is not None:
            if node.ended is None and network.now is not None:
                _condition(node, doubt, drawn, of_batch, network.now, dice)
            ends[at] = _goes_on(node, doubt, drawn, of_batch[node.batch])
            continue
        noise = doubt.spread * of_batch[node.batch] - doubt.spread**2 / 2
        start = _start(node, doubt, drawn, noise, ends)
        work = _times(node.work * doubt.ratio, doubt.keys, drawn, noise)
        np.add(start, work + node.paused, out=ends[at])
    return ends


def _condition(
    node: Node,
    doubt: Doubt,
    drawn: Mapping[Key, Floats],
    of_batch: Floats,
    now: int,
    dice: np.random.Generator,
) -> None:
    """Draw what is left of a batch under way: it takes longer than it has taken."""
    elapsed = now - (node.begun or 0) - node.paused
    if elapsed <= 0 or doubt.spread <= 0:
        return
    known = np.zeros(of_batch.shape[1])
    for key in doubt.keys:
        known = known + drawn[key]
    gone = math.log(elapsed / (node.work * doubt.ratio)) + doubt.spread**2 / 2
    least: Floats = (gone - known) / doubt.spread
    of_batch[node.batch] = above(least, dice.random(size=least.shape))


def _goes_on(node: Node, doubt: Doubt, drawn: Mapping[Key, Floats], z: Floats) -> Floats:
    """When a task that has begun is done, on each morning."""
    if node.ended is not None or node.begun is None:
        return np.full(z.shape, float(node.ended or 0))
    noise = doubt.spread * z - doubt.spread**2 / 2
    done: Floats = (
        node.begun + node.paused + _times(node.work * doubt.ratio, doubt.keys, drawn, noise)
    )
    return done


def _times(
    minutes: float, keys: Sequence[Key], drawn: Mapping[Key, Floats], noise: Floats
) -> Floats:
    """Minutes on each morning, ``minutes`` on average."""
    total = noise
    for key in keys:
        total = total + drawn[key]
    return minutes * np.exp(total)


def _start(
    node: Node, doubt: Doubt, drawn: Mapping[Key, Floats], noise: Floats, ends: Floats
) -> Floats:
    """When the food is first touched, on each morning."""
    free = np.full(ends.shape[1], float(node.present))
    if node.cook_before is not None:
        np.maximum(free, ends[node.cook_before], out=free)
    for away in node.away:
        if away.fixed:
            np.maximum(free, away.end, out=free)
        else:
            free = np.maximum(free, away.start) + (away.end - away.start)
    for before, minutes in node.room_before:
        np.maximum(free, ends[before] + minutes, out=free)
    start = free + node.lead
    if node.set_up:
        keys = () if doubt.set_up is None else (doubt.set_up,)
        start += _times(node.set_up * doubt.set_up_ratio, keys, drawn, noise)
    np.maximum(start, node.floor, out=start)
    for before, minutes in node.food_before:
        np.maximum(start, ends[before] + minutes, out=start)
    return start
