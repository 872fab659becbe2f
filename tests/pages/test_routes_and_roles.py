"""Every address of the application, and what it answers to whom."""

from dataclasses import dataclass, field

import pytest
from sqlalchemy import func, select

from server.storage.models import Row
from tests.conftest import SMALL_HOUSE
from tests.databases import sqlite_database
from tests.pages.test_open_a_house import well_formed
from tests.stored_houses import WholeSite, small_file

NOBODY = "0" * 32
SMALL = SMALL_HOUSE.read_text()
WHOLE = {"firms", "people", "houses"}  # tables compared row by row
EXEMPT = {"static"}  # mounts, by name
PARTS = {"material": "gypsum board", "thickness": "1/2 in", "basis": "measured"}
FOR_ALL = ("page", "page", "page", "page")
SIGNED_IN = ("sign in", "page", "page", "page")
OF_A_HOUSE = ("sign in", "gone", "page", "page")
CHANGES_A_HOUSE = ("sign in", "gone", "done", "done")


@dataclass
class Address:
    """outcomes: for nobody, another firm's lead, a contractor, the lead of the house's firm."""

    route: str
    outcomes: tuple[str, str, str, str]
    form: dict[str, str] = field(default_factory=dict)
    files: dict[str, tuple[None, str]] = field(default_factory=dict)


