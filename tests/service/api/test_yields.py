"""The yield bench and the yields in use: kept, asked about, decided, put back; and the floor's."""

import datetime as dt
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import httpx
import pytest
from fastapi.testclient import TestClient

from service.app import create_app
from service.planning import make_plan
from service.settings import Settings
from tests.service import stubs
from tests.service.api.conftest import ended, wait_for

_DAY = "2026-03-02"
_KITCHEN = "/kitchens/test-kitchen"
_FILE = "/api/v1/kitchens/test-kitchen"
_OF = "diced_onion/dice"
_NOW = dt.datetime(2026, 3, 2, 18, 0, tzinfo=dt.UTC)
"""13:00 on the kitchen's wall."""


class Clock:
    now = _NOW

    def __call__(self) -> dt.datetime:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def client(tmp_path: Path, clock: Clock) -> Iterator[TestClient]:
    settings = Settings(data_dir=tmp_path, plan_seconds=0.1)
    app = create_app(settings, make_plan, clock)
    with TestClient(app, base_url="http://localhost", follow_redirects=False) as client:
        client.put(_FILE, json=stubs.kitchen_document()).raise_for_status()
        yield client


def _weigh(client: TestClient, usable: float, **fields: str) -> httpx.Response:
    form = {
        "of": _OF,
        "unit": "g",
        "division": "1",
        "gross": "4000",
        "u0": f"{usable:g}",
        "t0": f"{4000 - usable:g}",
        **fields,
    }
    return client.post(f"{_KITCHEN}/bench", data=form)


def _own(client: TestClient) -> Any:
    file = json.loads(client.get(_FILE).content)
    return file["components"][0]["route"][0]["fraction"].get("own")


def _version(client: TestClient) -> int:
    return int(client.get("/api/v1/kitchens").json()[0]["version"])


def _learned(client: TestClient, *, fraction: float = 0.79, tests: int = 6) -> None:
    for number in range(tests):
        answer = _weigh(client, 4000 * fraction + 5 * number)
        assert answer.status_code == 303, answer.text


def test_a_test_is_kept_and_reads_as_its_record(client: TestClient) -> None:
    answer = _weigh(client, 3300, cook="Ada", price="1.10", price_unit="kg")
    assert answer.headers["location"] == f"{_KITCHEN}/bench/1"
    page = client.get(answer.headers["location"]).text
    assert "Yield test 1" in page
    assert "82.5 %" in page
    assert "1.33 USD" in page  # 1.10 / 0.825
    assert "Ada" in page


def test_a_form_that_is_sent_twice_is_one_test(client: TestClient) -> None:
    sent = "0f0e7a4c-2b7e-4d0b-9a53-1d2a3b4c5d6e"
    first, again = (_weigh(client, 3300, sent=sent) for _ in range(2))
    assert first.headers["location"] == again.headers["location"] == f"{_KITCHEN}/bench/1"


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"gross_tare": "4000"}, "the empty container weighs as much as the load of 4000 g"),
        ({"u0": "4100"}, "more is usable than went in, 4000 g"),
        ({"gross": ""}, "Weigh what goes in, before anything is cut off"),
        ({"gross": "four"}, "this is not a number"),
        ({"gross": "1,250"}, "the comma may stand for thousands"),
        ({"gross_unit": "stone"}, "Choose one of g, kg, oz, lb"),
        ({"u0": "", "t0": ""}, "no part was weighed"),
        ({"u0_tare": "50", "u0": ""}, "Enter what the scale showed, or clear the tare"),
        ({"u0": "", "t0": "4000"}, "the trim weighs as much as what went in"),
        ({"t0_value": "2"}, "waste is worth nothing"),
        (
            {"t0_kind": "credited", "t0_value": "90", "price": "1"},
            "what is kept is worth 63.00, more than the load cost, 4.00",
        ),
    ],
)
def test_what_cannot_be_is_refused_with_its_remedy(
    client: TestClient, fields: dict[str, str], words: str
) -> None:
    answer = _weigh(client, 3300, **fields)
    assert answer.status_code == 422
    assert words in answer.text
    assert client.get(f"{_KITCHEN}/bench/1").status_code == 404


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"u0": "7.275", "t0": ""}, "In lb instead of g it would fit."),
        ({"u0": "116.4", "t0": "700"}, "In oz instead of g it would fit."),
        ({"t0": "650"}, "50 g of what went in are in no part"),
    ],
)
def test_what_does_not_fit_is_asked_before_it_is_kept(
    client: TestClient, fields: dict[str, str], words: str
) -> None:
    answer = _weigh(client, 3300, **fields)
    assert answer.status_code == 200
    assert words in answer.text
    assert client.get(f"{_KITCHEN}/bench/1").status_code == 404
    assert _weigh(client, 3300, **fields, then="wait").status_code == 303
    assert "Kept with the question open" in client.get(f"{_KITCHEN}/bench/1").text
    assert "1 test waits for an answer." in client.get(f"{_KITCHEN}/yields").text


