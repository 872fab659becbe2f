"""One's own account: password and units."""

from tests.accounts.site import PASSWORD
from tests.accounts.test_signing_in import typed, well_formed

OTHER = "four warm attics"


def test_the_account_says_who_one_is(site):
    page = well_formed(site.visitor(site.contractor).get("/account"))
    for words in ("Cory Invented", "cory@example.com", "Invented Remodelling", "Contractor"):
        assert words in page
    assert "Set a password" in page
    assert 'name="current"' not in page
    assert "/people" not in page
    assert "/people" in site.visitor(site.lead).get("/account").text


def test_a_first_password_and_signing_in_with_it(site):
    visitor = site.visitor(site.contractor)
    answer = visitor.post("/account/password", {"new": PASSWORD, "again": PASSWORD})
    assert answer.status_code == 303
    page = well_formed(visitor.get(answer.headers["location"]))
    assert "is kept" in page
    assert 'name="current"' in page
    assert site.visitor().post("/sign-in", typed()).status_code == 303


def test_a_changed_password_signs_out_everywhere_else(site):
    site.set_password(site.contractor)
    visitor, elsewhere = site.visitor(site.contractor), site.visitor(site.contractor)
    link = site.link(site.contractor)
    form = {"current": PASSWORD, "new": OTHER, "again": OTHER}
    assert visitor.post("/account/password", form).status_code == 303
    assert visitor.get("/houses").status_code == 200
    assert elsewhere.get("/houses").status_code == 303
    assert site.visitor().get(f"/sign-in/{link}").status_code == 410
    assert site.visitor().post("/sign-in", typed()).status_code == 422
    assert site.visitor().post("/sign-in", typed(password=OTHER)).status_code == 303


def test_what_is_wrong_stands_beside_its_field(site):
    site.set_password(site.contractor)
    visitor = site.visitor(site.contractor)
    for form, field in (
        ({"current": "wrong", "new": OTHER, "again": OTHER}, "current"),
        ({"current": PASSWORD, "new": "short", "again": "short"}, "new"),
        ({"current": PASSWORD, "new": "x" * 201, "again": "x" * 201}, "new"),
        ({"current": PASSWORD, "new": OTHER, "again": OTHER + "x"}, "again"),
        ({}, "current"),
    ):
        answer = visitor.post("/account/password", form)
        assert answer.status_code == 422
        page = well_formed(answer)
        assert f'aria-describedby="{field}-fault' in page
        assert OTHER not in page
    assert site.visitor().post("/sign-in", typed()).status_code == 303


def test_guessing_the_password_so_far_is_throttled(site):
    site.set_password(site.contractor)
    visitor = site.visitor(site.contractor)
    form = {"current": "wrong", "new": OTHER, "again": OTHER}
    for _ in range(10):
        assert visitor.post("/account/password", form).status_code == 422
    answer = visitor.post("/account/password", form | {"current": PASSWORD})
    assert answer.status_code == 429
    assert site.visitor(site.lead).get("/account").status_code == 200


def test_units_stay_with_the_person(site):
    visitor = site.visitor(site.contractor)
    answer = visitor.post("/units", {"units": "si", "return": "/houses?order=name"})
    assert (answer.status_code, answer.headers["location"]) == (303, "/houses?order=name")
    assert 'value="si" checked' in visitor.get("/account").text
    visitor.post("/units", {"units": "furlongs", "return": "/"})
    assert 'value="ip" checked' in visitor.get("/account").text
    assert site.visitor().post("/units", {"units": "si"}).headers["location"] == "/"
