r"""Set-ups, rates and paces of one skill from its ticked batches.

The planner's own equation is fitted. Batch i of cook c takes

    t_i = S_o [it opens with a set-up] + (e_i + q_i R_r) P_c

with set-up S of its operation, rate R of its food, slowness P of its cook (1 / pace), e_i minutes
that are known and q_i units; log t_i is normal about its logarithm with standard deviation sigma.

- The book is the prior: log S and log R are normal about the file's figure, so that a few batches
  move a figure a little and many batches all the way.
- Cooks are pooled in part: log P_c is normal about the file's with a standard deviation tau that
  is itself learned, so that a cook with few batches is taken to be much like the file says.
- Forgotten ticks (done hours late) and shared ones (ten batches ticked in a row) come from a
  mixture: with chance pi a batch's minutes say nothing and may be anything from a thirtieth to
  thirty times the usual. Each batch counts by the chance that it is none of those.

Expectation maximisation with Gauss-Newton steps; what is known of the figures afterwards is normal
in logarithms with the inverse of the curvature as covariance (Laplace's approximation), averaged
over what tau may be: a handful of cooks say little of it.

Sources: mixtures of a normal and a uniform for outliers, Fraley and Raftery 1998 (from memory);
partial pooling and scaled inverse chi-squared priors of variances, Gelman et al., *Bayesian Data
Analysis*, chapter 5 (from memory).
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.rates.types import Book, Doubtful, Key, Kind, Learned, Observation, SkillRates

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Beliefs:
    """What is held before any tick; all are starting guesses.

    Standard deviations of logarithms, each variance's weight in batches (or cooks), and the share
    of ticks that are wrong, worth ``wrong_weight`` batches.
    """

    set_up: float = 0.6
    rate: float = 0.5
    cooks: float = 0.2
    cooks_weight: float = 4.0
    spread: float = 0.25
    spread_weight: float = 6.0
    wrong: float = 0.08
    wrong_weight: float = 25.0


_REACH = math.log(30)
"""A wrong tick is anything from 1/30 to 30 times the usual."""
_LEAST = 0.1
"""Minutes: two ticks of one second apart are no logarithm's business."""
_ROUNDS = 80
_STEP = 0.5
"""Most that a logarithm moves in one round."""
_STILL = 1e-5
_DOUBTFUL = 0.5
_COOKS_GRID = np.geomspace(0.2, 5.0, 11)
"""Spreads of cooks that are thought of, as multiples of the likeliest."""


def learn_skill(
    observations: Sequence[Observation],
    books: Mapping[Key, Book],
    beliefs: Beliefs | None = None,
) -> SkillRates:
    """Learn the figures that the batches of one skill speak of.

    Raises
    ------
    ValueError
        There are none, or of several skills; a batch has no minutes or units below zero; a figure
        it depends on is not in ``books``.
    """
    held = beliefs or Beliefs()
    _refuse(observations, books)
    design = _Design.of(observations, books, held)
    state = _fit(design, held)
    theta, doubts = _known(design, state, held)
    counts = design.touches.T @ state.inlier
    usual = np.exp(design.predicted(theta)[0])
    return SkillRates(
        skill=observations[0].skill,
        figures=tuple(
            Learned(
                key,
                float(math.exp(theta[i])),
                books[key].value,
                float(doubts[i]),
                float(counts[i]),
            )
            for i, key in enumerate(design.keys)
        ),
        spread=math.sqrt(state.variance),
        cooks_spread=math.sqrt(state.cooks),
        forgotten=state.wrong,
        batches=len(observations),
        doubtful=tuple(
            Doubtful(one, float(usual[i]), float(state.inlier[i]))
            for i, one in enumerate(observations)
            if state.inlier[i] < _DOUBTFUL
        ),
    )


