"""What every step from guests to batches looks things up in."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field

from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import Converter
from planner.kitchen.flow import Flows
from planner.quantities.effort import Efforts
from planner.quantities.timing import Calendar


@dataclass(frozen=True)
class Kitchenry:
    """What every step of the computation looks things up in."""

    catalog: Catalog
    converter: Converter
    flows: Flows
    efforts: Efforts
    calendar: Calendar
    date: dt.date
    eaten: Mapping[str, float] = field(default_factory=dict)
    """Finished grams by component that were there earlier on the day and have been used."""
