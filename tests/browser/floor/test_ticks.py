"""A cook's page under the thumb: ticks, weights, bad wifi, two devices."""

import time

import pytest
from playwright.sync_api import expect

from planner.floor.ticks import Act, Weighed
from tests.browser.floor.floor_server import FloorServer
from tests.browser.floor.hands import INES, SCREENS, SHEET, Open, current_batch, tap, until
from tests.browser.looks import ARTEFACTS
from tests.web.floor.example import batch_of

pytestmark = pytest.mark.browser


def test_done_start_done_with_one_tap_each(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    at_hand = current_batch(page)
    tap(page, "finish")
    following = INES.batches[[one.number for one in INES.batches].index(at_hand) + 1]
    assert current_batch(page) == following.number
    tap(page, "start")
    expect(page.locator("[data-now-title]")).to_have_text("Now")
    expect(page.locator("[data-sending]")).to_have_text("All sent")
    until(lambda: len(server.says(Act.BEGUN)) > 0 and server.ticks[-1].act is Act.BEGUN)
    done, begun = server.ticks[-2:]
    assert (done.act, done.tasks) == (
        Act.DONE,
        tuple(task.id for task in batch_of(SHEET, at_hand).tasks),
    )
    assert begun.tasks == tuple(task.id for task in following.tasks)
    assert begun.cook == "ines"
    assert abs(begun.at - server.minutes(time.time())) < 0.2


def test_the_buttons_name_the_batch_they_are_for(phone: Open) -> None:
    """Whoever reads ahead must not start another batch than the one at hand."""
    page = phone("/cooks/ines")
    expect(page.locator('[data-act="finish"]')).to_have_text(f"Done {current_batch(page)}")
    tap(page, "finish")
    expect(page.locator('[data-act="start"]')).to_have_text(f"Start {current_batch(page)}")


def test_a_second_tap_of_wet_fingers_does_nothing(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    before = len(server.says(Act.DONE))
    page.locator('[data-act="finish"]').dblclick()
    page.wait_for_timeout(500)
    assert len(server.says(Act.DONE)) == before + 1


def test_a_tap_is_taken_back_for_a_while(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    at_hand = current_batch(page)
    tap(page, "finish")
    assert current_batch(page) != at_hand
    page.get_by_role("button", name="Undo").click()
    assert current_batch(page) == at_hand
    until(lambda: server.ticks[-1].act is Act.TAKEN_BACK)
    assert server.floor.of(batch_of(SHEET, at_hand).tasks[0].id).done is None


def test_done_by_mistake_is_found_in_the_list_and_taken_back(
    server: FloorServer, phone: Open
) -> None:
    page = phone("/cooks/ines")
    done = INES.batches[0]
    page.locator("summary:has([data-done-count])").click()
    page.locator(f'[data-row="{done.number}"] > details > summary').click()
    page.locator(f'[data-job="{done.number}"]').get_by_role(
        "button", name="Not done after all"
    ).click()
    until(lambda: server.floor.of(done.tasks[0].id).done is None)


def test_without_network_ticks_wait_are_counted_and_go_out_once_in_order(
    server: FloorServer, phone: Open
) -> None:
    page = phone("/cooks/ines")
    expect(page.locator("[data-sending]")).to_have_text("All sent")
    came = len(server.ticks)
    page.context.set_offline(True)
    for act in ("finish", "start", "finish"):
        tap(page, act)
    expect(page.locator("[data-sending]")).to_contain_text("3 wait to be sent")
    page.screenshot(path=ARTEFACTS / "floor-cook-offline.png")
    assert len(server.ticks) == came
    page.context.set_offline(False)
    expect(page.locator("[data-sending]")).to_have_text("All sent", timeout=10_000)
    assert [one.act for one in server.ticks[came:]] == [Act.DONE, Act.BEGUN, Act.DONE]
    keys = [one["key"] for post in server.posts for one in post["ticks"]]
    assert len(set(keys)) == 3


def test_a_server_in_trouble_gets_the_ticks_later(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    server.down = True
    tap(page, "finish")
    expect(page.locator("[data-sending]")).to_contain_text("1 waits to be sent")
    server.down = False
    expect(page.locator("[data-sending]")).to_have_text("All sent", timeout=10_000)
    assert len(server.posts) == 1


def test_the_page_is_read_and_ticked_without_network_after_it_was_closed(phone: Open) -> None:
    page = phone("/cooks/ines")
    expect(page.locator("[data-offline]")).to_have_text("Readable without network")
    page.reload()
    page.wait_for_timeout(500)
    at_hand = current_batch(page)
    page.context.set_offline(True)
    tap(page, "finish")
    page.close()
    again = phone("/cooks/ines", page_context := page.context)
    assert current_batch(again) != at_hand, "what was ticked before stays ticked"
    expect(again.locator("[data-sending]")).to_contain_text("1 waits to be sent")
    expect(again.locator(".now .job-what")).to_be_visible()
    page_context.set_offline(False)
    expect(again.locator("[data-sending]")).to_have_text("All sent", timeout=35_000)


def test_a_refused_tick_is_shown_with_its_remedy_and_not_sent_again(
    server: FloorServer, phone: Open
) -> None:
    page = phone("/cooks/ines")
    server.refuses = True
    tap(page, "finish")
    refused = page.locator("[data-refused] li")
    expect(refused).to_contain_text("not on this sheet. Load the page again")
    expect(page.locator("[data-sending]")).to_have_text("All sent")
    page.wait_for_timeout(1500)
    assert len(server.posts) == 1
    refused.get_by_role("button").click()
    expect(refused).to_have_count(0)


def test_two_devices_see_one_truth(phone: Open) -> None:
    one, other = phone("/cooks/ines"), phone("/cooks/ines")
    at_hand = current_batch(one)
    tap(one, "finish")
    until(lambda: current_batch(other) != at_hand)
    assert current_batch(other) == current_batch(one)


def test_a_problem_is_told_at_once_and_its_reason_after(server: FloorServer, phone: Open) -> None:
    page, wall = phone("/cooks/ines"), phone("/wall", viewport=SCREENS["wall"])
    tap(page, "problem")
    until(lambda: [one.reason for one in server.floor.problems] == ["Asks for help"])
    page.screenshot(path=ARTEFACTS / "floor-cook-problem.png")
    page.get_by_role("button", name="Too little food").click()
    until(lambda: [one.reason for one in server.floor.problems] == ["Too little food"])
    expect(wall.locator("#wall")).to_contain_text("Problem: Too little food")
    page.locator(".now").get_by_role("button", name="Solved").click()
    until(lambda: server.floor.problems == ())


def test_trim_is_weighed_with_its_tare_which_is_kept(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    page.locator(".now").get_by_role("button", name="Weigh").click()
    page.get_by_label("Scale shows, g").fill("640")
    page.get_by_label("Tare, g").fill("140")
    expect(page.locator("[data-net]")).to_have_text("net 500 g")
    page.screenshot(path=ARTEFACTS / "floor-cook-weigh.png")
    page.get_by_role("button", name="Keep weight").click()
    until(lambda: len(server.floor.weighings) == 1)
    weight = server.floor.weighings[0].weight
    assert (weight.kind, weight.grams, weight.tare_grams) == (Weighed.TRIM, 640, 140)
    expect(page.locator(".now [data-reports]")).to_contain_text("500 g")
    page.locator(".now").get_by_role("button", name="Weigh").click()
    expect(page.get_by_label("Tare, g")).to_have_value("140")
    page.get_by_label("Scale shows, g").fill("100")
    page.get_by_role("button", name="Keep weight").click()
    assert page.locator("[data-dialog=weigh]").is_visible(), "less than its container: weigh again"


def test_ounces_are_sent_as_grams(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines?units=us")
    page.locator(".now").get_by_role("button", name="Weigh").click()
    page.get_by_label("Scale shows, oz").fill("10,5")
    page.get_by_role("button", name="Keep weight").click()
    until(lambda: len(server.floor.weighings) == 1)
    assert server.floor.weighings[0].weight.grams == pytest.approx(297.7, abs=0.05)


def test_cuts_are_as_large_as_the_card_says(phone: Open) -> None:
    """A card's short side is 53.98 mm (ISO/IEC 7810): as drawn, so are the cuts."""
    page = phone("/cooks/ines")
    page.locator("[data-scale]").click()
    page.locator("[name=size]").evaluate(
        "one => { one.value = 5.3; one.dispatchEvent(new Event('input')); }"
    )
    card = page.locator("[data-card]").bounding_box()
    assert card is not None
    assert card["width"] == pytest.approx(53.98 * 5.3, abs=0.5)
    page.screenshot(path=ARTEFACTS / "floor-cook-scale.png")
    page.get_by_role("button", name="It matches").click()
    page.locator('[data-act="finish"]').click()
    drawn = page.locator(".now [data-drawn]").first
    box = drawn.locator("svg").bounding_box()
    assert box is not None
    assert box["width"] == pytest.approx(12.7 * 5.3, abs=0.2)
    expect(drawn).to_contain_text("true size")
    page.reload()
    box = page.locator(".now [data-drawn] svg").first.bounding_box()
    assert box is not None
    assert box["width"] == pytest.approx(12.7 * 5.3, abs=0.2)


def test_what_is_got_stays_ticked_on_the_device(phone: Open) -> None:
    page = phone("/cooks/ines")
    page.get_by_text("Pull list").click()
    box = page.locator(".pulls input[type=checkbox]").first
    box.check()
    page.reload()
    page.get_by_text("Pull list").click()
    expect(page.locator(".pulls input[type=checkbox]").first).to_be_checked()
    expect(page.locator(".pulls input[type=checkbox]").nth(1)).not_to_be_checked()


def test_another_release_is_told_before_the_list_changes(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    server.release = 2
    notice = page.locator("[data-release]")
    expect(notice).to_contain_text("The plan has changed (release 2)")
    notice.get_by_role("button").click()
    page.wait_for_load_state()
    expect(page.locator("[data-release]")).to_be_hidden()
    tap(page, "finish")
    until(lambda: bool(server.posts))
    assert server.posts[-1]["ticks"][0]["release"] == 2


def test_another_batch_is_picked_out_of_order(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    last = INES.batches[-1]
    page.locator(f'[data-row="{last.number}"] > details > summary').click()
    page.locator(f'[data-job="{last.number}"]').get_by_role(
        "button", name="Do this one now"
    ).click()
    assert current_batch(page) == last.number
    tap(page, "finish")
    until(lambda: server.floor.of(last.tasks[0].id).done is not None)
    assert current_batch(page) != last.number


def test_by_keyboard_alone(server: FloorServer, phone: Open) -> None:
    page = phone("/cooks/ines")
    for _ in range(80):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.dataset.act") == "finish":
            break
    outline = page.evaluate("getComputedStyle(document.activeElement).outlineWidth")
    assert outline == "3px"
    done = len(server.says(Act.DONE))
    page.keyboard.press("Enter")
    until(lambda: len(server.says(Act.DONE)) == done + 1)