def _refuse(observations: Sequence[Observation], books: Mapping[Key, Book]) -> None:
    if len({one.skill for one in observations}) != 1:
        raise ValueError("learn from batches of one skill, and from at least one")
    for one in observations:
        if not math.isfinite(one.minutes) or one.minutes < 0:
            raise ValueError(f"{one.source}: {one.minutes} minutes; a batch takes zero or more")
        if not (math.isfinite(one.units) and one.units >= 0 and one.fixed >= 0):
            raise ValueError(f"{one.source}: {one.units} units; a batch has zero or more")
        if one.set_up is None and one.fixed == 0 and (one.rate is None or one.units == 0):
            raise ValueError(f"{one.source}: nothing that takes time was done in it")
        for key in (one.cook, one.rate, one.set_up):
            if key is not None and key not in books:
                raise ValueError(f"{one.source}: the kitchen file has no figure for {key}")


@dataclass(slots=True)
class _State:
    theta: Floats
    variance: float
    cooks: float
    wrong: float
    inlier: Floats
    slopes: Floats


@dataclass(frozen=True)
class _Design:
    """Batches as arrays: which of the figures each depends on."""

    keys: tuple[Key, ...]
    prior: Floats
    given: Floats
    """Standard deviations of the prior; of cooks, where it starts."""
    is_cook: NDArray[np.bool_]
    set_up: NDArray[np.intp]
    rate: NDArray[np.intp]
    cook: NDArray[np.intp]
    opens: Floats
    units: Floats
    fixed: Floats
    log_minutes: Floats
    touches: Floats

    @classmethod
    def of(
        cls, observations: Sequence[Observation], books: Mapping[Key, Book], held: Beliefs
    ) -> "_Design":
        used = {
            key
            for one in observations
            for key in (one.set_up, one.rate, one.cook)
            if key is not None
        }
        keys = tuple(sorted(used))
        place = {key: i for i, key in enumerate(keys)}
        sds = {Kind.SET_UP: held.set_up, Kind.RATE: held.rate, Kind.SLOWNESS: held.cooks}
        rows = range(len(observations))
        touches = np.zeros((len(observations), len(keys)))
        for i, one in enumerate(observations):
            for key in (one.set_up, one.rate, one.cook):
                if key is not None:
                    touches[i, place[key]] = 1.0
        # A figure that a batch does not depend on stands in by index 0 with nothing multiplied.
        return cls(
            keys=keys,
            prior=np.array([math.log(books[key].value) for key in keys]),
            given=np.array([sds[key.kind] for key in keys]),
            is_cook=np.array([key.kind is Kind.SLOWNESS for key in keys]),
            set_up=np.array(
                [0 if (k := observations[i].set_up) is None else place[k] for i in rows]
            ),
            rate=np.array([0 if (k := observations[i].rate) is None else place[k] for i in rows]),
            cook=np.array([place[observations[i].cook] for i in rows]),
            opens=np.array([float(one.set_up is not None) for one in observations]),
            units=np.array([one.units if one.rate is not None else 0.0 for one in observations]),
            fixed=np.array([one.fixed for one in observations]),
            log_minutes=np.log(np.array([max(_LEAST, one.minutes) for one in observations])),
            touches=touches,
        )

    def predicted(self, theta: Floats) -> tuple[Floats, Floats]:
        """(log of minutes, its slopes by every figure's logarithm: batches x figures)."""
        at_set_up = self.opens * np.exp(theta[self.set_up])
        slowness = np.exp(theta[self.cook])
        at_rate = self.units * np.exp(theta[self.rate]) * slowness
        total = at_set_up + at_rate + self.fixed * slowness
        slopes = np.zeros_like(self.touches)
        rows = np.arange(len(total))
        np.add.at(slopes, (rows, self.set_up), at_set_up / total)
        np.add.at(slopes, (rows, self.rate), at_rate / total)
        np.add.at(slopes, (rows, self.cook), 1 - at_set_up / total)
        return np.log(total), slopes

    def prior_precision(self, cooks: float) -> Floats:
        """Of each figure's logarithm."""
        return 1 / np.where(self.is_cook, cooks, self.given**2)

    def precision(self, state: _State) -> Floats:
        """Curvature of the logarithm of the posterior: prior and batches together."""
        weighted = state.slopes * (state.inlier / state.variance)[:, None]
        return weighted.T @ state.slopes + np.diag(self.prior_precision(state.cooks))


