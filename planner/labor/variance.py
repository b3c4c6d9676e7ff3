"""Why the work took other minutes than planned: volume, mix, rate and changeover.

The split is the one of cost accounting between a budget and what happened, with minutes as what is
spent and grams handled as what they are spent on. Sources: a volume variance is split into quantity
(actual total at the budgeted mix, less the budgeted total) and mix (actual quantities less the
actual total at the budgeted mix), each at the budgeted rate: www.double-entry-bookkeeping.com,
"Sales mix and quantity variances". Labor efficiency is actual hours less the standard hours for
what was made, at the standard rate; the labor rate (here ``wage``) variance is the difference of
the hourly rates times the actual hours: www.accountingcoach.com, "Labor efficiency variance". Those
names mean money per hour by rate; in a kitchen a rate is minutes per kilo, so efficiency is called
``rate`` here.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Self


@dataclass(frozen=True, slots=True)
class Work:
    """One kind of work, such as dicing onions: as planned and as it went.

    Attributes
    ----------
    planned_grams, planned_seconds
        What was to go through it, and hands-on seconds for that.
    made_grams
        What went through it.
    standard_seconds
        What those are worth by the book, where nothing was planned; else the plan's rate counts.
    took_seconds
        Hands-on seconds that it took.
    """

    planned_grams: float
    planned_seconds: int
    made_grams: float
    standard_seconds: int
    took_seconds: int


@dataclass(frozen=True, slots=True)
class Variance:
    """Steps from the plan to what happened, whole units of seconds or of money.

    Each step changes one thing more: so much food as was handled (``at_volume``), in the
    proportions in which it was (``at_mix``), at the rates at which it went (``at_rate``), with the
    minutes between batches as they were (``at_changeover``), by the people who did it at their
    wages (``actual``; of minutes it is the same). The terms are the differences, so they add up to
    the total, whatever is rounded.
    """

    plan: int
    at_volume: int
    at_mix: int
    at_rate: int
    at_changeover: int
    actual: int

    @property
    def volume(self) -> int:
        """Because more or less food was handled."""
        return self.at_volume - self.plan

    @property
    def mix(self) -> int:
        """Because other work was more of it."""
        return self.at_mix - self.at_volume

    @property
    def rate(self) -> int:
        """Because the same work went slower or faster."""
        return self.at_rate - self.at_mix

    @property
    def changeover(self) -> int:
        """Because what lies between batches took longer or shorter."""
        return self.at_changeover - self.at_rate

    @property
    def wage(self) -> int:
        """Because it was done by people with other wages."""
        return self.actual - self.at_changeover

    @property
    def total(self) -> int:
        """Actual less plan."""
        return self.actual - self.plan

    def __add__(self, other: Self) -> "Variance":
        """Both days together."""
        return Variance(*(a + b for a, b in zip(self.levels, other.levels, strict=True)))

    @property
    def levels(self) -> tuple[int, int, int, int, int, int]:
        """The steps in order."""
        return (
            self.plan,
            self.at_volume,
            self.at_mix,
            self.at_rate,
            self.at_changeover,
            self.actual,
        )

    def in_units_of(self, size: int) -> "Variance":
        """The same in larger whole units, such as minutes of 60 seconds; terms still add up."""
        return Variance(*(_rounded(Fraction(level, size)) for level in self.levels))


NO_VARIANCE = Variance(0, 0, 0, 0, 0, 0)


def variance(works: Iterable[Work], planned_leads: int, leads: int) -> Variance:
    """Split a day's minutes, in seconds.

    ``planned_leads`` and ``leads`` are seconds of set-up, changeover, hand-washing and cleaning.
    Where nothing at all was planned, all that was made is volume.
    """
    works = tuple(works)
    planned = sum(work.planned_seconds for work in works)
    took = sum(work.took_seconds for work in works)
    standard = sum((_standard(work) for work in works), Fraction(0))
    planned_grams = sum((Fraction(work.planned_grams) for work in works), Fraction(0))
    made_grams = sum((Fraction(work.made_grams) for work in works), Fraction(0))
    at_volume = Fraction(planned) * made_grams / planned_grams if planned_grams > 0 else standard
    return Variance(
        plan=planned + planned_leads,
        at_volume=_rounded(at_volume) + planned_leads,
        at_mix=_rounded(standard) + planned_leads,
        at_rate=took + planned_leads,
        at_changeover=took + leads,
        actual=took + leads,
    )


def in_money(split: Variance, planned_cents: int, actual_cents: int) -> Variance:
    """The split of a day's seconds in hundredths of the currency.

    Seconds are valued at the plan's average wage, ``planned_cents`` for all that was planned, as a
    labor efficiency variance is valued at the standard rate; what is left to ``actual_cents`` is
    that others did it. Without planned seconds all of it is wages.
    """
    if split.plan <= 0:
        before = planned_cents
        return Variance(before, before, before, before, before, actual_cents)
    per_second = Fraction(planned_cents, split.plan)
    return Variance(
        plan=planned_cents,
        at_volume=_rounded(split.at_volume * per_second),
        at_mix=_rounded(split.at_mix * per_second),
        at_rate=_rounded(split.at_rate * per_second),
        at_changeover=_rounded(split.at_changeover * per_second),
        actual=actual_cents,
    )


def added(splits: Sequence[Variance]) -> Variance:
    """Several days together: each day's mix is its own."""
    return sum(splits, NO_VARIANCE)


def _standard(work: Work) -> Fraction:
    """Seconds that what was made is worth at the plan's rate."""
    if work.planned_grams > 0:
        return work.planned_seconds * Fraction(work.made_grams) / Fraction(work.planned_grams)
    return Fraction(work.standard_seconds)


def _rounded(value: Fraction) -> int:
    """To the nearest whole; halves up, so that a sum does not depend on the sign of its parts."""
    return (2 * value.numerator + value.denominator) // (2 * value.denominator)
