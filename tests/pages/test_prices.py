"""The price book in the browser: read by everybody, changed by the lead, version by version."""

import re
from dataclasses import replace

import html5lib
import pytest

from server.pricing.book_file import seed_price_book
from server.storage.price_books import PriceBooks

GOOD = {
    "line": "off-cladding",
    "version": "1",
    "material": "0",
    "labour": "2.105",
    "minimum": "$300.00",
    "reason": "due anyway",
}


def book(site):
    with site.database.session(writing=False) as session:
        return PriceBooks(session, site.firm, site.clock).current()


def line(site, key="off-cladding"):
    return next(each for each in book(site).lines if each.key == key)


def test_the_seed_book_says_that_it_is_invented(site):
    page = site.visitor(site.contractor).get("/prices").text
    html5lib.HTMLParser(strict=True).parse(page)
    assert "invented" in page
    assert page.count("<strong>") >= len(seed_price_book().lines)
    assert 'name="labour"' not in page


def test_a_lead_changes_a_line_and_the_book_gets_a_version(site):
    lead = site.visitor(site.lead)
    answer = lead.post("/prices", GOOD)
    assert (answer.status_code, answer.headers["location"]) == (303, "/prices#off-cladding")
    changed = line(site)
    assert str(changed.labour_cents) == "210.5"
    assert changed.minimum_cents == 30000
    assert changed.reason == "due anyway"
    assert book(site).version == 2
    assert not changed.is_invented
    assert changed.note == "wall by wall, nails pulled, boards kept dry overnight"


def test_prices_are_called_invented_until_the_last_of_them_is_the_firms_own(site):
    lead = site.visitor(site.lead)
    count = len(book(site).lines)
    assert f"{count} of these {count} prices are invented" in lead.get("/prices").text
    lead.post("/prices", GOOD)
    assert f"{count - 1} of these {count} prices are invented" in lead.get("/prices").text
    with site.database.session(writing=True) as session:
        books = PriceBooks(session, site.firm, site.clock)
        current = books.current()
        owned = tuple(each.as_own() for each in current.lines)
        books.save(replace(current, lines=owned), "lead")
    assert "prices are invented" not in lead.get("/prices").text


def test_another_reason_alone_leaves_a_price_invented(site):
    stands = line(site)
    form = GOOD | {
        "material": str(stands.material_cents / 100),
        "labour": str(stands.labour_cents / 100),
        "minimum": str(stands.minimum_cents / 100),
    }
    site.visitor(site.lead).post("/prices", form)
    assert (line(site).reason, line(site).is_invented) == ("due anyway", True)


def test_saving_what_stands_makes_no_version(site):
    stands = line(site)
    form = GOOD | {
        "material": str(stands.material_cents / 100),
        "labour": str(stands.labour_cents / 100),
        "minimum": str(stands.minimum_cents / 100),
        "reason": stands.reason,
    }
    assert site.visitor(site.lead).post("/prices", form).status_code == 303
    assert book(site).version == 1


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("labour", ""),
        ("labour", "two"),
        ("labour", "-1"),
        ("labour", "1,85"),
        ("labour", "1e3"),
        ("labour", "nan"),
        ("labour", "99999999"),
        ("labour", "1.1234567"),
        ("labour", "١"),
        ("material", "<b>"),
        ("minimum", "1.005"),
        ("minimum", "x" * 1000),
        ("reason", "for fun"),
    ],
)
def test_bad_prices_come_back_beside_their_field(site, field, text):
    answer = site.visitor(site.lead).post("/prices", GOOD | {field: text})
    assert answer.status_code == 422
    html5lib.HTMLParser(strict=True).parse(answer.text)
    assert f'href="#off-cladding-{field}"' in answer.text
    if field != "reason":
        shown = re.search(rf'<input id="off-cladding-{field}"[^>]*>', answer.text)[0]
        assert 'aria-invalid="true"' in shown
    assert "<b>" not in answer.text
    assert book(site).version == 1


def test_a_change_made_on_an_old_page_is_not_saved_unseen(site):
    lead = site.visitor(site.lead)
    lead.post("/prices", GOOD)
    answer = lead.post("/prices", GOOD | {"labour": "9.99"})
    assert answer.status_code == 422
    assert "changed meanwhile" in answer.text
    assert 'value="9.99"' in answer.text
    assert str(line(site).labour_cents) == "210.5"


def test_the_file_comes_back_and_a_broken_one_says_where(site):
    lead = site.visitor(site.lead)
    text = lead.get("/prices/file").text
    wrong = text.replace("take off cladding,ft2", "take off cladding,furlong")
    answer = lead.post("/prices/from-file", files={"file": ("book.csv", wrong.encode())})
    assert answer.status_code == 422
    assert "row 3, unit" in answer.text
    assert book(site).version == 1
    cheaper = text.replace(
        "off-cladding,Take off siding,take off cladding,ft2,0,145",
        "off-cladding,Take off siding,take off cladding,ft2,0,99",
    )
    assert cheaper != text
    answer = lead.post("/prices/from-file", files={"file": ("book.csv", cheaper.encode())})
    assert answer.status_code == 303
    assert str(line(site).labour_cents) == "99"
    assert book(site).version == 2


def test_another_firm_has_its_own_book(site):
    site.visitor(site.lead).post("/prices", GOOD)
    with site.database.session(writing=False) as session:
        theirs = PriceBooks(session, site.other_firm, site.clock).current()
    assert theirs.version == 1
