"""Repeated tests against weighted least squares."""

import numpy as np
import pytest
import statsmodels.api as sm

from planner.yields.repeats import Load, repeated


def test_ratio_of_sums_is_weighted_least_squares() -> None:
    rng = np.random.default_rng(1)
    into = rng.uniform(500, 5000, 12)
    out = into * (0.85 + rng.normal(0, 0.02, 12))
    found = repeated([Load(float(a), float(b)) for a, b in zip(into, out, strict=True)])
    fit = sm.WLS(out / into, np.ones(12), weights=into).fit()
    assert found.mean == pytest.approx(fit.params[0])
    assert found.noise == pytest.approx(fit.scale)
    assert found.standard_error == pytest.approx(fit.bse[0])


def test_a_large_load_counts_for_more() -> None:
    found = repeated([Load(1000, 500), Load(9000, 8100)])
    assert found.mean == pytest.approx(0.86)  # the mean of the percentages would be 0.70
    assert (found.low, found.high) == (0.5, 0.9)


def test_one_load_has_no_spread() -> None:
    found = repeated([Load(1000, 870)])
    assert (found.mean, found.spread, found.standard_error) == (0.87, None, None)


def test_no_load() -> None:
    with pytest.raises(ValueError, match="no test"):
        repeated([])
