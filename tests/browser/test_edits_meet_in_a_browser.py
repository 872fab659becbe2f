"""Edits in a real Chromium that meet each other, an ended session or a server that is away."""

from __future__ import annotations

import contextlib
import os
import re
import socket
import subprocess
import sys
import time

import pytest
from playwright.sync_api import expect

from tests.browser.house_page import AREA, commit, version
from tests.conftest import ROOT
from tests.databases import sqlite_database

pytestmark = pytest.mark.browser


def test_a_field_edited_in_two_tabs_conflicts_and_another_does_not(site, house, open_page):
    first = open_page(as_=site.person())
    first.goto(site.part_path(house, "south wall"))
    second = first.context.new_page()
    second.goto(first.url)
    commit(first, first.get_by_role("textbox", name=AREA), "410 ft^2")

    area = second.get_by_role("textbox", name=AREA)
    area.fill("420 ft^2")
    area.press("Enter")
    conflict = second.get_by_role("alert")
    expect(conflict).to_contain_text("“410 ft^2")
    assert area.input_value() == "420 ft^2"
    assert site.part(house, "south wall").area.typed == "410 ft^2"
    area.press("Enter")
    expect(second.locator(".saved")).to_be_visible()
    expect(conflict).to_have_count(0)
    assert site.part(house, "south wall").area.typed == "420 ft^2"

    azimuth = first.get_by_role("textbox", name="Faces, degrees from north")
    commit(first, azimuth, "170 deg")
    expect(first.get_by_role("alert")).to_have_count(0)
    stored = site.part(house, "south wall")
    assert (stored.area.typed, stored.azimuth.typed) == ("420 ft^2", "170 deg")


LATE = {
    "edits arrive late": [(1.2, 0.0), (0.8, 0.0), (0.4, 0.0), (0.0, 0.0)],
    "answers arrive late": [(0.0, 1.2), (0.0, 0.8), (0.0, 0.4), (0.0, 0.0)],
}


@pytest.mark.parametrize("waits", LATE.values(), ids=LATE.keys())
def test_of_quick_edits_the_last_stays(site, house, open_page, waits):
    page = open_page(as_=site.person())
    page.goto(site.part_path(house, "south wall"))
    area = page.get_by_role("textbox", name=AREA)
    site.delays.delay(*waits)
    for text in ("411 ft^2", "412 ft^2", "413 ft^2", "414 ft^2"):
        area.fill(text)
        area.blur()
    while site.part(house, "south wall").area.typed != "414 ft^2":
        page.wait_for_timeout(20)
    expect(page.locator(".saved")).to_be_visible()
    assert page.get_by_role("alert").count() == 0
    assert area.input_value() == "414 ft^2"
    assert site.part(house, "south wall").area.typed == "414 ft^2"


def test_what_is_open_and_in_use_outlives_a_page_loaded_anew(site, house, open_page):
    page = open_page(as_=site.person())
    page.goto(site.part_path(house, "south wall").split("/parts/")[0] + "/seen")
    page.get_by_text("Limits of your own").click()
    limit = page.get_by_role("textbox", name="Framed walls, U at most")
    commit(page, limit, "0.06")
    expect(limit).to_be_visible()
    assert limit.evaluate("each => each === document.activeElement") is False  # Tab went on
    humidity = page.get_by_role("textbox", name="Or twelve relative humidities")
    humidity.fill("45")
    with page.expect_event("load"):
        humidity.press("Tab")
    known = page.get_by_label("How Or twelve relative humidities is known")
    expect(known).to_be_focused()
    expect(limit).to_be_visible()
    expect(humidity).to_have_value(re.compile("0.45 0.45"))
    limit.fill("")
    humidity.fill("46")
    summary = page.locator("summary", has_text="Limits of your own")
    with page.expect_event("load"):
        summary.focus()
    expect(summary).to_be_focused()
    expect(limit).to_be_visible()


def test_an_answer_that_arrives_takes_no_letter_that_was_typed(site, house, open_page):
    page = open_page(as_=site.person())
    page.goto(site.part_path(house, "south wall"))
    area = page.get_by_role("textbox", name=AREA)
    site.delays.delay((0.0, 0.4))
    area.fill("415 ft^2")
    area.press("Enter")
    typed = "416.25 ft^2"
    area.select_text()
    page.keyboard.type(typed[:4])
    expect(page.locator(".saved")).to_be_visible()
    page.keyboard.type(typed[4:])
    assert area.input_value() == typed
    commit(page, area, typed)
    assert site.part(house, "south wall").area.typed == typed


