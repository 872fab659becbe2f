"""A lead says who may sign in."""

import pytest

from server.storage.people import add_firm
from tests.accounts.site import link_in
from tests.accounts.test_signing_in import typed, well_formed

NEW = {"name": "Nell Invented", "email": "Nell@example.com", "role": "contractor"}


def test_the_list(site):
    answer = site.visitor(site.lead).get("/people")
    page = well_formed(answer)
    assert "Lee Invented" in page
    assert "Cory Invented" in page
    assert answer.headers["cache-control"] == "no-store"
    assert f"/people/{site.lead.key}/disable" not in page


def test_pages_of_the_lead_are_closed_to_others(site):
    contractor, nobody = site.visitor(site.contractor), site.visitor()
    for method, path in (
        ("GET", "/people"),
        ("POST", "/people"),
        ("POST", f"/people/{site.lead.key}/link"),
        ("POST", f"/people/{site.lead.key}/disable"),
        ("POST", f"/people/{site.lead.key}/enable"),
    ):
        refused = contractor.send(method, path)
        assert refused.status_code == 403
        assert "lead of your firm" in well_formed(refused)
        assert nobody.send(method, path).headers["location"].startswith("/sign-in")


def test_a_person_is_added_and_signs_in_with_the_link(site):
    lead = site.visitor(site.lead)
    answer = lead.post("/people", NEW)
    page = well_formed(answer)
    assert answer.headers["cache-control"] == "no-store"
    link = link_in(page)
    assert "/sign-in/" not in lead.get("/people").text
    added = site.visitor()
    assert added.post(link).status_code == 303
    assert added.get("/houses").json() == "Nell Invented"
    assert "nell@example.com" in added.get("/account").text


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"name": " "}, "name"),
        ({"name": "x" * 201}, "name"),
        ({"email": "nobody"}, "email"),
        ({"email": "a b@example.com"}, "email"),
        ({"email": "x" * 250 + "@example.com"}, "email"),
        ({"email": "LEAD@example.com"}, "email"),
    ],
)
def test_what_is_wrong_stands_beside_its_field(site, changes, field):
    form = NEW | {"role": "lead"} | changes
    answer = site.visitor(site.lead).post("/people", form)
    assert answer.status_code == 422
    page = well_formed(answer)
    assert f'aria-describedby="{field}-fault"' in page
    assert form["email"] in page
    assert 'value="lead" checked' in page
    assert "/sign-in/" not in page
    assert "Nell" not in site.visitor(site.lead).get("/people").text


def test_a_new_link_and_a_forgotten_password(site):
    site.set_password(site.contractor)
    lead, path = site.visitor(site.lead), f"/people/{site.contractor.key}/link"
    well_formed(lead.get("/people"))
    assert site.visitor().post(link_in(lead.post(path).text)).status_code == 303
    assert site.visitor().post("/sign-in", typed()).status_code == 303
    answer = lead.post(path, {"forget_password": "yes"})
    assert site.visitor().post("/sign-in", typed()).status_code == 422
    contractor = site.visitor()
    contractor.post(link_in(answer.text))
    assert "Set a password" in contractor.get("/account").text


def test_who_is_kept_out_is_out_at_once(site):
    site.set_password(site.contractor)
    lead, contractor = site.visitor(site.lead), site.visitor(site.contractor)
    link = site.link(site.contractor)
    assert contractor.get("/houses").status_code == 200
    answer = lead.post(f"/people/{site.contractor.key}/disable")
    assert (answer.status_code, answer.headers["location"]) == (303, "/people")
    assert contractor.get("/houses").status_code == 303
    assert site.visitor().post("/sign-in", typed()).status_code == 422
    assert site.visitor().post(f"/sign-in/{link}").status_code == 410
    assert "kept out" in well_formed(lead.get("/people"))
    assert lead.post(f"/people/{site.contractor.key}/link").status_code == 404
    assert lead.post(f"/people/{site.contractor.key}/enable").status_code == 303
    assert site.visitor().post("/sign-in", typed()).status_code == 303


def test_a_lead_cannot_keep_themself_out(site):
    lead = site.visitor(site.lead)
    answer = lead.post(f"/people/{site.lead.key}/disable")
    assert answer.status_code == 422
    assert "cannot keep yourself out" in well_formed(answer)
    assert lead.get("/people").status_code == 200


def test_people_of_another_firm_are_not_there(site):
    with site.database.session(writing=True) as session:
        firm = add_firm(session, "Another Invented Firm", site.clock)
    stranger = site.add("Stranger Invented", "stranger@example.com", "contractor", firm)
    lead = site.visitor(site.lead)
    assert "Stranger" not in lead.get("/people").text
    for key in (stranger.key, "0" * 32, "x", "%00"):
        for action in ("link", "disable", "enable"):
            assert lead.post(f"/people/{key}/{action}").status_code == 404
    assert site.visitor(stranger).get("/houses").status_code == 200


def test_what_is_typed_is_shown_as_text(site):
    name = "<b>Tom & Sons</b>"
    page = well_formed(site.visitor(site.lead).post("/people", NEW | {"name": name}))
    assert "<b>Tom" not in page
    assert "&lt;b&gt;Tom &amp; Sons" in page
