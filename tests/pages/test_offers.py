"""Sending an offer, and what its owner sees and says."""

import gzip
import re

import pytest
from sqlalchemy import func, select, update

from server.app import COMPRESSION
from server.rendering import STATIC
from server.storage.models import OfferAnswerRow, OfferRow
from tests.databases import database
from tests.pages.test_open_a_house import well_formed
from tests.stored_houses import WholeSite, changed_file, demo_file, small_file

__all__ = ["database"]

MOST_BYTES = 120_000
BAD = "<script>alert(1)</script>\"'><img src=x onerror=y>"
ANSWER = {"name": "Olive Invented", "choice": "1", "question": "When could you begin?"}


def send(site, house, **form):
    """The page after sending, and the path of the link it shows."""
    sender = site.visitor(site.contractor)
    answer = sender.post(f"/houses/{house}/offers", {"seen": "0", "days": "60"} | form)
    assert answer.status_code == 200
    well_formed(answer)
    return answer, re.search(r">http://test(/offer/[\w-]+)<", answer.text)[1]


def listed(site, house, person=None):
    answer = site.visitor(person or site.contractor).get(f"/houses/{house}/offers")
    well_formed(answer)
    return answer.text


def revoke(site, house, person=None):
    with site.database.session(writing=False) as session:
        key = session.scalar(select(OfferRow.key).order_by(OfferRow.number))
    return site.visitor(person or site.contractor).post(f"/houses/{house}/offers/{key}/revoke")


def count(site, table):
    with site.database.session(writing=False) as session:
        return session.scalar(select(func.count()).select_from(table))


def test_an_offer_goes_from_house_to_answer(database):
    site = WholeSite(database)
    house = site.store(demo_file())
    _page, link = send(site, house, note="Hello.")
    owner = site.visitor()
    well_formed(owner.get(link))
    thanks = owner.post(link, ANSWER)
    assert thanks.status_code == 200
    well_formed(thanks)
    assert "Fill the walls" in thanks.text
    text = listed(site, house)
    for words in ("Offer 1", "Hello.", "Fill the walls", "Olive Invented", "When could you begin?"):
        assert words in text
    assert revoke(site, house).status_code == 303
    assert owner.get(link).status_code == 410
    assert owner.post(link, ANSWER).status_code == 410


def test_the_link_is_shown_once(site):
    house = site.store(small_file())
    _page, link = send(site, house)
    assert link.rpartition("/")[2] not in listed(site, house)


@pytest.mark.parametrize(
    "form", [{"days": "0"}, {"days": "366"}, {"days": "a"}, {"note": "x" * 2001}]
)
def test_a_form_that_cannot_be_comes_back(site, form):
    house = site.store(small_file())
    typed = {"seen": "0", "days": "60", "note": "As typed."} | form
    answer = site.visitor(site.contractor).post(f"/houses/{house}/offers", typed)
    assert answer.status_code == 422
    well_formed(answer)
    assert typed["note"] in answer.text
    assert count(site, OfferRow) == 0


def test_sending_the_same_form_twice_makes_one_offer(site):
    house = site.store(small_file())
    send(site, house)
    again = site.visitor(site.contractor).post(f"/houses/{house}/offers", {"seen": "0"})
    assert again.status_code == 422
    assert count(site, OfferRow) == 1


def test_a_house_without_strategies_has_nothing_to_offer(site):
    bare = changed_file(small_file(), lambda document: document.pop("strategies"))
    house = site.store(bare)
    answer = site.visitor(site.contractor).post(f"/houses/{house}/offers", {"seen": "0"})
    assert answer.status_code == 422
    assert "nothing to offer" in answer.text


def test_another_firm_has_no_part_in_it(site):
    house = site.store(small_file())
    send(site, house)
    stranger = site.visitor(site.stranger)
    assert stranger.get(f"/houses/{house}/offers").status_code == 404
    assert stranger.post(f"/houses/{house}/offers", {"seen": "1"}).status_code == 404
    assert revoke(site, house, site.stranger).status_code == 404
    assert count(site, OfferRow) == 1


