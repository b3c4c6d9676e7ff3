"""Building blocks of the kitchen file: strict frozen models, amounts, clock times, figures."""

import datetime as dt
import re
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
)
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from planner.wording import sentence


class FileModel(BaseModel):
    """A part of the kitchen file: immutable, and no unknown field passes unnoticed."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False, strict=False)


_AMOUNT = re.compile(
    # An exponent is part of the number, never the beginning of a unit: '2e5' has no unit.
    r"^\s*(?P<number>[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?+)\s*(?P<unit>[^\W\d_][\w \-]*?)\s*$"
)
_AMOUNT_REMEDY = sentence("write a number and a unit, such as '60 g', '1.5 l' or '2 each'")
_AMOUNT_MAX = 1e7
_AMOUNT_LENGTH = 80
"""Characters; it also keeps the pattern, which tries every split of a run of spaces, quick."""


class TooLargeError(ValueError):
    """A text that can be read as a number which no kitchen can mean; says what to enter."""


@dataclass(frozen=True, slots=True)
class Amount:
    """A number and the name of its unit, as the kitchen wrote it: ``60 g``, ``2 each``."""

    number: float
    unit: str

    def __str__(self) -> str:
        return f"{self.number:.15g} {self.unit}"

    @classmethod
    def parse(cls, text: object) -> "Amount":
        """Read ``text``; raise ValueError, or TooLargeError, naming the remedy."""
        if isinstance(text, Amount):
            return text
        if not isinstance(text, str) or len(text) > _AMOUNT_LENGTH:
            raise ValueError(_AMOUNT_REMEDY)
        match = _AMOUNT.match(text)
        if match is None:
            raise ValueError(_AMOUNT_REMEDY)
        number = float(match["number"])
        if number > _AMOUNT_MAX:
            raise TooLargeError(
                sentence("enter at most {n:.0f}, or choose a larger unit", n=_AMOUNT_MAX)
            )
        return cls(number, " ".join(match["unit"].split()))

    @classmethod
    def __get_pydantic_core_schema__(
        cls, source: type[Any], handler: GetCoreSchemaHandler
    ) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(
            cls.parse, serialization=core_schema.to_string_ser_schema()
        )

    @classmethod
    def __get_pydantic_json_schema__(
        cls, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        return {
            "type": "string",
            "maxLength": _AMOUNT_LENGTH,
            "pattern": r"^\s*[0-9]+(\.[0-9]+)?\s*[^\s0-9].*$",
            "description": "A number and a unit: '60 g', '1.5 l', '2 each'.",
        }


_CLOCK = re.compile(r"^(?P<hour>[0-9]{2}):(?P<minute>[0-9]{2})$")


def parse_clock(text: object) -> str:
    """Check a wall-clock time ``HH:MM``; ``24:00`` to ``29:59`` run past midnight."""
    match = _CLOCK.match(text) if isinstance(text, str) else None
    if match is None or int(match["hour"]) > 29 or int(match["minute"]) > 59:
        raise ValueError(
            sentence("write a 24-hour time as 'HH:MM'; past midnight goes on to '29:59'")
        )
    return match[0]


def clock_minutes(text: str) -> int:
    """Minutes after midnight of a checked ``HH:MM``."""
    return int(text[:2]) * 60 + int(text[3:])


ClockTime = Annotated[
    str,
    BeforeValidator(parse_clock),
    Field(
        description="On the kitchen's wall, 'HH:MM'; past midnight goes on to '29:59'.",
        json_schema_extra={"pattern": r"^[0-2][0-9]:[0-5][0-9]$"},
    ),
]
ID_PATTERN = r"^[a-z0-9][a-z0-9_]*$"
Id = Annotated[
    str,
    Field(
        pattern=ID_PATTERN,
        max_length=60,
        description="Lower-case letters, digits and underscores; unique in its list.",
    ),
]
Name = Annotated[str, Field(min_length=1, max_length=80, description="What people read.")]
Minutes = Annotated[float, Field(ge=0, le=10_080, description="Minutes.")]
WholeMinutes = Annotated[int, Field(ge=0, le=10_080, description="Whole minutes.")]
Share = Annotated[float, Field(ge=0, le=1, description="A fraction from 0 to 1.")]

STARTING_GUESS = "starting guess"
"""The source of a figure nobody has measured yet."""

Source = Annotated[str, Field(min_length=1, description="Where the figure comes from.")]


class OwnYield(FileModel):
    """What the kitchen itself found a yield to be; it is used in place of the usual figure."""

    fraction: float = Field(gt=0, le=10, description="Mass out / mass in, as it is expected.")
    spread: float = Field(
        default=0.0,
        ge=0,
        le=5,
        description="Standard deviation of the yield of one load; 0: not known, as of a yield that "
        "was entered by hand.",
    )
    low: float | None = Field(default=None, ge=0, le=10, description="Lower end of its 90 % range.")
    high: float | None = Field(
        default=None, ge=0, le=10, description="Upper end of its 90 % range."
    )
    tests: int = Field(default=0, ge=0, description="Tests it was learned from; 0: by hand.")
    decided: dt.date = Field(description="The day it was taken into use.")
    supplier: str = Field(
        default="", max_length=80, description="Whose food it holds for; empty: whoever brings it."
    )


class OwnShare(FileModel):
    """What the kitchen itself found a share of the trim to be; used in place of the usual one."""

    share: Share = Field(description="Fraction of the loss, as it is expected.")
    low: Share | None = Field(default=None, description="Lower end of its 90 % range.")
    high: Share | None = Field(default=None, description="Upper end of its 90 % range.")
    tests: int = Field(default=0, ge=0, description="Tests it was learned from.")
    decided: dt.date = Field(description="The day it was taken into use.")


class Fraction(FileModel):
    """A yield: mass out per mass in, and where the figure comes from."""

    fraction: float = Field(
        gt=0,
        le=10,
        description="Mass out / mass in: 0.89 for 89 percent; above 1 for rice, pasta, beans.",
    )
    source: Source = STARTING_GUESS
    own: OwnYield | None = Field(
        default=None, description="The kitchen's own figure, used instead of this usual one."
    )


class Weight(FileModel):
    """What one named piece weighs, as purchased, and where the figure comes from."""

    unit: str = Field(min_length=1, description="The piece: each, bunch, head, fillet.")
    weight: Amount = Field(description="Mass of one piece, as purchased: '122 g'.")
    source: Source = STARTING_GUESS


class Density(FileModel):
    """Grams per millilitre, and where the figure comes from."""

    g_per_ml: float = Field(gt=0, le=25, description="Grams of one millilitre.")
    source: Source = STARTING_GUESS
