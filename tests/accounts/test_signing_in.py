"""Signing in with a password or a link, and signing out."""

import asyncio

import html5lib
import httpx
import pytest

from tests.accounts.site import PASSWORD

WRONG = {"password": "wrong"}


def well_formed(response):
    html5lib.HTMLParser(strict=True).parse(response.text)
    assert "{{" not in response.text
    return response.text


def typed(**changes):
    return {"email": "cory@example.com", "password": PASSWORD, "next": "/houses"} | changes


def test_a_password_signs_in(site):
    site.set_password(site.contractor)
    visitor = site.visitor()
    well_formed(visitor.get("/sign-in"))
    answer = visitor.post("/sign-in", typed(email=" Cory@Example.com ", next="/houses?order=name"))
    assert (answer.status_code, answer.headers["location"]) == (303, "/houses?order=name")
    assert visitor.get("/houses").json() == "Cory Invented"
    assert visitor.get("/sign-in").headers["location"] == "/houses"


def test_an_old_hash_is_renewed(site, monkeypatch):
    site.set_password(site.contractor)
    monkeypatch.setattr("server.pages.signing_in.forms.needs_rehash", lambda _kept: True)
    assert site.visitor().post("/sign-in", typed()).status_code == 303
    assert site.visitor().post("/sign-in", typed()).status_code == 303


@pytest.mark.parametrize("host", ["http://localhost:8000", "http://127.0.0.1", "http://[::1]:80"])
def test_the_cookie_on_this_machine(site, host):
    answer = site.visitor().send("POST", f"/sign-in/{site.link(site.lead)}", base=host)
    cookie = answer.headers["set-cookie"].lower()
    for words in ("httponly", "samesite=lax", "path=/", "max-age=2592000"):
        assert words in cookie
    assert "secure" not in cookie


@pytest.mark.parametrize("host", ["https://warmside.example.com", "http://192.0.2.7:8000"])
def test_the_cookie_over_a_network_only_travels_encrypted(site, host):
    answer = site.visitor().send("POST", f"/sign-in/{site.link(site.lead)}", base=host)
    assert "; secure" in answer.headers["set-cookie"].lower()


@pytest.mark.parametrize("changes", [WRONG, {"email": "nobody@example.com"}, {}])
def test_wrong_email_and_wrong_password_answer_alike(site, changes):
    if changes:
        site.set_password(site.contractor)
    answer = site.visitor().post("/sign-in", typed(next="/houses/7", **changes))
    assert answer.status_code == 422
    page = well_formed(answer)
    assert "do not belong together" in page
    assert "set-cookie" not in answer.headers
    assert 'value="/houses/7"' in page
    assert changes.get("email", "cory@example.com") in page
    assert PASSWORD not in page
    assert "wrong" not in page


@pytest.mark.parametrize(
    "data", [{}, {"email": "\0", "password": "\0"}, {"email": "ü" * 9000, "password": "ü" * 9000}]
)
def test_odd_input_is_a_wrong_password(site, data):
    assert site.visitor().post("/sign-in", data).status_code == 422


def test_ten_failures_make_one_wait(site):
    site.set_password(site.contractor)
    visitor = site.visitor()
    for _ in range(10):
        assert visitor.post("/sign-in", typed(**WRONG)).status_code == 422
    answer = visitor.post("/sign-in", typed())
    assert answer.status_code == 429
    assert "quarter of an hour" in well_formed(answer)
    site.clock.move(minutes=15)
    assert visitor.post("/sign-in", typed()).status_code == 303


def test_ten_failures_from_one_address_make_it_wait(site):
    for number in range(10):
        site.visitor().post("/sign-in", typed(email=f"{number}@example.com"))
    assert site.visitor().post("/sign-in", typed(email="x@example.com")).status_code == 429


def test_success_is_no_failure(site):
    site.set_password(site.contractor)
    for _ in range(12):
        assert site.visitor().post("/sign-in", typed()).status_code == 303


def test_a_link_shows_a_button_and_works_once(site):
    path = f"/sign-in/{site.link(site.lead)}"
    visitor = site.visitor()
    for _ in range(3):
        shown = visitor.get(path)
        assert shown.status_code == 200
        assert "<button" in well_formed(shown)
        assert shown.headers["cache-control"] == "no-store"
    answer = visitor.post(path)
    assert (answer.status_code, answer.headers["location"]) == (303, "/houses")
    assert visitor.get("/houses").json() == "Lee Invented"
    for late in (site.visitor().get(path), site.visitor().post(path)):
        assert late.status_code == 410
        assert "Ask the lead" in well_formed(late)


@pytest.mark.parametrize("token", ["x", "%00", "ü", "a" * 3000])
def test_a_link_never_made(site, token):
    assert site.visitor().get(f"/sign-in/{token}").status_code == 410
    assert site.visitor().post(f"/sign-in/{token}").status_code == 410


def test_an_old_link(site):
    path = f"/sign-in/{site.link(site.lead)}"
    site.clock.move(hours=72)
    assert site.visitor().get(path).status_code == 410
    assert site.visitor().post(path).status_code == 410


