"""Why pages: every line of a trace is there, a long one opens part by part, all of it prints."""

import re
from dataclasses import replace

import pytest

from planner.quantities.types import Trace
from planner.sheet.batch_types import SheetBatch
from planner.sheet.types import KitchenSheet
from planner.why import explained, trace_lines
from tests.kitchens.plans import planned_kitchen, tiny_plan
from tests.web.example import example_sheet
from tests.web.markup import Page, read_page
from web.links import Links
from web.pages import (
    render_cook,
    render_kitchen,
    render_why,
    render_whys,
    stylesheet,
)
from web.presenters.why import WhyLine, WhyView, why_view, why_views
from web.reading import Reading, read_as

_TRACES = explained(planned_kitchen(), tiny_plan())
_SERVED = replace(Links.under("/plans/7"), explained=frozenset(_TRACES))
_FILES = replace(Links.files(), explained=frozenset(_TRACES))


def _page(item: str = "onion") -> Page:
    return read_page(render_why(example_sheet(), item, _TRACES[item], _SERVED))


def _view(trace: Trace) -> WhyView:
    return why_view("item", trace)


def _wide(children: int) -> Trace:
    """A quantity with two causes, of which the first follows from so many."""
    many = tuple(Trace(f"cause {number}", 1.0) for number in range(children))
    return Trace("top", 1.0, children=(Trace("first", 1.0, children=many), Trace("second", 1.0)))


def _under(depth: int, trace: Trace) -> Trace:
    for level in range(depth):
        trace = Trace(f"level {level}", 1.0, children=(trace, Trace("beside", 1.0)))
    return trace


def _lines(view: WhyView | WhyLine) -> list[WhyLine]:
    return [line for each in view.lines for line in (each, *_lines(each))]


@pytest.mark.parametrize("item", sorted(_TRACES))
def test_every_line_of_a_trace_is_on_its_page_in_order(item: str) -> None:
    text, place = _page(item).text, 0
    for line in trace_lines(_TRACES[item]):
        words = line.strip().partition(" (source: ")[0]
        found = text.find(" ".join(words.split()), place)
        assert found >= 0, words
        place = found + 1


def test_a_page_says_what_it_is_about_and_where_figures_come_from() -> None:
    html = render_why(example_sheet(), "onion", _TRACES["onion"], _SERVED)
    assert "<h1>Onions: pull 13 each = 2.08 kg, as purchased</h1>" in html
    assert "Tuesday 9 March 2027" in html
    assert "source: starting guess" in html
    assert "local food code" in html


def test_readers_of_other_units_find_every_number_in_theirs() -> None:
    with read_as(Reading(units="us")):
        text = _page().text
    assert "pull 13 each = 4 lb 10 oz, as purchased" in text
    assert not re.search(r"\d k?g\b", text)


def test_a_single_cause_is_told_in_one_line_with_what_it_explains() -> None:
    chain = Trace("wanted", 3.0, children=(Trace("soup", 3.0, ("book",), (Trace("24", 3.0),)),))
    (line,) = _view(Trace("top", 3.0, children=(chain,))).lines
    assert [(said.text, said.sources) for said in line.said] == [
        ("wanted", ""),
        ("soup", "book"),
        ("24", ""),
    ]
    assert line.lines == ()


def test_what_a_quantity_first_follows_from_stands_open() -> None:
    first = _view(_wide(children=40)).lines[0]
    assert first.open


@pytest.mark.parametrize(("children", "stands_open"), [(12, True), (13, False)])
def test_deeper_parts_stand_open_while_they_are_short(children: int, stands_open: bool) -> None:
    lines = _lines(_view(_under(2, _wide(children))))
    (deep,) = [line for line in lines if line.said[0].text == "first"]
    assert deep.open is stands_open
    assert len(deep.lines) == children


def test_what_stands_closed_on_a_screen_is_printed_too() -> None:
    rules = stylesheet()
    paper = rules[rules.rindex("@media print") :]
    assert "details::details-content { content-visibility: visible; }" in paper


def test_the_page_of_all_has_an_anchor_for_each_and_an_index() -> None:
    html = render_whys(example_sheet(), _TRACES, _FILES, inline_style=True)
    page = read_page(html)
    assert page.faults == []
    assert len(page.ids) == len(set(page.ids))
    for item, trace in _TRACES.items():
        assert f"why-{item}" in page.ids
        assert f'<a href="#why-{item}">{trace.text}</a>' in html
        assert _FILES.why(item) == f"why.html#why-{item}"