PAGES = [
    Address("GET /", ("page", "done", "done", "done")),
    Address("GET /demo", FOR_ALL),
    Address("GET /materials", FOR_ALL),
    Address("POST /comparison", FOR_ALL, {"text": SMALL}),
    Address("POST /comparison-file", FOR_ALL, {"text": SMALL}),
    Address("GET /sign-in", ("page", "done", "done", "done")),
    Address("POST /sign-in", ("wrong",) * 4, {"email": "x@example.com", "password": "wrong one"}),
    Address("GET /sign-in/{token}", ("dead",) * 4),
    Address("POST /sign-in/{token}", ("dead",) * 4),
    Address("GET /account", SIGNED_IN),
    Address("POST /account/password", ("sign in", "wrong", "wrong", "wrong"), {"new": "short"}),
    Address("POST /units", ("done", "done", "done", "done"), {"units": "si"}),
    Address("GET /people", ("sign in", "page", "refused", "page")),
    Address("POST /people", ("sign in", "wrong", "refused", "wrong"), {"name": "Nina Invented"}),
    Address("POST /people/{person:key}/link", ("sign in", "gone", "refused", "page")),
    Address("POST /people/{person:key}/disable", ("sign in", "gone", "refused", "done")),
    Address("POST /people/{person:key}/enable", ("sign in", "gone", "refused", "done")),
    Address("POST /sign-out", ("sign in",) * 4),
    Address("GET /houses", SIGNED_IN),
    Address("GET /houses/new", SIGNED_IN),
    Address(
        "POST /houses",
        ("sign in", "done", "done", "done"),
        {"name": "12 Example Street", "region": "piedmont-nc"},
    ),
    Address("GET /regions", SIGNED_IN),
    Address("POST /regions", ("sign in", "wrong", "refused", "wrong"), {"name": ""}),
    Address("GET /regions/{name}", ("sign in", "page", "refused", "page")),
    Address("POST /regions/{name}", ("sign in", "wrong", "refused", "wrong"), {"name": ""}),
    Address("GET /regions/{name}/stations", ("sign in", "page", "refused", "page")),
    Address(
        "POST /regions/{name}/stations",
        ("sign in", "wrong", "refused", "wrong"),
        {"station": "nowhere"},
    ),
    Address("POST /regions/{name}/weather-file", ("sign in", "wrong", "refused", "wrong")),
    Address("GET /regions/{name}/months", ("sign in", "page", "refused", "page")),
    Address("POST /regions/{name}/months", ("sign in", "wrong", "refused", "wrong")),
    Address("GET /offer/{token}", ("gone",) * 4),
    Address("POST /offer/{token}", ("gone",) * 4),
    Address("GET /prices", SIGNED_IN),
    Address("GET /prices/file", SIGNED_IN),
    Address(
        "POST /prices",
        ("sign in", "wrong", "refused", "wrong"),
        {"line": "off-cladding", "version": "1", "material": "much"},
    ),
    Address("POST /prices/from-file", ("sign in", "wrong", "refused", "wrong"), {"text": "no"}),
    Address("POST /houses/from-file", ("sign in", "done", "done", "done"), {"text": SMALL}),
]
OF_HOUSES = [
    Address("GET /houses/{key:key}/offers", OF_A_HOUSE),
    Address("POST /houses/{key:key}/offers", ("sign in", "gone", "page", "page"), {"seen": "0"}),
    Address(
        "POST /houses/{key:key}/offers/{offer:key}/revoke", ("sign in", "gone", "gone", "gone")
    ),
    Address("GET /houses/{key:key}/climate", OF_A_HOUSE),
    Address("POST /houses/{key:key}/climate/station", CHANGES_A_HOUSE, {"station": "USW00013723"}),
    Address("POST /houses/{key:key}/climate/file", ("sign in", "gone", "wrong", "wrong")),
    Address("GET /houses/{key:key}/region", OF_A_HOUSE),
    Address(
        "POST /houses/{key:key}/region",
        CHANGES_A_HOUSE,
        {"to": "piedmont-nc", "version": "1", "seen": "1"},
    ),
    Address("GET /houses/{key:key}/file", OF_A_HOUSE),
    Address("POST /houses/{key:key}/copy", CHANGES_A_HOUSE),
    Address("POST /houses/{key:key}/shelf", CHANGES_A_HOUSE, {"shelf": "bin"}),
    *(
        Address(f"GET /houses/{{key:key}}{path}", OF_A_HOUSE)
        for path in (
            *("", "/systems", "/seen", "/spaces", "/assemblies", "/junctions", "/strategies"),
            *("/working", "/history", "/comparison", "/comparison/file", "/comparison/csv"),
            *("/parts/{part:key}", "/assemblies/{assembly:key}"),
            *("/strategies/{strategy:key}", "/strategies/{strategy:key}/cost"),
            "/strategies/{strategy:key}/field-sheet",
            "/strategies/{strategy:key}/changes/{part:key}",
        )
    ),
    Address(
        "POST /houses/{key:key}/edit",
        CHANGES_A_HOUSE,
        {"place": "bedrooms", "page": "systems", "value": "4", "seen": "3"},
    ),
    Address(
        "POST /houses/{key:key}/parts",
        CHANGES_A_HOUSE,
        {
            "name": "new wall",
            "kind": "wall",
            "from": "indoors",
            "to": "outdoors",
            "area": "10 m^2",
            "built": "house:wall as found",
        },
    ),
    Address("POST /houses/{key:key}/parts/{part:key}/copy", CHANGES_A_HOUSE),
    Address("POST /houses/{key:key}/parts/{part:key}/remove", CHANGES_A_HOUSE),
    Address(
        "POST /houses/{key:key}/spaces",
        CHANGES_A_HOUSE,
        {"page": "spaces", "name": "den", "inside": "yes", "volume": "30 m^3"},
    ),
    Address(
        "POST /houses/{key:key}/spaces/{space:key}/remove",
        ("sign in", "gone", "wrong", "wrong"),
        {"page": "spaces", "form": "press"},
    ),
    Address("POST /houses/{key:key}/assemblies", CHANGES_A_HOUSE, {"name": "new assembly"}),
    Address("POST /houses/{key:key}/assemblies/{assembly:key}/copy", CHANGES_A_HOUSE),
    Address(
        "POST /houses/{key:key}/assemblies/{assembly:key}/remove",
        ("sign in", "gone", "wrong", "wrong"),
        {"page": "assemblies", "form": "press"},
    ),
    Address(
        "POST /houses/{key:key}/layers",
        CHANGES_A_HOUSE,
        PARTS | {"holder": "assemblies/{assembly}/layers", "page": "assemblies/{assembly}"},
    ),
    Address(
        "POST /houses/{key:key}/layers/{layer:key}/move",
        CHANGES_A_HOUSE,
        {"holder": "assemblies/{assembly}/layers", "page": "assemblies/{assembly}"},
    ),
    Address(
        "POST /houses/{key:key}/layers/{layer:key}/remove",
        CHANGES_A_HOUSE,
        {"holder": "assemblies/{assembly}/layers", "page": "assemblies/{assembly}"},
    ),
    Address(
        "POST /houses/{key:key}/junctions",
        CHANGES_A_HOUSE,
        {
            "page": "junctions",
            "name": "eaves",
            "from": "indoors",
            "to": "outdoors",
            "length": "9 m",
            "psi": "0.1 W/(m*K)",
        },
    ),
    Address("POST /houses/{key:key}/junctions/{junction:key}/remove", CHANGES_A_HOUSE),
    Address("POST /houses/{key:key}/air/guess", CHANGES_A_HOUSE, {"page": "systems"}),
    Address("POST /houses/{key:key}/cooling", CHANGES_A_HOUSE, {"cooling": "no"}),
    Address("POST /houses/{key:key}/strategies", CHANGES_A_HOUSE, {"recipe": "own"}),
    Address("POST /houses/{key:key}/strategies/{strategy:key}/copy", CHANGES_A_HOUSE),
    Address("POST /houses/{key:key}/strategies/{strategy:key}/remove", CHANGES_A_HOUSE),
    Address(
        "POST /houses/{key:key}/strategies/{strategy:key}/inside",
        CHANGES_A_HOUSE,
        {"inside": "attic"},
    ),
    Address(
        "POST /houses/{key:key}/strategies/{strategy:key}/changes/{part:key}",
        CHANGES_A_HOUSE,
        {"sort": "fill"},
    ),
    Address("POST /houses/{key:key}/restore", CHANGES_A_HOUSE, {"version": "1", "seen": "1"}),
]
ALL = [*PAGES, *OF_HOUSES]


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    made = WholeSite(sqlite_database(tmp_path_factory.mktemp("site")))
    made.newcomer = made.add("Nora Invented", "nora@example.com", "contractor")
    yield made
    made.database.close()


