"""What is drawn once is drawn anew as soon as anything that went into it is another."""

import threading

from markupsafe import escape
from sqlalchemy import update

from server.drawn_once import Drawing, DrawnOnce
from server.storage.models import OfferRow
from tests.pages.test_offers import revoke, send
from tests.stored_houses import changed_file, small_file


def drawing(text):
    return Drawing("", escape(text))


def edit(site, visitor, key, place, value):
    seen = site.stored(key).house.as_stored()["set_points"]["heating"]
    form = {"place": place, "page": "systems", "value": value, "seen": f'"{seen}"'}
    answer = visitor.post(f"/houses/{key}/edit", form)
    assert answer.status_code in (200, 303), answer.text


def test_a_comparison_is_drawn_anew_after_every_change(site):
    key = site.store(small_file())
    contractor, lead = site.visitor(site.contractor), site.visitor(site.lead)
    path = f"/houses/{key}/comparison"
    shown = [contractor.get(path).text]
    assert contractor.get(path).text == shown[0]

    edit(site, contractor, key, "set_points/heating", "75 degF")
    shown.append(contractor.get(path).text)
    line = {"line": "off-cladding", "version": "1", "material": "0", "labour": "98.76"}
    assert lead.post("/prices", line | {"minimum": "0", "reason": "insulation"}).status_code == 303
    shown.append(contractor.get(path).text)
    shown.append(contractor.get(f"{path}?base=1").text)
    contractor.post("/units", {"units": "si"})
    shown.append(contractor.get(path).text)
    assert len(set(shown)) == len(shown)
    assert site.visitor(site.stranger).get(path).status_code == 404


def test_the_same_house_twice_links_to_itself(site):
    contractor = site.visitor(site.contractor)
    for _copy in range(2):
        key = site.store(small_file())
        assert f"/houses/{key}/comparison/csv" in contractor.get(f"/houses/{key}/comparison").text


def test_an_offer_that_is_kept_is_still_looked_up(site):
    house = site.store(small_file())
    _page, link = send(site, house)
    owner = site.visitor()
    first = owner.get(link).text
    assert owner.get(link).text == first
    _page, newer = send(site, house, seen="1")
    assert "A newer offer was sent" in owner.get(link).text
    assert "A newer offer was sent" not in owner.get(newer).text
    wrong = owner.post(link, {"name": "Olive Invented", "choice": "none such"})
    assert wrong.status_code == 422
    assert "Olive Invented" in wrong.text
    assert "Olive Invented" not in owner.get(link).text
    with site.database.session(writing=True) as session:
        session.execute(update(OfferRow).where(OfferRow.number == 2).values(content=b"other"))
    assert owner.get(newer).status_code == 410
    revoke(site, house)
    assert owner.get(link).status_code == 410


def test_a_house_that_changed_and_changed_back_is_the_same_again(site):
    before = small_file()
    after = changed_file(before, lambda document: document.update(bedrooms=9))
    with site.database.session(writing=True) as session:
        from server.storage.houses import Houses

        houses = Houses(session, site.firm, site.clock)
        key = houses.add(before, "Cory Example")
        stored = houses.load(key).house
        first = houses.packed(key).fingerprint
        houses.save_house(key, changed_file(stored, lambda d: d.update(bedrooms=9)), 1, "x")
        session.flush()
        assert houses.packed(key).fingerprint != first
        houses.save_house(key, stored, 2, "x")
        session.flush()
        assert houses.packed(key).fingerprint == first
    assert after != before


def test_no_more_is_kept_than_allowed_and_the_unused_goes_first():
    kept = DrawnOnce(most_characters=30)
    made = []

    def asked(name, length=10):
        def draw():
            made.append(name)
            return drawing(name * length)

        return kept.get((name,), draw).markup

    for name in "abcab":
        asked(name)
    assert made == ["a", "b", "c"]
    asked("d")
    assert kept.characters <= 30
    asked("c")
    assert made == ["a", "b", "c", "d", "c"]
    assert asked("e", 31) == "e" * 31  # too long to be kept, and still drawn
    assert kept.characters <= 30


def test_many_may_ask_at_once():
    kept = DrawnOnce()
    barrier = threading.Barrier(8)
    answers = []

    def ask():
        barrier.wait()
        answers.append(kept.get(("same",), lambda: drawing("text")).markup)

    threads = [threading.Thread(target=ask) for _ in range(8)]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    assert answers == ["text"] * 8
    assert kept.characters == len("text")
