"""Property tests: modest by default, the same examples every time under continuous integration."""

import os

from hypothesis import HealthCheck, settings

_SLOW = (HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.data_too_large)
settings.register_profile("local", deadline=None, suppress_health_check=_SLOW)
settings.register_profile(
    "ci", deadline=None, derandomize=True, database=None, suppress_health_check=_SLOW
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "ci" if "CI" in os.environ else "local"))