@pytest.fixture(scope="module")
def house(site):
    """A house that no test changes."""
    return site.store(small_file())


def routes(site):
    """Method and path of every route, those of included routers too; parts of a house are alike."""

    def walk(found):
        for each in found:
            if hasattr(each, "effective_candidates"):
                yield from walk(each.effective_candidates())
            else:
                yield each

    for each in walk(site.app.routes):
        if getattr(each, "name", None) not in EXEMPT:
            yield from (f"{method} {each.path}" for method in each.methods)


def plain(route):
    """A route without the names of its keys."""
    names = ("part", "component", "person", "assembly", "space", "layer", "junction", "offer")
    for name in names:
        route = route.replace(f"{{{name}:key}}", "{key:key}")
    return route.replace("{strategy:key}", "{key:key}")


def test_every_route_is_in_the_table_once(site):
    found = sorted(plain(route) for route in routes(site))
    assert len(found) > 50
    assert found == sorted(plain(address.route) for address in ALL)


def keys(site, house):
    document = site.stored(house).house.as_stored()
    assembly = document["assemblies"]["wall as found"]
    return {
        "key": house,
        "person": site.newcomer.key,
        "part": document["components"][0]["key"],
        "assembly": assembly["key"],
        "layer": assembly["layers"][1]["key"],
        "space": document["spaces"]["attic"]["key"],
        "junction": document["junctions"][0]["key"],
        "strategy": document["strategies"][0]["key"],
        "token": "no-such-token",
        "name": "piedmont-nc",
        "offer": NOBODY,
    }


def asked(site, person, address, house):
    """The answer to someone."""
    known = keys(site, house)
    method, path = address.route.replace(":key}", "}").split(" ")
    form = {name: fill(text, known) for name, text in address.form.items()}
    visitor = site.visitor(person)
    return visitor.send(method, path.format_map(known), data=form if method == "POST" else None)