def test_an_answer_makes_it_count(client: TestClient) -> None:
    _weigh(client, 3300, t0="650", then="count")
    page = client.get(f"{_KITCHEN}/yields").text
    assert "waits for an answer" not in page
    assert "1 test" in page


def test_tests_are_taken_into_use_as_a_new_version_of_the_file(client: TestClient) -> None:
    _learned(client)
    answer = client.post(f"{_KITCHEN}/yields/take", data={"of": _OF})
    assert answer.headers["location"] == f"{_KITCHEN}/yields?decided=1#diced_onion-dice"
    own = _own(client)
    assert own["tests"] == 6
    assert own["fraction"] == pytest.approx(0.795, abs=0.005)
    assert own["decided"] == _DAY
    assert _version(client) == 2
    page = client.get(f"{_KITCHEN}/yields").text
    assert "usual 85 %, yours 79 % (6 tests)" in page
    assert "from the tests (api)" in page


def test_every_decision_can_be_put_back(client: TestClient) -> None:
    for percent in ("80", "78,5"):
        data = {"of": _OF, "percent": percent, "reason": "the new knife"}
        assert client.post(f"{_KITCHEN}/yields/hand", data=data).status_code == 303
    assert _own(client)["fraction"] == pytest.approx(0.785)
    client.post(f"{_KITCHEN}/yields/back", data={"decision": "2"})
    assert _own(client)["fraction"] == pytest.approx(0.8)
    client.post(f"{_KITCHEN}/yields/usual", data={"of": _OF})
    assert _own(client) is None
    client.post(f"{_KITCHEN}/yields/back", data={"decision": "4"})
    assert _own(client)["fraction"] == pytest.approx(0.8)
    page = client.get(f"{_KITCHEN}/yields").text
    assert page.count("the new knife") == 2
    assert "78.5 % to 80 %, put back (api)" in page
    assert _version(client) == 6


@pytest.mark.parametrize(
    ("path", "data", "status", "words"),
    [
        ("hand", {"of": _OF, "percent": "0"}, 422, "no food has such a yield"),
        ("hand", {"of": _OF, "percent": "much"}, 422, "this is not a number"),
        ("hand", {"of": _OF, "percent": "600"}, 422, "implausible"),
        ("hand", {"of": "onion/fly", "percent": "80"}, 404, "no route of this kitchen"),
        ("take", {"of": _OF}, 409, "no test of it counts"),
        ("back", {"decision": "7"}, 404, "there is no such decision"),
        ("back", {"decision": "x"}, 404, "there is no such decision"),
        ("since", {"of": _OF, "since": "2026-03-09"}, 422, "that day is not here yet"),
        ("since", {"of": _OF, "since": "soon"}, 422, "this is not a date"),
        ("answer", {"test": "none", "answer": "counts"}, 404, "there is no such yield test"),
        ("answer", {"test": "none", "answer": "maybe"}, 422, "this is no answer"),
    ],
)
def test_a_decision_that_cannot_be_changes_nothing(
    client: TestClient, path: str, data: dict[str, str], status: int, words: str
) -> None:
    answer = client.post(f"{_KITCHEN}/yields/{path}", data=data)
    assert answer.status_code == status
    assert words in answer.text
    assert _version(client) == 1


def test_no_such_kitchen_or_yield(client: TestClient) -> None:
    assert client.get("/kitchens/none/bench").status_code == 404
    assert client.get("/kitchens/none/yields").status_code == 404
    assert client.get(f"{_KITCHEN}/bench?of=onion").status_code == 404
    assert client.get(f"{_KITCHEN}/bench?of=onion/fly").status_code == 404


def test_tests_of_before_a_day_can_be_left_behind(client: TestClient, clock: Clock) -> None:
    _learned(client, fraction=0.9, tests=4)
    clock.now += dt.timedelta(days=3)
    _learned(client, fraction=0.8, tests=4)
    page = client.get(f"{_KITCHEN}/yields").text
    assert "The tests speak for a change." in page
    client.post(f"{_KITCHEN}/yields/since", data={"of": _OF, "since": "2026-03-05"})
    page = client.get(f"{_KITCHEN}/yields").text
    assert "The tests speak for a change." not in page
    assert page.count("older than what counts") == 4
    client.post(f"{_KITCHEN}/yields/back", data={"decision": "1"})
    assert "older than what counts" not in client.get(f"{_KITCHEN}/yields").text