def test_an_ended_session_leads_to_the_sign_in_page(site, house, link, open_page):
    page = open_page(as_=site.person(), expected=("410",))
    page.goto(site.part_path(house, "south wall"))
    page.context.clear_cookies()
    page.get_by_role("textbox", name=AREA).fill("417 ft^2")
    page.get_by_role("textbox", name=AREA).press("Enter")
    page.wait_for_url(re.compile("/sign-in"))
    assert site.stored(house).version == 1

    page.goto(link)
    page.get_by_role("main").get_by_role("button", name="Sign in").click()
    page.get_by_role("heading", name="Houses").wait_for()
    for dead in (link, f"{site.address}/sign-in/{'x' * 27}"):
        assert page.goto(dead).status == 410
        assert page.get_by_role("main").get_by_role("link", name="Sign in").is_visible()


def wait_until_it_answers(port: int) -> None:
    """Wait until a server takes connections."""
    while True:
        with contextlib.suppress(ConnectionRefusedError):
            socket.create_connection(("127.0.0.1", port)).close()
            return
        time.sleep(0.05)


def stop(server: subprocess.Popen[str]) -> None:
    """Kill a server as a power cut would."""
    server.kill()
    server.communicate()


def test_a_server_killed_between_two_edits_loses_neither(tmp_path, open_page):
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
    sqlite_database(tmp_path).close()
    environment = os.environ | {"WARMSIDE_DATABASE_URL": f"sqlite:///{tmp_path}/warmside.db"}

    def started() -> tuple[subprocess.Popen[str], str]:
        command = [sys.executable, "-m", "server", "--port", str(port)]
        server = subprocess.Popen(
            command, cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True
        )
        said = ""
        while "Ctrl-C" not in said:
            line = server.stdout.readline()
            assert line, said
            said += line
        wait_until_it_answers(port)
        return server, said

    server, said = started()
    try:
        page = open_page(expected=("ERR_CONNECTION_REFUSED", "Failed to fetch"))
        page.goto(re.search(r"contractor: (\S+)", said)[1])
        page.get_by_role("main").get_by_role("button", name="Sign in").click()
        page.locator(".lines a").first.click()
        page.locator(".lines a").first.click()
        area = page.get_by_role("textbox", name=AREA)
        commit(page, area, "421 ft^2")
        before = version(page)
        stop(server)
        area.fill("422 ft^2")
        area.press("Enter")
        expect(page.get_by_role("alert")).to_contain_text("Not saved")
        assert page.locator(".saved").count() == 0
        assert area.input_value() == "422 ft^2"

        server, _said = started()
        again = page.context.new_page()
        again.goto(page.url)
        assert again.get_by_role("textbox", name=AREA).input_value() == "421 ft^2"
        assert version(again) == before
        area.press("Enter")
        expect(page.locator(".saved")).to_be_visible()
        expect(page.get_by_role("alert")).to_have_count(0)
        again.reload()
        assert again.get_by_role("textbox", name=AREA).input_value() == "422 ft^2"
        assert area.input_value() == "422 ft^2"
    finally:
        stop(server)


def test_an_edit_that_loads_the_page_anew_keeps_what_is_being_typed(site, house, open_page):
    page = open_page(as_=site.person())
    page.goto(f"{site.address}/houses/{house}/systems")
    site.delays.delay((0.0, 0.5))
    page.get_by_role("textbox", name="Air changes an hour at 50 Pa").fill("9.5")
    floor_area = page.get_by_role("textbox", name="Floor area")
    floor_area.focus()
    floor_area.select_text()
    with page.expect_navigation():
        page.keyboard.type("1500 ft^2")
    assert floor_area.input_value() == "1500 ft^2"
    assert floor_area.evaluate("field => field === document.activeElement")
    page.keyboard.press("Tab")
    expect(page.locator(".saved")).to_be_visible()
    assert page.get_by_role("textbox", name="Air changes an hour at 50 Pa").input_value() == "9.5"