def _fit(design: _Design, held: Beliefs) -> _State:
    count = len(design.log_minutes)
    state = _State(
        theta=design.prior.copy(),
        # Wide at first, so that a book that is far off is not taken for forgotten ticks.
        variance=(4 * held.spread) ** 2,
        cooks=held.cooks**2,
        wrong=held.wrong,
        inlier=np.ones(count),
        slopes=design.touches,
    )
    n_cooks = int(design.is_cook.sum())
    for _ in range(_ROUNDS):
        predicted, state.slopes = design.predicted(state.theta)
        off = design.log_minutes - predicted
        right = (1 - state.wrong) * np.exp(-(off**2) / (2 * state.variance))
        right /= math.sqrt(2 * math.pi * state.variance)
        state.inlier = right / (right + state.wrong / (2 * _REACH))
        precision = design.precision(state)
        pull = design.prior_precision(state.cooks) * (design.prior - state.theta)
        push = state.slopes.T @ (state.inlier * off / state.variance) + pull
        step = np.clip(np.linalg.solve(precision, push), -_STEP, _STEP)
        covariance = np.linalg.inv(precision)
        state.theta = state.theta + step
        unsure = np.einsum("ij,jk,ik->i", state.slopes, covariance, state.slopes)
        squares = float(state.inlier @ (off**2 + unsure))
        weight = held.spread_weight
        state.variance = (weight * held.spread**2 + squares) / (weight + state.inlier.sum())
        lean = (state.theta - design.prior)[design.is_cook]
        about = float((lean**2 + np.diag(covariance)[design.is_cook]).sum())
        state.cooks = (held.cooks_weight * held.cooks**2 + about) / (held.cooks_weight + n_cooks)
        wrong = held.wrong * held.wrong_weight + float((1 - state.inlier).sum())
        state.wrong = wrong / (held.wrong_weight + count)
        if np.abs(step).max() < _STILL:
            break
    return state


def _known(design: _Design, state: _State, held: Beliefs) -> tuple[Floats, Floats]:
    """(logarithms, their standard deviations), averaged over what the spread of cooks may be.

    Within one round all is linear and normal, so each spread's evidence is a closed form.
    """
    weighted = state.slopes * (state.inlier / state.variance)[:, None]
    data = weighted.T @ state.slopes
    off = design.log_minutes - design.predicted(state.theta)[0]
    from_data = data @ state.theta + weighted.T @ off
    n_cooks = int(design.is_cook.sum())
    means, variances, evidence = [], [], []
    for tau in math.sqrt(state.cooks) * _COOKS_GRID:
        prior = design.prior_precision(tau**2)
        precision = data + np.diag(prior)
        covariance = np.linalg.inv(precision)
        mean = covariance @ (from_data + prior * design.prior)
        lean = mean - design.prior
        misfit = off - state.slopes @ (mean - state.theta)
        quadratic = float(state.inlier @ misfit**2) / state.variance + float(prior @ lean**2)
        determinant = float(np.linalg.slogdet(precision)[1])
        # Scaled inverse chi-squared, of the variance, on a grid that is even in its logarithm.
        weight = held.cooks_weight
        of_tau = -weight * math.log(tau) - weight * held.cooks**2 / (2 * tau**2)
        means.append(mean)
        variances.append(np.diag(covariance))
        evidence.append(of_tau - n_cooks * math.log(tau) - (determinant + quadratic) / 2)
    chance = np.exp(np.array(evidence) - max(evidence))
    chance /= chance.sum()
    mean = chance @ np.array(means)
    variance = chance @ (np.array(variances) + (np.array(means) - mean) ** 2)
    # The spread of batches is not known either: Student's t has so much more variance.
    freedom = held.spread_weight + float(state.inlier.sum())
    return mean, np.sqrt(variance * freedom / (freedom - 2))