def test_a_file_that_says_otherwise_is_noticed(client: TestClient) -> None:
    client.post(f"{_KITCHEN}/yields/hand", data={"of": _OF, "percent": "80"})
    client.put(_FILE, json=stubs.kitchen_document()).raise_for_status()
    page = client.get(f"{_KITCHEN}/yields").text
    assert "A kitchen file that was sent since the last decision says otherwise." in page


def test_how_cautiously_food_is_pulled_is_chosen_on_the_page(client: TestClient) -> None:
    answer = client.post(f"{_KITCHEN}/yields/pulling", data={"level": "90", "by_rule": "yes"})
    assert answer.status_code == 303
    rules = json.loads(client.get(_FILE).content)["rules"]
    assert (rules["pull_level"], rules["learns_yields"]) == (0.9, True)
    assert "with a chance of 90 %" in client.get(f"{_KITCHEN}/yields").text
    client.post(f"{_KITCHEN}/yields/pulling", data={"level": "90", "by_rule": "yes"})
    assert _version(client) == 2
    for bad in ("30", "100", "much"):
        answer = client.post(f"{_KITCHEN}/yields/pulling", data={"level": bad})
        assert answer.status_code == 422, bad


def test_kept_tests_are_found_on_the_bench(client: TestClient) -> None:
    _weigh(client, 3300)
    _weigh(client, 800, of="", food="Striploin", gross="1000", t0="200")
    page = client.get(f"{_KITCHEN}/bench").text
    assert "Striploin, 80 %" in page
    assert page.index(">2, ") < page.index(">1, ")


def _by_rule(client: TestClient) -> None:
    document = stubs.kitchen_document()
    document["rules"] = {"learns_yields": True}
    client.put(_FILE, json=document).raise_for_status()


def test_the_rule_decides_where_the_kitchen_says_so(client: TestClient) -> None:
    _by_rule(client)
    _learned(client, tests=4)
    assert _own(client) is None
    _weigh(client, 3170)
    assert _own(client)["tests"] == 5
    assert "by rule (rule)" in client.get(f"{_KITCHEN}/yields").text


def test_the_rule_does_not_take_up_again_what_was_put_down(
    client: TestClient, clock: Clock
) -> None:
    _by_rule(client)
    _learned(client)
    client.post(f"{_KITCHEN}/yields/usual", data={"of": _OF})
    _weigh(client, 3170)
    assert _own(client) is None
    clock.now += dt.timedelta(days=1)
    _weigh(client, 3170)
    assert _own(client)["tests"] == 8


def test_what_is_put_down_in_the_evening_stays_down_till_the_next_day_of_the_kitchen(
    client: TestClient, clock: Clock
) -> None:
    _by_rule(client)
    clock.now = dt.datetime(2026, 3, 3, 1, 0, tzinfo=dt.UTC)  # 20:00 of the 2nd in New York
    _learned(client)
    client.post(f"{_KITCHEN}/yields/usual", data={"of": _OF})
    _weigh(client, 3170)
    assert _own(client) is None
    clock.now = dt.datetime(2026, 3, 3, 16, 0, tzinfo=dt.UTC)
    _weigh(client, 3170)
    assert _own(client)["tests"] == 8


def test_what_the_rule_took_from_tests_that_are_left_out_does_not_stay(
    client: TestClient,
) -> None:
    _by_rule(client)
    _learned(client, tests=5)
    before = _own(client)["fraction"]
    keys = re.findall(r'name="test" value="([^"]+)"', client.get(f"{_KITCHEN}/yields").text)
    keys = list(dict.fromkeys(keys))
    assert len(keys) == 5
    for left, key in enumerate(reversed(range(5))):
        data = {"of": _OF, "test": keys[key], "answer": "left out", "reason": "bowl on the scale"}
        client.post(f"{_KITCHEN}/yields/answer", data=data)
        own = _own(client)
        if left < 4:
            assert abs(own["fraction"] - before) < 0.04
    assert own is None, "nothing that counts speaks for it"


def _released(client: TestClient) -> list[dict[str, Any]]:
    asked = client.post(f"{_FILE}/plans", json={"date": _DAY})
    address = asked.headers["Location"]
    assert wait_for(client, address, ended)["state"] == "done"
    client.post(f"{address}/release").raise_for_status()
    sheet = client.get(f"{address}/sheet").json()
    return [batch for cook in sheet["cooks"] for batch in cook["batches"]]


def _say(client: TestClient, clock: Clock, batch: dict[str, Any], *ticks: dict[str, Any]) -> None:
    body = {
        "device": "phone",
        "sent_at": clock.now.isoformat(),
        "ticks": [
            {
                "release": 1,
                "at": clock.now.isoformat(),
                "cook": batch["cook"],
                "tasks": [task["id"] for task in batch["tasks"]],
                **tick,
            }
            for tick in ticks
        ],
    }
    answer = client.post(f"/api/v1/floor/test-kitchen/{_DAY}/ticks", json=body)
    answer.raise_for_status()
    assert {one["outcome"] for one in answer.json()["received"]} == {"kept"}


