"""What is bought and what is made of it: ingredients, components, dishes."""

from enum import StrEnum

from pydantic import Field

from planner.kitchen.base import (
    STARTING_GUESS,
    Amount,
    Density,
    FileModel,
    Fraction,
    Id,
    Minutes,
    Name,
    OwnShare,
    OwnYield,
    Share,
    Source,
    Weight,
    WholeMinutes,
)


class Allergen(StrEnum):
    """Major food allergens: the nine of the US FALCPA and FASTER Acts, and the fourteen of
    Regulation (EU) 1169/2011, Annex II. A kitchen marks those its law and guests require.
    """

    MILK = "milk"
    EGG = "egg"
    FISH = "fish"
    CRUSTACEAN = "crustacean shellfish"
    TREE_NUT = "tree nuts"
    PEANUT = "peanuts"
    WHEAT = "wheat"
    SOY = "soybeans"
    SESAME = "sesame"
    GLUTEN_CEREAL = "cereals containing gluten"
    CELERY = "celery"
    MUSTARD = "mustard"
    SULPHITE = "sulphites"
    LUPIN = "lupin"
    MOLLUSC = "molluscs"


class RawAnimal(StrEnum):
    """Species of raw animal food; boards and tools are cleaned between them.

    Source: FDA Food Code 4-602.11 (through state adoptions).
    """

    POULTRY = "poultry"
    BEEF = "beef"
    PORK = "pork"
    LAMB = "lamb"
    GAME = "game"
    FISH = "fish"
    SHELLFISH = "shellfish"
    EGG = "egg"


class Holding(StrEnum):
    """Where food waits."""

    COLD = "cold"
    HOT = "hot"
    AMBIENT = "ambient"
    FROZEN = "frozen"


class Purchase(FileModel):
    """How an ingredient is bought."""

    unit: str = Field(min_length=1, description="The pack: bag, case, bunch.")
    holds: Amount = Field(description="What one pack holds, as purchased: '10 kg', '30 each'.")
    cost: float = Field(default=0.0, ge=0, le=1e6, description="Money per pack.")
    supplier: str = Field(
        default="",
        max_length=80,
        description="Who it is bought from: yields are learned for each supplier.",
    )


class Ingredient(FileModel):
    """A food as purchased."""

    id: Id
    name: Name
    purchase: Purchase
    pull_unit: str | None = Field(
        default=None,
        description="What is taken from the shelf in whole numbers: each, bunch. "
        "Default: the first piece under weights; without any, weighed out to the gram.",
    )
    weights: tuple[Weight, ...] = Field(default=(), description="What a piece weighs, AP.")
    density: Density | None = Field(default=None, description="Needed to go from ml to g.")
    allergens: frozenset[Allergen] = Field(
        default=frozenset(), description="Those it contains; components take them over."
    )
    raw_animal: RawAnimal | None = Field(default=None, description="Species of a raw animal food.")
    ready_to_eat: bool = Field(default=False, description="Eaten without a further kill step.")
    tcs: bool = Field(default=False, description="Needs time/temperature control for safety.")
    counted: bool = Field(default=True, description="False: a staple nobody counts, such as salt.")
    by_product: bool = Field(default=False, description="Made by trimming; never bought.")
    storage: str = Field(default="walk-in", description="Where it is pulled from.")


class Cut(FileModel):
    """A named knife cut. Dimensions are nominal."""

    id: Id
    name: Name
    inches: tuple[float, ...] = Field(
        default=(), max_length=3, description="Nominal sides, inches; empty where not squared."
    )
    note: str = Field(default="", description="One line for the sheet.")


class Step(FileModel):
    """One operation on a component's route, with what is special about it here."""

    operation: Id = Field(description="What is done.")
    cut: Id | None = Field(default=None, description="A starter cut or one of the kitchen's.")
    fraction: Fraction | None = Field(
        default=None,
        description="Yield of this step here; default: the operation's for this food. A recipe's "
        "steps may leave one open: what the measured output says of the rest happens there.",
    )
    minutes_per: float | None = Field(
        default=None, ge=0, le=1440, description="Hands-on minutes per the operation's unit."
    )
    unattended_minutes: WholeMinutes | None = Field(
        default=None, description="Minutes without hands; default: the operation's."
    )
    min_wait_minutes: WholeMinutes = Field(
        default=0, description="At least so long before the next step starts."
    )
    max_wait_minutes: WholeMinutes | None = Field(
        default=None, description="The next step starts within so long: blanched goes to ice."
    )
    hold: Holding | None = Field(
        default=None,
        description="Where it waits for the next step. TCS food held ambient gets the kitchen's "
        "limit out of temperature control.",
    )
    temperature_c: float | None = Field(default=None, ge=-30, le=300, description="To hit, C.")
    note: str = Field(default="", description="One line for the sheet.")