def test_signing_in_ends_the_session_before(site):
    visitor = site.visitor(site.contractor)
    before = httpx.Cookies(visitor.cookies)
    visitor.post(f"/sign-in/{site.link(site.lead)}")
    assert visitor.get("/houses").json() == "Lee Invented"
    visitor.cookies = before
    assert visitor.get("/houses").status_code == 303


def test_signing_out(site):
    visitor = site.visitor(site.lead)
    before = httpx.Cookies(visitor.cookies)
    assert visitor.post("/sign-out").headers["location"] == "/sign-in"
    assert len(visitor.cookies.jar) == 0
    visitor.cookies = before
    assert visitor.get("/houses").status_code == 303
    assert site.visitor().post("/sign-out").status_code == 303


def test_nobody_is_sent_to_sign_in_and_back(site):
    answer = site.visitor().get("/houses?order=name&shelf=bin")
    assert answer.status_code == 303
    assert answer.headers["location"] == "/sign-in?next=/houses%3Forder%3Dname%26shelf%3Dbin"
    page = site.visitor().get(answer.headers["location"]).text
    assert 'value="/houses?order=name&amp;shelf=bin"' in page
    sent = site.visitor().post("/account/password", {})
    assert (sent.status_code, sent.headers["location"]) == (303, "/sign-in")


@pytest.mark.parametrize("method", ["GET", "POST"])
def test_htmx_is_told_to_go_to_the_sign_in_page(site, method):
    path = {"GET": "/houses", "POST": "/account/password"}[method]
    answer = site.visitor().send(method, path, headers={"HX-Request": "true"})
    assert (answer.status_code, answer.content) == (200, b"")
    assert answer.headers["hx-redirect"] == "/sign-in"


@pytest.mark.parametrize(
    "aim",
    [
        "https://elsewhere.example",
        "//elsewhere.example",
        "/\\elsewhere.example",
        "\\\\elsewhere.example",
        "/\t/elsewhere.example",
        "/\n/elsewhere.example",
        " //elsewhere.example",
        "javascript:alert(1)",
        "elsewhere",
        "/" + "x" * 3000,
        "",
    ],
)
def test_no_redirect_leaves_the_site(site, aim):
    site.set_password(site.contractor)
    answer = site.visitor().post("/sign-in", typed(next=aim))
    assert answer.headers["location"] == "/houses"
    shown = site.visitor().get("/sign-in", params={"next": aim}).text
    assert 'name="next" value="/houses"' in shown
    visitor = site.visitor(site.lead)
    assert visitor.get("/sign-in", params={"next": aim}).headers["location"] == "/houses"
    back = visitor.post("/units", {"units": "si", "return": aim})
    assert back.headers["location"] == "/"


@pytest.mark.parametrize(
    "headers",
    [
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
        {"Sec-Fetch-Site": "cross-site", "Origin": "http://test"},
        {"Origin": "http://elsewhere.example"},
        {"Origin": "http://test:81"},
        {"Origin": "null"},
        {"Origin": "http://[test"},
    ],
)
def test_a_form_from_another_site_is_refused(site, headers):
    path = f"/sign-in/{site.link(site.lead)}"
    answer = site.visitor().post(path, headers=headers)
    assert answer.status_code == 403
    assert "another site" in well_formed(answer)
    assert site.visitor().get(path, headers=headers).status_code == 200


@pytest.mark.parametrize(
    "headers",
    [
        {"Sec-Fetch-Site": "same-origin", "Origin": "null"},
        {"Sec-Fetch-Site": "none"},
        {"Origin": "http://test"},
        {},
    ],
)
def test_a_form_from_here_is_taken(site, headers):
    answer = site.visitor().post(f"/sign-in/{site.link(site.lead)}", headers=headers)
    assert answer.status_code == 303


def test_many_at_once_all_get_their_turn(site):
    paths = [
        f"/sign-in/{site.link(site.add(f'N {number}', f'{number}@example.com', 'contractor'))}"
        for number in range(60)
    ]

    async def all_at_once():
        transport = httpx.ASGITransport(app=site.app)
        async with httpx.AsyncClient(transport=transport, base_url="http://test") as client:
            return await asyncio.gather(*(client.post(path) for path in paths))

    answers = asyncio.run(asyncio.wait_for(all_at_once(), timeout=25))
    assert {answer.status_code for answer in answers} == {303}


def test_a_form_that_is_slow_to_arrive_holds_nobody_up(site):
    links = [f"/sign-in/{site.link(person)}" for person in (site.lead, site.contractor)]
    headers = {"Content-Type": "application/x-www-form-urlencoded"}

    async def one_slow_one_quick():
        quick_is_in = asyncio.Event()

        async def slowly():
            yield b"a="
            await quick_is_in.wait()
            yield b"b"

        transport = httpx.ASGITransport(app=site.app)
        async with httpx.AsyncClient(transport=transport, base_url="http://test") as client:
            slow = asyncio.create_task(client.post(links[0], content=slowly(), headers=headers))
            await asyncio.sleep(0.1)
            quick = await client.post(links[1])
            quick_is_in.set()
            return quick, await slow

    answers = asyncio.run(asyncio.wait_for(one_slow_one_quick(), timeout=20))
    assert [answer.status_code for answer in answers] == [303, 303]