def _load(key: str, kind: str, grams: float) -> dict[str, Any]:
    weight = {"kind": kind, "grams": grams + 250, "tare_grams": 250}
    return {"key": f"key-{key:0>8}", "act": "weighed", "weight": weight}


def test_what_cooks_weigh_is_a_test_of_the_day(client: TestClient, clock: Clock) -> None:
    batch = _released(client)[0]
    went_in = batch["grams_in"]
    # What came out is told before what went in: the sums are the same.
    _say(client, clock, batch, _load("2", "usable", went_in * 0.82), _load("1", "gross", went_in))
    assert "82 %" not in client.get(f"{_KITCHEN}/yields").text, "the batch is not done yet"
    _say(client, clock, batch, {"key": "key-00000003", "act": "done"})
    page = client.get(f"{_KITCHEN}/yields").text
    assert "<b>82 %</b>" in page
    assert "Ada" in page
    _say(client, clock, batch, _load("4", "usable", 200))
    _say(client, clock, batch, {"key": "key-00000005", "act": "taken back",
                                "takes_back": "key-00000002"})  # fmt: skip
    assert "<b>82 %</b>" not in client.get(f"{_KITCHEN}/yields").text


def test_an_odd_load_of_the_floor_waits_for_an_answer(client: TestClient, clock: Clock) -> None:
    batch = _released(client)[0]
    went_in = batch["grams_in"]
    _say(
        client, clock, batch, _load("1", "gross", went_in),
        _load("2", "usable", went_in * 0.85 / 2.2046), {"key": "key-00000003", "act": "done"},
    )  # fmt: skip
    page = client.get(f"{_KITCHEN}/yields").text
    assert "1 test waits for an answer." in page
    assert "instead of" in page
    key = f"floor-{_DAY}-key-00000001"
    data = {"of": _OF, "test": key, "answer": "left out"}
    assert client.post(f"{_KITCHEN}/yields/answer", data=data).status_code == 303
    page = client.get(f"{_KITCHEN}/yields").text
    assert "waits for an answer" not in page
    assert "left out" in page


def test_an_answer_holds_for_the_weights_that_it_was_given_of(
    client: TestClient, clock: Clock
) -> None:
    batch = _released(client)[0]
    went_in = batch["grams_in"]
    _say(
        client, clock, batch, _load("1", "gross", went_in),
        _load("2", "usable", went_in * 0.5), {"key": "key-00000003", "act": "done"},
    )  # fmt: skip
    data = {"of": _OF, "test": f"floor-{_DAY}-key-00000001", "answer": "counts"}
    assert "1 test waits for an answer." in client.get(f"{_KITCHEN}/yields").text
    client.post(f"{_KITCHEN}/yields/answer", data=data)
    assert "waits for an answer" not in client.get(f"{_KITCHEN}/yields").text
    _say(client, clock, batch, _load("4", "usable", went_in * 2))
    assert "1 test waits for an answer." in client.get(f"{_KITCHEN}/yields").text
    client.post(f"{_KITCHEN}/yields/answer", data={**data, "answer": "left out"})
    _say(client, clock, batch, _load("5", "usable", went_in * 3))
    assert "waits for an answer" not in client.get(f"{_KITCHEN}/yields").text


def test_a_day_that_is_over_counts_what_nobody_ticked_done(
    client: TestClient, clock: Clock
) -> None:
    batch = _released(client)[0]
    went_in = batch["grams_in"]
    loads = _load("1", "gross", went_in), _load("2", "usable", went_in * 0.83)
    _say(client, clock, batch, *loads)
    assert "<b>83 %</b>" not in client.get(f"{_KITCHEN}/yields").text
    clock.now += dt.timedelta(days=1)
    assert "<b>83 %</b>" in client.get(f"{_KITCHEN}/yields").text


def test_the_next_plan_pulls_by_the_yield_in_use(client: TestClient) -> None:
    before = _released(client)[0]["grams_in"]
    client.post(f"{_KITCHEN}/yields/hand", data={"of": _OF, "percent": "68"})
    asked = client.post(f"{_FILE}/plans", json={"date": _DAY})
    address = asked.headers["Location"]
    assert wait_for(client, address, ended)["state"] == "done"
    sheet = client.get(f"{address}/sheet").json()
    (batch,) = [batch for cook in sheet["cooks"] for batch in cook["batches"]]
    assert batch["grams_in"] == pytest.approx(before * 0.85 / 0.68)
    page = client.get(f"{address.removeprefix('/api/v1')}/cooks/ada").text
    assert "usual 85 %, yours 68 % (by hand)" in page