def test_opened_is_noted_once_and_not_for_the_firm_itself(site):
    house = site.store(small_file())
    _page, link = send(site, house)
    site.visitor(site.contractor).get(link)
    assert "not yet" in listed(site, house)
    site.clock.move(hours=1)
    site.visitor().get(link)
    site.clock.move(hours=1)
    site.visitor().get(link)
    assert "2031-03-01 13:00 UTC" in listed(site, house)
    assert "2031-03-01 14:00 UTC" not in listed(site, house)


def test_a_link_runs_out(site):
    house = site.store(small_file())
    _page, link = send(site, house, days="2")
    site.clock.move(days=1, hours=23)
    assert site.visitor().get(link).status_code == 200
    site.clock.move(hours=1)
    assert site.visitor().get(link).status_code == 410


@pytest.mark.parametrize("why", ["unknown", "revoked", "expired", "damaged"])
def test_a_dead_link_names_nobody(site, why):
    house = site.store(small_file())
    _page, link = send(site, house, days="2")
    if why == "revoked":
        revoke(site, house)
    elif why == "expired":
        site.clock.move(days=3)
    elif why == "damaged":
        with site.database.session(writing=True) as session:
            session.execute(update(OfferRow).values(sha256="0" * 64))
    path = "/offer/no-such-offer" if why == "unknown" else link
    for answer in (site.visitor().get(path), site.visitor().post(path, ANSWER)):
        assert answer.status_code == (404 if why == "unknown" else 410)
        well_formed(answer)
        assert answer.headers["X-Robots-Tag"] == "noindex"
        for name in ("Invented", "Small example house", "Cory", link.rpartition("/")[2]):
            assert name not in answer.text
    assert count(site, OfferAnswerRow) == 0


def test_the_owners_page_is_small_private_and_without_scripts(site):
    house = site.store(demo_file())
    _page, link = send(site, house)
    answer = site.visitor().get(link)
    sheet = (STATIC / "warmside.css").read_bytes()
    travels = int(answer.headers["Content-Length"]) + len(gzip.compress(sheet, COMPRESSION))
    assert answer.headers["Content-Encoding"] == "gzip"
    assert travels < MOST_BYTES / 4
    assert len(answer.content) + len(sheet) < MOST_BYTES * 1.5  # where nothing is compressed
    assert "<script" not in answer.text
    assert "hx-" not in answer.text
    assert '<meta name="robots" content="noindex">' in answer.text
    assert answer.headers["X-Robots-Tag"] == "noindex"
    assert answer.headers["Referrer-Policy"] == "no-referrer"
    assert answer.headers["Cache-Control"] == "private"
    assert link.rpartition("/")[2] not in answer.text
    assert "set-cookie" not in answer.headers


def test_the_owners_page_says_things_in_the_order_people_decide(site):
    house = site.store(demo_file())
    _page, link = send(site, house)
    text = site.visitor().get(link).text
    titles = [
        "Before the figures",
        "What are my choices?",
        "What could go wrong?",
        "What do they cost?",
        "What do I get?",
        "What happens at my house?",
        "While the work goes on",
        "The figures",
        "How far to trust this",
    ]
    places = [text.index(f">{title}</h2>") for title in titles]
    assert places == sorted(places)
    assert "The prices are invented" in text
    assert "values of the survey are guesses" in text


def test_figures_are_in_the_units_of_the_sender(site):
    house = site.store(small_file())
    sender = site.visitor(site.contractor)
    sender.post("/units", {"units": "si"})
    _page, link = send(site, house)
    text = site.visitor().get(link).text
    assert "°C" in text
    # sentences on fire name both, so that nothing is printed too exactly
    assert re.sub(r"°F \([0-9 ]+°C\)", "", text.replace("\xa0", " ")).count("°F") == 0


