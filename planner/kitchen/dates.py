"""The same kitchen on another day: how a made-up kitchen is always about today."""

import datetime as dt

from planner.kitchen.document import Kitchen


def moved_to(kitchen: Kitchen, date: dt.date) -> Kitchen:
    """Return ``kitchen`` with every date shifted by the same number of days, so that ``as_of`` is
    ``date``.

    Raises
    ------
    OverflowError
        A date would leave the calendar (years 1 to 9999).
    """
    by = date - kitchen.as_of
    return kitchen.model_copy(
        update={
            "as_of": date,
            "services": tuple(
                service.model_copy(update={"date": service.date + by})
                for service in kitchen.services
            ),
            "cooks": tuple(
                cook.model_copy(
                    update={
                        "shifts": tuple(
                            shift.model_copy(update={"date": _moved(shift.date, by)})
                            for shift in cook.shifts
                        ),
                        "days_off": tuple(day + by for day in cook.days_off),
                    }
                )
                for cook in kitchen.cooks
            ),
            "prepared": tuple(
                stock.model_copy(update={"made": stock.made + by, "use_by": stock.use_by + by})
                for stock in kitchen.prepared
            ),
            "raw_stock": tuple(
                stock.model_copy(
                    update={"received": stock.received + by, "use_by": _moved(stock.use_by, by)}
                )
                for stock in kitchen.raw_stock
            ),
            "deliveries": tuple(
                delivery.model_copy(update={"date": delivery.date + by})
                for delivery in kitchen.deliveries
            ),
        }
    )


def _moved(date: dt.date | None, by: dt.timedelta) -> dt.date | None:
    return None if date is None else date + by
