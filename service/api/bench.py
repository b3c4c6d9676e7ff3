"""Routes of the yield bench: choose, weigh, read the record."""

import re
import uuid
from collections.abc import Mapping
from typing import Annotated

from fastapi import APIRouter, Path, Query
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from planner.kitchen.catalog import Catalog
from planner.kitchen.conversion import ConversionError, Converter
from planner.yields.keys import KitchenYield, YieldKey
from planner.yields.weighing import unit_grams
from service.api.forms import FormFields
from service.api.kitchens import Slug
from service.api.reading import PreferencesDep
from service.api.services import ACTOR, ServicesDep
from service.usecases.yield_lessons import YieldsNow, no_such_yield, yields_now
from service.usecases.yield_tests import bench_test, keep_bench_test, kept_records
from web.bench.form import COUNT, WAIT, BenchForm, read_bench_form
from web.bench.form_view import bench_view, yield_name
from web.bench.pages import FoodChoices, render_bench_form, render_bench_record, render_bench_start
from web.bench.record_view import record_label, record_view
from web.language import _
from web.links import Choice
from web.presenters.clock import long_date
from web.presenters.preferences import Preferences

router = APIRouter(include_in_schema=False, default_response_class=HTMLResponse)

_LISTED = 30
_SENT = re.compile(r"[0-9a-f-]{36}")


@router.get("/kitchens/{slug}/bench")
def start(
    slug: Slug,
    services: ServicesDep,
    preferences: PreferencesDep,
    of: Annotated[str, Query(max_length=200)] = "",
    food: Annotated[str, Query(max_length=80)] = "",
) -> HTMLResponse:
    """Choose what is tested; with ``of`` or ``food`` the form for it."""
    now = yields_now(services.database, slug, now=services.now)
    if not of and not food:
        page = render_bench_start(
            now.kitchen.name,
            _foods(now),
            nav=bench_nav(slug, 1),
            address=bench_address(slug),
            kept=[
                Choice(record_label(number, one), f"{bench_address(slug)}/{number}")
                for number, one in kept_records(services.database, slug)[:_LISTED]
            ],
        )
        return HTMLResponse(page)
    known = _known(now, of)
    return HTMLResponse(_form(now, of, known, _first(now, known, food, preferences)))


@router.post("/kitchens/{slug}/bench")
def weigh(slug: Slug, fields: FormFields, services: ServicesDep) -> Response:
    """Check what was weighed; keep it unless something is wrong, or asked and not answered."""
    now = yields_now(services.database, slug, now=services.now)
    of = fields.get("of", "")
    known = _known(now, of)
    form = read_bench_form(fields, known, now.today, now.kitchen.currency)
    unanswered = bool(form.questions) and fields.get("then") not in (COUNT, WAIT)
    if form.record is None or unanswered:
        status = 422 if form.record is None else 200
        return HTMLResponse(_form(now, of, known, fields, form), status)
    kept = keep_bench_test(
        services.database, slug, _sent(fields), form.record, actor=ACTOR, now=services.now
    )
    return RedirectResponse(f"{bench_address(slug)}/{kept.number}", 303)


@router.get("/kitchens/{slug}/bench/{number}")
def record(
    slug: Slug, number: Annotated[int, Path(ge=1, le=10**9)], services: ServicesDep
) -> HTMLResponse:
    """A kept test, to be read and printed."""
    kept, beside = bench_test(services.database, slug, number)
    assert kept.record is not None  # noqa: S101 - a bench test has one
    others = [
        (one.number, f"{bench_address(slug)}/{one.number}", one.record)
        for one in beside
        if one.number is not None and one.record is not None
    ]
    now = yields_now(services.database, slug, now=services.now)
    query = f"of={kept.record.of}" if kept.record.of else f"food={kept.record.food}"
    page = render_bench_record(
        now.kitchen.name,
        record_view(number, kept.record, others),
        nav=bench_nav(slug, 0),
        again=f"{bench_address(slug)}?{query}",
    )
    return HTMLResponse(page)


def bench_address(slug: str) -> str:
    """Path of a kitchen's bench."""
    return f"/kitchens/{slug}/bench"


def yields_address(slug: str) -> str:
    """Path of a kitchen's yields in use."""
    return f"/kitchens/{slug}/yields"


def bench_nav(slug: str, current: int) -> list[Choice]:
    """Links around the bench; ``current`` is the index of the page it is, 0 for none."""
    links = (
        (_("Today"), f"/kitchens/{slug}"),
        (_("Yield bench"), bench_address(slug)),
        (_("Yields"), yields_address(slug)),
    )
    return [
        Choice(label, href, current=bool(current) and index == current)
        for index, (label, href) in enumerate(links)
    ]


def _known(now: YieldsNow, of: str) -> KitchenYield | None:
    if not of:
        return None
    try:
        YieldKey.parse(of)
    except ValueError:
        raise no_such_yield(of) from None
    return now.of(of).known


def _foods(now: YieldsNow) -> list[FoodChoices]:
    found: dict[str, list[tuple[str, str]]] = {}
    for line in now.lines:
        known = line.known
        found.setdefault(known.food, []).append((str(known.key), yield_name(known)))
    return [FoodChoices(food, tuple(choices)) for food, choices in sorted(found.items())]


def _first(
    now: YieldsNow, known: KitchenYield | None, food: str, preferences: Preferences
) -> Mapping[str, str]:
    """What an empty form begins with: the reader's units, the file's supplier and price."""
    us = preferences.units == "us"
    first = {
        "unit": "lb" if us else "g",
        "price_unit": "lb" if us else "kg",
        "portion_unit": "oz" if us else "g",
        "food": food,
    }
    if known is not None:
        first["supplier"] = known.supplier
        price = _price(now, known.key.food, first["price_unit"])
        if price:
            first["price"] = price
    return first


def _price(now: YieldsNow, food: str, unit: str) -> str:
    """What the file says a unit costs as purchased; empty where it does not say."""
    catalog = Catalog(now.kitchen)
    bought = catalog.ingredients.get(food)
    if bought is None or not bought.purchase.cost:
        return ""
    try:
        grams = Converter(now.kitchen).grams(food, bought.purchase.holds)
    except ConversionError:
        return ""
    return f"{bought.purchase.cost / grams * unit_grams(unit):.2f}"


def _form(
    now: YieldsNow,
    of: str,
    known: KitchenYield | None,
    typed: Mapping[str, str],
    form: BenchForm | None = None,
) -> str:
    cooks = [cook.name for cook in now.kitchen.cooks]
    return render_bench_form(
        now.kitchen.name,
        bench_view(known, cooks, typed, form),
        nav=bench_nav(now.slug, 0),
        address=bench_address(now.slug),
        of=of,
        sent=_sent(typed),
        date=long_date(now.today),
        currency=now.kitchen.currency,
    )


def _sent(fields: Mapping[str, str]) -> str:
    """Names one form: as it was sent, or a new name."""
    name = fields.get("sent", "")
    return name if _SENT.fullmatch(name) else str(uuid.uuid4())
