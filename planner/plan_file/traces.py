"""The plan file's answers to "why": from a quantity back to guests, yields and the shelf."""

from pydantic import Field

from planner.plan_file.base import PlanModel


class PlanTrace(PlanModel):
    """One line of a trace: what it says, and the lines it follows from.

    Inside one trace each component is explained once; later lines refer to it as explained above.
    """

    text: str = Field(description="What it says, in words, with its figures.")
    grams: float = Field(
        description="What the line comes to, grams: of a step those going in, of an ingredient as "
        "purchased."
    )
    sources: tuple[str, ...] = Field(description="Where its figures come from, such as a yield's.")
    children: tuple["PlanTrace", ...] = Field(description="What it follows from.")