def test_the_index_is_in_the_order_of_its_words() -> None:
    views = why_views({"b": Trace("beet", 1.0), "a": Trace("Apple", 1.0)})
    assert [view.said.text for view in views] == ["Apple", "beet"]


@pytest.mark.parametrize(
    "html",
    [
        render_why(example_sheet(), "onion", _TRACES["onion"], _SERVED),
        render_whys(example_sheet(), _TRACES, _SERVED),
    ],
    ids=["one", "all"],
)
def test_pages_are_sound_and_hold_under_a_strict_policy(html: str) -> None:
    page = read_page(html)
    assert page.faults == []
    assert html.count("<h1") == 1
    assert "<script" not in html
    assert not [one for one in page.attributes if one[1] == "style" or one[1].startswith("on")]
    labels = {value for _tag, name, value in page.attributes if name == "aria-labelledby"}
    assert labels <= set(page.ids)


def test_what_people_write_is_shown_and_never_run() -> None:
    attack = '<script>alert("x")</script>'
    trace = Trace(attack, 1.0, (attack,), (Trace(attack, 1.0, (attack,)), Trace(attack, 1.0)))
    for html in (
        render_why(example_sheet(), attack, trace, _SERVED),
        render_whys(example_sheet(), {attack: trace}, _FILES),
    ):
        assert "<script" not in html
        assert html.count("&lt;script&gt;") >= 5
        assert read_page(html).faults == []


def test_pages_of_a_plan_lead_to_its_reasons_where_there_are_any() -> None:
    """A plan stored without traces has pages all the same."""
    entry = '<a href="/plans/7/why">Why so much</a>'
    assert entry in render_kitchen(example_sheet(), _SERVED)
    assert "Why so much" not in render_kitchen(example_sheet(), Links.under("/plans/7"))


def _explaining(*items: str) -> Links:
    return replace(Links.under("/plans/7"), explained=frozenset(items))


def _quiet(item: str, text: str) -> str:
    return f'<a class="why" href="/plans/7/why/{item}" title="Why so much">{text}</a>'


def test_the_kitchens_pull_list_leads_to_why_so_much_is_pulled() -> None:
    pull = example_sheet().pulls[0]
    html = render_kitchen(example_sheet(), _explaining(pull.ingredient))
    assert _quiet(pull.ingredient, pull.name) in html
    assert html.count('class="why"') == 1, "what nobody explained is plain text"


def _batches(sheet: KitchenSheet, several: bool) -> list[SheetBatch]:
    return [
        batch
        for batch in sheet.cooks[0].batches
        if (len({output.component for output in batch.outputs}) > 1) is several
    ]


def test_a_batch_for_one_component_leads_to_its_reasons_from_its_food() -> None:
    sheet = example_sheet()
    batch = _batches(sheet, several=False)[0]
    component = batch.outputs[0].component
    html = render_cook(sheet, batch.cook, _explaining(component))
    assert f"<b>{batch.operation_name}</b> {_quiet(component, batch.food_name)}" in html


def test_a_batch_for_several_components_leads_to_each_from_its_name() -> None:
    sheet = example_sheet()
    batch = _batches(sheet, several=True)[0]
    items = {output.component: output.name for output in batch.outputs}
    html = render_cook(sheet, batch.cook, _explaining(*items))
    for component, name in items.items():
        assert f"</b> {_quiet(component, name)}" in html


def test_a_cooks_own_pull_list_has_no_links() -> None:
    """The reasons are of what the whole kitchen pulls, which is not what this cook does."""
    sheet = example_sheet()
    pulls = {pull.ingredient for pull in sheet.cooks[0].pulls}
    assert pulls
    assert 'class="why"' not in render_cook(sheet, sheet.cooks[0].cook, _explaining(*pulls))


def test_links_to_reasons_are_plain_words_on_paper() -> None:
    """Their look is for screens alone; on paper every link reads as text."""
    rules = stylesheet()
    start = rules.index("@media screen", rules.index("/* Why a quantity is what it is"))
    assert rules.index(".why {") > start
    assert rules.count(".why {") == 1
    assert "a { color: inherit; text-decoration: none; }" in rules[rules.index("@media print") :]
