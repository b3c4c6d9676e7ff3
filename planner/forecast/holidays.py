"""Public holidays of a country: days on which guests do not come as on others."""

import datetime as dt
from collections.abc import Iterable, Mapping
from functools import cache

from planner.wording import sentence


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
    NoHolidaysError
        There is no such country or region in the list; says what there is.
    """
    return frozenset(named_holidays(country, dates, region))


def named_holidays(
    country: str, dates: Iterable[dt.date], region: str | None = None, language: str = "en"
) -> Mapping[dt.date, str]:
    """What those of ``dates`` that are public holidays are called.

    ``language`` is an ISO 639-1 code; where the list does not know it, they are called as their
    country does. Raises as ``public_holidays``.
    """
    import holidays  # noqa: PLC0415 - half a second, and most kitchens name no country

    asked = list(dates)
    years = {date.year for date in asked}
    try:
        plain = holidays.country_holidays(country, subdiv=region, years=years)
    except NotImplementedError:
        raise _unknown(country, region) from None
    if plain.country != country:  # a name of its own for another code, such as UK
        raise _unknown(country, region)
    told = [one for one in plain.supported_languages if one.partition("_")[0] == language]
    found = (
        holidays.country_holidays(country, subdiv=region, years=years, language=told[0])
        if told
        else plain
    )
    return {date: found[date] for date in asked if date in found}


class NoHolidaysError(ValueError):
    """No holidays are known; ``trouble`` says of whom, ``remedy`` what to enter."""

    def __init__(self, trouble: str, remedy: str) -> None:
        super().__init__(f"{trouble}: {remedy}")
        self.trouble = trouble
        self.remedy = remedy


def _unknown(country: str, region: str | None) -> NoHolidaysError:
    known = countries()
    if country not in known:
        return NoHolidaysError(
            sentence("no holidays are known for '{country}'", country=country),
            sentence("enter a code of two letters as in ISO 3166-1, such as US, GB, DE"),
        )
    of_it = ", ".join(known[country]) or sentence("none")
    return NoHolidaysError(
        sentence("{country} has no region '{region}'", country=country, region=region),
        sentence("choose one of: {known}", known=of_it),
    )


@cache
def countries() -> Mapping[str, tuple[str, ...]]:
    """Regions by country, ISO 3166-2 and 3166-1, of which holidays are known."""
    import holidays  # noqa: PLC0415 - as above

    known = holidays.list_supported_countries(include_aliases=False)
    return {country: tuple(regions) for country, regions in sorted(known.items())}
