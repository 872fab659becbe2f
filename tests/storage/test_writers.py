"""Many people write to one house at once."""

import asyncio
import threading

import httpx
import pytest

from server.actions.edit_value import Conflict, Edit, edit_value
from server.actions.structure import remove_component
from server.files.keyed import Gone
from tests.accounts.site import MovedClock
from tests.stored_houses import Firm, WholeSite, many_parts

WRITERS = 20


@pytest.fixture
def firm(database):
    return Firm(database, MovedClock())


def in_threads(work):
    """What becomes of work(0) to work(19), begun at once."""
    start, done = threading.Barrier(WRITERS), {}

    def run(number):
        start.wait()
        try:
            done[number] = work(number)
        except Exception as error:  # shown by the assertion
            done[number] = error

    threads = [threading.Thread(target=run, args=(number,)) for number in range(WRITERS)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return done


def areas(firm, key):
    return [part["area"] for part in firm.load(key).house.as_written()["components"]][:WRITERS]


def test_twenty_fields_at_once_are_all_saved(firm):
    key = firm.add(many_parts(WRITERS))
    document = firm.load(key).house.as_stored()
    parts = document["components"][:WRITERS]
    assert len(parts) == WRITERS

    def edit(number):
        part = parts[number]
        with firm.houses() as houses:
            made = Edit(f"components/{part['key']}/area", [part["area"]], f"{100 + number} ft^2")
            return edit_value(houses, key, made, f"Writer {number}").version

    done = in_threads(edit)
    assert sorted(done.values(), key=str) == sorted(range(2, 22), key=str)
    assert areas(firm, key) == [f"{100 + number} ft^2" for number in range(WRITERS)]
    assert firm.load(key).version == 21
    with firm.houses(writing=False) as houses:
        revisions = houses.revisions(key)
    assert {each.by for each in revisions[:-1]} == {f"Writer {n}" for n in range(WRITERS)}
    assert all(len(each.what) == 1 for each in revisions[:-1])


def test_of_twenty_in_the_same_field_one_wins(firm):
    key = firm.add(many_parts(WRITERS))
    seen = firm.load(key).house.as_stored()["floor_area"]

    def edit(number):
        with firm.houses() as houses:
            made = Edit("floor_area", [seen], f"{1500 + number} ft^2")
            return edit_value(houses, key, made, f"Writer {number}").version

    done = in_threads(edit)
    (winner,) = [number for number, found in done.items() if found == 2]
    others = [found for number, found in done.items() if number != winner]
    assert all(isinstance(found, Conflict) for found in others)
    assert {found.theirs for found in others} == {f"{1500 + winner} ft^2"}
    stored = firm.load(key)
    assert (stored.version, stored.house.as_written()["floor_area"]) == (2, f"{1500 + winner} ft^2")


def test_a_part_removed_meanwhile_is_gone_and_nothing_else_is_lost(firm):
    key = firm.add(many_parts(WRITERS))
    part = next(
        each for each in firm.load(key).house.as_stored()["components"] if each["kind"] == "window"
    )

    def work(number):
        with firm.houses() as houses:
            if number == 0:
                stored = houses.load(key, to_change=True)
                document = stored.house.as_stored()
                remove_component(document, part["key"])
                house = type(stored.house).from_stored(document)
                return houses.save_house(key, house, stored.version, "Writer 0")
            made = Edit(f"components/{part['key']}/shgc", [part["shgc"]], 0.01 * number)
            return edit_value(houses, key, made, f"Writer {number}").version

    done = in_threads(work)
    assert isinstance(done[0], int)
    assert all(isinstance(found, int | Conflict | Gone) for found in done.values())
    assert part["key"] not in [c.key for c in firm.load(key).house.components]


# Through the pages


@pytest.fixture
def site(database):
    return WholeSite(database)


def posted_at_once(site, path, forms):
    """The answers to forms that are all sent before the first is answered."""
    cookies = [site.visitor(site.contractor).cookies for _ in forms]

    async def send(form, jar):
        transport = httpx.ASGITransport(app=site.app, raise_app_exceptions=False)
        async with httpx.AsyncClient(
            transport=transport, base_url="http://test", cookies=jar
        ) as client:
            return await client.post(path, data=form)

    async def all_at_once():
        return await asyncio.gather(*map(send, forms, cookies))

    return asyncio.run(all_at_once())


def seen_in(value):
    from server.pages.house.typed import seen_text

    return seen_text(value)


def test_twenty_forms_for_twenty_fields_are_all_saved(site):
    key = site.store(many_parts(WRITERS))
    parts = site.stored(key).house.as_stored()["components"][:WRITERS]
    forms = [
        {
            "place": f"components/{part['key']}/area",
            "page": f"parts/{part['key']}",
            "seen": seen_in(part["area"]),
            "value": f"{100 + number} ft^2",
            "basis": "document",
        }
        for number, part in enumerate(parts)
    ]
    answers = posted_at_once(site, f"/houses/{key}/edit", forms)
    assert [answer.status_code for answer in answers] == [303] * WRITERS
    stored = site.stored(key)
    assert stored.version == 21
    written = stored.house.as_written()["components"][:WRITERS]
    assert [part["area"]["value"] for part in written] == [
        f"{100 + n} ft^2" for n in range(WRITERS)
    ]


def test_of_twenty_forms_for_one_field_one_is_saved(site):
    key = site.store(many_parts(WRITERS))
    seen = seen_in(site.stored(key).house.as_stored()["floor_area"])
    forms = [
        {
            "place": "floor_area",
            "page": "systems",
            "seen": seen,
            "value": f"{1500 + n} ft^2",
            "basis": "document",
        }
        for n in range(WRITERS)
    ]
    answers = posted_at_once(site, f"/houses/{key}/edit", forms)
    statuses = [answer.status_code for answer in answers]
    assert sorted(statuses) == [303] + [422] * (WRITERS - 1)
    won = forms[statuses.index(303)]["value"]
    assert site.stored(key).house.as_written()["floor_area"] == {"value": won, "basis": "document"}
    assert site.stored(key).version == 2
    lost = answers[statuses.index(422)].text
    assert f"Somebody else wrote “{won} (document)” here meanwhile" in lost
    assert forms[statuses.index(422)]["value"] in lost
