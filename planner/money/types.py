"""What a planned day costs, in whole minutes and hundredths of the currency: it adds up."""

import datetime as dt
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class DishDay:
    """A dish at a service, by the day's plan."""

    dish: str
    """Its name; empty for what the kitchen makes for itself."""
    service: str
    """Name of the service; empty for the kitchen's own."""
    date: dt.date | None
    """Day of the service; None for the kitchen's own."""
    portions: int
    """To be ready for, buffer included; those of another day are worked on today in part."""
    food: int
    """Hundredths for the food of all portions, by the kitchen file's prices and yields."""
    minutes: int
    """Minutes of today's hands, set-ups and changeovers among them."""
    labor: int
    """Hundredths for these minutes."""
    price: int | None = None
    """Hundredths that a guest pays for one portion; None: the file does not say."""

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
    """A component of the day's plan."""

    component: str
    """Its name."""
    grams: float
    """Finished grams."""
    food: int
    """Hundredths for its food; food of a component that goes into another stands with both."""
    minutes: int
    """Minutes of today's hands."""
    labor: int
    """Hundredths for these minutes."""


@dataclass(frozen=True, slots=True)
class DayCosts:
    """A planned day's money."""

    dishes: tuple[DishDay, ...]
    """What is made for dishes and for the kitchen itself; minutes and labor add up to all hands."""
    components: tuple[ComponentDay, ...]
    """The same by component; they add up to all hands, too."""
    minutes: int
    """Minutes of all hands."""
    labor: int
    """Hundredths for them."""
    paid: int
    """Minutes that are paid in all, waiting, breaks and the line included."""
    wages: int
    """Hundredths for these."""