class Input(FileModel):
    """What a component is made of."""

    item: Id = Field(description="An ingredient or a component.")
    amount: Amount | None = Field(
        default=None, description="For one recipe batch; left out where the yield chain decides."
    )
    after_step: int = Field(
        default=0,
        ge=0,
        description="Goes in when so many steps of the route are done: butter after the boil. "
        "0: at the start.",
    )
    may_use: tuple[Id, ...] = Field(
        default=(), description="By-products that may stand in for it, gram for gram."
    )


class Component(FileModel):
    """Something prepared: cut onions, stock, portioned fish.

    With ``makes`` it is a recipe: inputs for one batch, each going in at its step, give a measured
    output. What its steps' own yields leave open of the change in weight happens at the step where
    the last input goes in, or at the nearest step before it (else after it) that states no yield.
    Without ``makes`` it has one input, and its quantity follows the yields of its route.
    """

    id: Id
    name: Name
    inputs: tuple[Input, ...] = Field(min_length=1)
    makes: Amount | None = Field(default=None, description="Measured output of one recipe batch.")
    makes_source: Source = STARTING_GUESS
    route: tuple[Step, ...] = Field(min_length=1)
    shelf_life_days: int = Field(
        ge=1, le=365, description="Day of preparation is day 1; 1 = use today."
    )
    weights: tuple[Weight, ...] = Field(default=(), description="What a portion or piece weighs.")
    density: Density | None = Field(default=None, description="Needed to go from ml to g.")
    tcs: bool = Field(default=True, description="Needs time/temperature control for safety.")
    ready_to_eat: bool = Field(default=False, description="Eaten without a further kill step.")
    par: Amount | None = Field(default=None, description="Always bring up to this much.")
    batch_minimum: Amount | None = Field(default=None, description="Never made in less.")
    batch_multiple: Amount | None = Field(
        default=None, description="Made in whole ones of this much: full pans."
    )
    make_for_days: int = Field(
        default=1, ge=1, le=14, description="When made, make for so many days; shelf life bounds."
    )
    days_ahead: int | None = Field(
        default=None,
        ge=0,
        le=7,
        description="Start so many days before; default: as late as the route's minutes allow.",
    )
    fresh_hours: float | None = Field(
        default=None, gt=0, le=72, description="Finished no earlier than so long before doors."
    )
    container: str | None = Field(default=None, description="What it is held in: sixth pan.")
    storage: Holding = Field(default=Holding.COLD, description="How it is kept when finished.")
    note: str = Field(default="", description="One line for the sheet.")


class Portion(FileModel):
    """How much of a component (or ingredient) one portion of a dish takes."""

    item: Id = Field(description="A component or an ingredient.")
    amount: Amount


class Dish(FileModel):
    """What a guest orders."""

    id: Id
    name: Name
    components: tuple[Portion, ...] = Field(min_length=1)
    shortage_cost: float | None = Field(
        default=None, ge=0, description="Cost of one portion short; with leftover_cost gives p."
    )
    leftover_cost: float | None = Field(default=None, ge=0, description="Cost of one left over.")
    price: float | None = Field(
        default=None,
        gt=0,
        description="What a guest pays for one portion, without tax: food cost is shown as a share "
        "of it.",
    )
    weight: int = Field(default=1, ge=1, le=10, description="How much a short portion matters.")


class Trim(FileModel):
    """A usable by-product of an operation: a share of what the yield takes off."""

    item: Id = Field(description="An ingredient marked by_product.")
    share: Share = Field(description="Fraction of the loss (mass in minus mass out).")
    own: OwnShare | None = Field(
        default=None, description="The kitchen's own share, used instead of this usual one."
    )

    @property
    def in_use(self) -> float:
        """The share that quantities are worked out with."""
        return self.share if self.own is None else self.own.share


class FoodYield(FileModel):
    """An operation's yield on one food."""

    food: Id = Field(description="An ingredient or a component.")
    cut: Id | None = Field(
        default=None,
        description="Holds for steps with this cut only; default: for any cut without an entry.",
    )
    fraction: float = Field(gt=0, le=10, description="Mass out / mass in: 0.89 for 89 percent.")
    source: Source = STARTING_GUESS
    own: OwnYield | None = Field(
        default=None, description="The kitchen's own figure, used instead of this usual one."
    )
    trim: tuple[Trim, ...] = Field(default=(), description="What of the loss is of use.")


class FoodRate(FileModel):
    """An operation's hands-on rate on one food, in the operation's own unit."""

    food: Id = Field(description="An ingredient or a component.")
    minutes_per: Minutes = Field(description="Hands-on minutes per the operation's unit.")
    source: Source = STARTING_GUESS