def fill(text, known):
    return text if text.startswith("{\n") else text.format_map(known)


def outcome(response):
    """What became of a request, in a word."""
    going = response.headers.get("location", "")
    if response.status_code == 303:
        return "sign in" if going.startswith("/sign-in") else "done"
    words = {200: "page", 403: "refused", 404: "gone", 410: "dead", 422: "wrong"}
    return words.get(response.status_code, str(response.status_code))


def everything(site):
    """What every change shows in: people, houses with their versions, how many rows there are."""
    tables = [table for table in Row.metadata.sorted_tables if table.name != "sessions"]
    counts = [select(func.count()).select_from(table).scalar_subquery() for table in tables]
    with site.database.session(writing=False) as session:
        whole = [session.execute(select(table)).all() for table in tables if table.name in WHOLE]
        return whole, session.execute(select(*counts)).one()


@pytest.mark.parametrize("address", ALL, ids=lambda address: address.route)
def test_each_gets_what_is_theirs(site, house, address):
    for_nobody, for_stranger, for_contractor, for_lead = address.outcomes
    of_house = address in OF_HOUSES
    before = everything(site)
    assert outcome(asked(site, None, address, house)) == for_nobody
    assert everything(site) == before
    answer = asked(site, site.stranger, address, house)
    assert outcome(answer) == for_stranger
    if of_house:
        assert for_stranger == "gone"
        assert "Small example house" not in answer.text
        assert everything(site) == before
    for person, expected in ((site.contractor, for_contractor), (site.lead, for_lead)):
        own = site.store(small_file()) if of_house and address.route.startswith("POST") else house
        answer = asked(site, person, address, own)
        assert outcome(answer) == expected
        if answer.headers.get("content-type", "").startswith("text/html"):
            well_formed(answer)


@pytest.mark.parametrize("address", OF_HOUSES, ids=lambda address: address.route)
def test_a_house_or_part_that_is_not_there_is_gone(site, house, address):
    known = keys(site, house)
    method, path = address.route.replace(":key}", "}").split(" ")
    form = {name: fill(text, known) for name, text in address.form.items()}
    visitor = site.visitor(site.contractor)
    for name in ("key", "part", "assembly", "space", "layer", "junction", "strategy"):
        if f"{{{name}}}" in path:
            wrong = path.format_map(known | {name: NOBODY})
            answer = visitor.send(method, wrong, data=form if method == "POST" else None)
            assert (name, answer.status_code) == (name, 404)


def test_a_disabled_person_is_out_of_every_page(site, house):
    gone = site.add("Gil Invented", "gil@example.com", "contractor")
    visitor = site.visitor(gone)
    assert visitor.get(f"/houses/{house}").status_code == 200
    site.visitor(site.lead).post(f"/people/{gone.key}/disable")
    assert outcome(visitor.get(f"/houses/{house}")) == "sign in"
    assert outcome(visitor.post(f"/houses/{house}/edit", {"place": "bedrooms"})) == "sign in"


@pytest.mark.parametrize("address", OF_HOUSES, ids=lambda address: address.route)
def test_no_other_site_can_send_a_form(site, house, address):
    method, path = address.route.replace(":key}", "}").split(" ")
    if method == "POST":
        before = everything(site)
        answer = site.visitor(site.lead).send(
            method,
            path.format_map(keys(site, house)),
            data=address.form,
            headers={"Origin": "https://elsewhere.example"},
        )
        assert answer.status_code == 403
        assert everything(site) == before


def test_who_signs_in_goes_on_to_the_page_that_was_asked(site, house):
    answer = site.visitor().get(f"/houses/{house}/parts/{NOBODY}?x=1")
    assert answer.headers["location"] == f"/sign-in?next=/houses/{house}/parts/{NOBODY}%3Fx%3D1"


def test_htmx_is_told_to_go_to_the_sign_in_page(site, house):
    answer = site.visitor().post(
        f"/houses/{house}/edit", {"place": "bedrooms"}, headers={"HX-Request": "true"}
    )
    assert (answer.headers["HX-Redirect"], answer.text) == ("/sign-in", "")