def test_a_second_offer_says_what_changed(site):
    house = site.store(small_file())
    _page, first = send(site, house)
    site.visitor(site.contractor).post(
        f"/houses/{house}/edit",
        {"place": "air/ach50", "page": "systems", "value": "5", "seen": "12"},
    )
    page, second = send(site, house, seen="1")
    assert "What changed between offer 1 and offer 2" in page.text
    text = site.visitor().get(second).text
    assert "What changed since offer 1" in text
    assert "12.00 per hour" in text
    assert "5.00 per hour" in text
    assert "A newer offer was sent since" not in text
    older = site.visitor().get(first).text
    assert "A newer offer was sent since" in older
    assert "What changed since" not in older


def test_what_people_write_is_never_markup(site):
    house = site.store(changed_file(small_file(), lambda document: document.update(name=BAD)))
    page, link = send(site, house, note=BAD)
    owner = site.visitor()
    asked = owner.post(link, {"name": BAD, "choice": "1", "question": BAD})
    wrong = owner.post(link, {"name": BAD, "choice": "", "question": BAD})
    for text in (page.text, owner.get(link).text, asked.text, wrong.text, listed(site, house)):
        assert "<script>alert" not in text
        assert "<img" not in text
        assert "&lt;script&gt;alert(1)" in text


@pytest.mark.parametrize(
    "form",
    [
        {"name": ""},
        {"name": "x" * 121},
        {"choice": "", "question": ""},
        {"choice": "9"},
        {"question": "x" * 2001},
    ],
)
def test_an_answer_that_cannot_be_comes_back_as_typed(site, form):
    house = site.store(small_file())
    _page, link = send(site, house)
    typed = ANSWER | form
    answer = site.visitor().post(link, typed)
    assert answer.status_code == 422
    well_formed(answer)
    assert typed["question"] in answer.text
    assert count(site, OfferAnswerRow) == 0


def test_a_question_alone_is_an_answer(site):
    house = site.store(small_file())
    _page, link = send(site, house)
    answer = site.visitor().post(link, ANSWER | {"choice": ""})
    assert answer.status_code == 200
    assert "Not decided yet" in answer.text
    assert ANSWER["question"] in listed(site, house)


def test_the_page_says_until_when_its_link_works_and_leads_to_the_answer(site):
    house = site.store(small_file())
    _page, link = send(site, house, days="2")
    text = site.visitor().get(link).text
    assert "Its link works until 2031-03-03" in text
    assert 'href="#answer"' in text
    assert 'action="#answer"' in text
    _page, link = send(site, house, seen="1", days="")
    assert "Its link works until" not in site.visitor().get(link).text


def test_a_stopped_option_is_picked_with_what_stops_it_beside(site):
    house = site.store(demo_file())
    _page, link = send(site, house)
    labels = re.findall(r"<label><input type=.radio.*?</label>", site.visitor().get(link).text)
    by_name = {"Old wiring" in label: re.sub(r"<.*?>", "", label) for label in labels}
    assert by_name[True].strip().startswith("Fill")
    assert "settled" not in by_name[False]


def test_answers_are_throttled(site):
    house = site.store(small_file())
    _page, link = send(site, house)
    owner = site.visitor()
    codes = [owner.post(link, ANSWER | {"question": str(n)}).status_code for n in range(12)]
    assert codes == [200] * 10 + [429] * 2
    assert count(site, OfferAnswerRow) == 10
    site.clock.move(minutes=16)
    assert owner.post(link, ANSWER).status_code == 200


def test_no_other_site_can_answer(site):
    house = site.store(small_file())
    _page, link = send(site, house)
    elsewhere = {"Sec-Fetch-Site": "cross-site"}
    assert site.visitor().post(link, ANSWER, headers=elsewhere).status_code == 403
    assert count(site, OfferAnswerRow) == 0


def test_the_owner_reads_how_long_the_house_stays_warm_and_cool_without_power(site):
    house = site.store(demo_file())
    _page, link = send(site, house)
    text = site.visitor().get(link).text
    for words in ("Without power in January it stays above", "Without power in July it stays"):
        row = text[text.index(words) :].partition("</tr>")[0]
        assert row.count("<td") == 4
        assert re.search(r"\d+ (hours|days)|for good|more than a week", row)
