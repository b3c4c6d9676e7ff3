"""What a planned day costs, in whole minutes and hundredths of the currency: it adds up."""

import datetime as dt
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class DishDay:
    """A dish at a service, by the day's plan.

    Attributes
    ----------
    dish, service
        Names; both empty for what the kitchen makes for itself.
    date
        Day of the service; None for the kitchen's own.
    portions
        To be ready for, buffer included; those of another day are worked on today in part.
    food
        Hundredths for the food of all portions, by the kitchen file's prices and yields.
    minutes, labor
        Minutes of today's hands (set-ups and changeovers among them), and hundredths for them.
    price
        Hundredths that a guest pays for one portion; None: the file does not say.
    """

    dish: str
    service: str
    date: dt.date | None
    portions: int
    food: int
    minutes: int
    labor: int
    price: int | None = None

    @property
    def together(self) -> int:
        """Food and hands, hundredths."""
        return self.food + self.labor

    @property
    def food_share(self) -> float | None:
        """Food / price of the portions; None without a price."""
        if not self.price or not self.portions:
            return None
        return self.food / (self.price * self.portions)


@dataclass(frozen=True, slots=True)
class ComponentDay:
    """A component of the day's plan: finished grams, hundredths for their food, and its hands.

    Food of a component that goes into another stands with both.
    """

    component: str
    grams: float
    food: int
    minutes: int
    labor: int


@dataclass(frozen=True, slots=True)
class DayCosts:
    """A planned day's money.

    ``minutes`` and ``labor`` are those of all hands: dishes and components each add up to them.
    ``paid`` and ``wages`` are what is paid in all, waiting, breaks and the line included.
    """

    dishes: tuple[DishDay, ...]
    components: tuple[ComponentDay, ...]
    minutes: int
    labor: int
    paid: int
    wages: int
