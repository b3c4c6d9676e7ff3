"""Public holidays of a country: days on which guests do not come as on others."""

import datetime as dt
from collections.abc import Iterable

import holidays


def public_holidays(
    country: str, dates: Iterable[dt.date], region: str | None = None
) -> frozenset[dt.date]:
    """Those of ``dates`` that are public holidays.

    Parameters
    ----------
    country
        ISO 3166-1 code of two letters: US, DE.
    dates
        Days that are asked about.
    region
        ISO 3166-2 code of a part of it without the country: CA, BY.

    Raises
    ------
    ValueError
        There is no such country or region in the list; says what there is.
    """
    asked = list(dates)
    known = holidays.list_supported_countries(include_aliases=False)
    if country not in known:
        raise ValueError(
            f"no holidays are known for {country!r}: enter a code of two letters as in ISO 3166-1, "
            "such as US, GB, DE"
        )
    if region is not None and region not in known[country]:
        of_it = ", ".join(known[country]) or "none"
        raise ValueError(f"{country} has no region {region!r}. Choose one of: {of_it}")
    years = {date.year for date in asked}
    found = holidays.country_holidays(country, subdiv=region, years=years)
    return frozenset(date for date in asked if date in found)
