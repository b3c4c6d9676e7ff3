"""Building blocks of the plan file."""

from pydantic import BaseModel, ConfigDict, Field

from planner.clock import clock


class PlanModel(BaseModel):
    """A part of the plan file: immutable, nothing unknown in it, every field always present."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


class Moment(PlanModel):
    """A wall-clock time, for programs and for people."""

    minutes: int = Field(
        description="Whole minutes after midnight of the planned day, in the kitchen's time zone; "
        "a later day runs past 1440, an earlier one below 0."
    )
    clock: str = Field(
        description="The same as 'HH:MM'; on another day with how many days later in front: "
        "'+1 06:00'.",
        pattern=r"^([+-][0-9]+ )?[0-2][0-9]:[0-5][0-9]$",
    )


class Portions(PlanModel):
    """Portions of one dish at one service."""

    service: str = Field(description="Id of the service.")
    dish: str = Field(description="Id of the dish.")
    portions: int = Field(description="Whole portions.")


class ItemGrams(PlanModel):
    """Grams of one food."""

    item: str = Field(description="Id of an ingredient or component.")
    grams: float = Field(description="Grams; of an ingredient as purchased.")


class ComponentGrams(PlanModel):
    """Grams that go into one component."""

    component: str = Field(description="Id of the component.")
    grams: float = Field(description="Grams.")


def moment(minutes: int) -> Moment:
    """The time ``minutes`` after midnight of the planned day, with its text."""
    return Moment(minutes=minutes, clock=clock(minutes))


def moment_or_none(minutes: int | None) -> Moment | None:
    """As :func:`moment`; None stays None."""
    return None if minutes is None else moment(minutes)
