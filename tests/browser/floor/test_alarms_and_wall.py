"""What runs alone, its alarm, and the wall that sounds it too."""

import re

import pytest
from playwright.sync_api import expect

from planner.floor.ticks import Act
from tests.browser.floor.floor_server import FloorServer
from tests.browser.floor.hands import INES, NOW, SCREENS, SHEET, Open, current_batch, tap, until
from tests.browser.looks import ARTEFACTS
from tests.web.floor.example import first, tick

pytestmark = pytest.mark.browser


def test_lots_run_alone_from_their_own_tap_until_taken_out(
    server: FloorServer, phone: Open
) -> None:
    roast = first(SHEET, "tomas", operation_name="Roast", part="work")
    server.ticks.clear()
    page = phone("/cooks/tomas")
    assert current_batch(page) == roast.number
    tap(page, "finish")
    timer = page.locator(".timers .timer")
    expect(timer).to_contain_text("Roast Veal bones")
    left = timer.locator("[data-left]").inner_text()
    assert re.fullmatch(r"(49:\d\d|50:00)", left)
    expect(page.locator('[data-act="finish"]')).to_have_text(f"Done {roast.number}: 2 of 3")
    expect(page.locator("[data-awake]")).not_to_have_text(re.compile("nothing of yours runs"))
    page.get_by_role("button", name="All lots done at once").click()
    until(lambda: all(server.floor.of(task.id).done for task in roast.tasks))


def test_an_alarm_is_seen_answered_and_ended_by_taking_out(
    server: FloorServer, phone: Open
) -> None:
    roast = first(SHEET, "tomas", operation_name="Roast", part="work")
    out = first(SHEET, "tomas", operation_name="Roast", part="finish")
    server.ticks[:] = [tick(Act.DONE, roast, NOW - roast.unattended - 2.5)]
    wall = phone("/wall", viewport=SCREENS["wall"])
    page = phone("/cooks/tomas")
    timer = page.locator(".timers .timer")
    expect(timer).to_have_class(re.compile("is-due"))
    expect(timer.locator("[data-left]")).to_have_text("2 min over")
    expect(wall.locator(".timer.is-due")).to_contain_text("2 min over")
    page.screenshot(path=ARTEFACTS / "floor-cook-alarm.png")
    timer.get_by_role("button", name="I hear it").click()
    expect(wall.locator(".timer[data-heard]")).to_have_count(1)
    timer.get_by_role("button", name="Taken out").click()
    until(lambda: all(server.floor.of(task.id).done for task in out.tasks))
    expect(timer).to_have_count(0)
    expect(wall.locator(".timer")).to_have_count(0)


def test_sound_is_turned_on_by_one_tap_and_comes_back_with_the_next(phone: Open) -> None:
    page = phone("/cooks/ines")
    expect(page.locator("[data-sound]")).to_have_text("Sound is off")
    page.locator("[data-sound-on]").click()
    expect(page.locator("[data-sound]")).to_have_text("Sound is on")
    again = phone("/cooks/ines", page.context)
    expect(again.locator("[data-sound]")).to_have_text(re.compile("comes back|is on"))
    again.locator(".now h3").click()
    expect(again.locator("[data-sound]")).to_have_text("Sound is on")


def test_the_wall_follows_by_itself(server: FloorServer, phone: Open) -> None:
    wall = phone("/wall", viewport=SCREENS["wall"])
    done = len(server.says(Act.DONE))
    expect(wall.locator(".wall-top")).to_contain_text(f"{done} of")
    page = phone("/cooks/ines")
    tap(page, "finish")
    expect(wall.locator(".wall-top")).to_contain_text(f"{done + 1} of")


def test_the_wall_follows_also_where_a_script_comes_late(server: FloorServer, phone: Open) -> None:
    page = phone("")
    page.route("**/hx-sse*", lambda route: (page.wait_for_timeout(400), route.continue_())[1])
    page.goto(f"{server.address}{server.base}/wall")
    done = len(server.says(Act.DONE))
    expect(page.locator(".wall-top")).to_contain_text(f"{done} of")
    page.wait_for_timeout(500)
    server.ticks.append(tick(Act.DONE, INES.batches[-1], NOW))
    expect(page.locator(".wall-top")).to_contain_text(f"{done + 1} of", timeout=5000)


def test_the_wall_says_when_it_hears_nothing(server: FloorServer, phone: Open) -> None:
    wall = phone("/wall", viewport=SCREENS["wall"])
    expect(wall.locator(".wall-top")).to_contain_text("of")
    server.down = True
    with wall.expect_response(re.compile("/wall$")):
        wall.evaluate(
            """htmx.trigger('#stream', 'floor',
                {data: JSON.stringify({now: new Date().toISOString()})})"""
        )
    wall.wait_for_timeout(300)
    expect(wall.locator(".wall-top")).to_contain_text("of")
    wall.evaluate("document.getElementById('stream')._htmx?.sse?.reader?.cancel()")
    expect(wall.locator("[data-notice]")).to_contain_text("No connection since", timeout=15_000)
