"""How a reader wants quantities and times written."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Preferences:
    """Units and clock of one reader; the plan itself does not depend on them."""

    units: Literal["metric", "us"] = "metric"
    clock: Literal[24, 12] = 24
