"""Offers in the database: of one firm, by a hash of their link, as they were sent."""

import zlib

import pytest
from sqlalchemy import select, update

from server.accounts.tokens import token_hash
from server.storage.models import OfferRow
from server.storage.offers import (
    MOST_ANSWERS,
    NoSuchOffer,
    OfferDamaged,
    OfferExpired,
    OfferRevoked,
    Offers,
    OwnerOffers,
    TooManyAnswers,
)
from tests.offers.frozen import stored_example
from tests.stored_houses import small_file

NOBODY = "0" * 32


@pytest.fixture
def house(site):
    return site.store(small_file())


def send(site, house, *, days=None, content=None):
    with site.database.session(writing=True) as session:
        offers = Offers(session, site.firm, site.clock)
        later = None if days is None else site.clock.now.replace(day=1 + days)
        return offers.send(house, content or stored_example(), "A note.", later, "Cory Invented")


def opened(site, token):
    with site.database.session(writing=True) as session:
        return OwnerOffers(session, site.clock).by_token(token)


def lines(site, house, firm=None):
    with site.database.session(writing=False) as session:
        return Offers(session, firm or site.firm, site.clock).of_house(house)


def test_what_is_sent_comes_back(site, house):
    line, token = send(site, house)
    assert opened(site, token).content == stored_example()
    assert (line.number, line.opened_at) == (1, None)
    assert lines(site, house) == [line]


def test_numbers_count_on(site, house):
    assert [send(site, house)[0].number for _each in range(3)] == [1, 2, 3]
    assert send(site, site.store(small_file()))[0].number == 1


def test_only_the_hash_of_a_token_is_kept(site, house):
    _line, token = send(site, house)
    assert len(token) >= 27  # 160 bits in base 64
    with site.database.session(writing=False) as session:
        row = session.scalars(select(OfferRow)).one()
        assert row.token_hash == token_hash(token)
        kept = " ".join(str(value) for value in vars(row).values())
        assert token not in kept
        assert token.encode() not in zlib.decompress(row.content)


@pytest.mark.parametrize("token", ["", "no-such-token", NOBODY, "\ud800"])
def test_an_unknown_token_opens_nothing(site, house, token):
    send(site, house)
    with pytest.raises(NoSuchOffer):
        opened(site, token)


def test_a_link_runs_out(site, house):
    _line, token = send(site, house, days=10)
    site.clock.move(days=9, hours=23)
    assert opened(site, token).number == 1
    site.clock.move(hours=1)
    with pytest.raises(OfferExpired):
        opened(site, token)


def test_a_link_without_end_works_on(site, house):
    _line, token = send(site, house)
    site.clock.move(days=4000)
    assert opened(site, token).number == 1


def test_a_link_is_taken_back_at_once_and_only_once(site, house):
    line, token = send(site, house, days=10)
    first = site.clock.now
    for _time in range(2):
        with site.database.session(writing=True) as session:
            Offers(session, site.firm, site.clock).revoke(house, line.key)
        with pytest.raises(OfferRevoked):
            opened(site, token)
        site.clock.move(days=20)
    assert lines(site, house)[0].revoked_at == first


def test_first_opening_is_kept(site, house):
    _line, token = send(site, house)
    first = site.clock.now
    for _time in range(2):
        with site.database.session(writing=True) as session:
            owner = OwnerOffers(session, site.clock)
            owner.opened(owner.by_token(token))
        site.clock.move(hours=5)
    assert lines(site, house)[0].opened_at == first


def test_another_firm_sees_and_changes_nothing(site, house):
    line, token = send(site, house)
    with site.database.session(writing=True) as session:
        others = Offers(session, site.other_firm, site.clock)
        assert others.of_house(house) == []
        assert others.answers([line.key]) == {line.key: []}
        with pytest.raises(NoSuchOffer):
            others.content(line.key)
        with pytest.raises(NoSuchOffer):
            others.revoke(house, line.key)
    assert opened(site, token).number == 1


def test_an_offer_is_revoked_only_under_its_own_house(site, house):
    line, _token = send(site, house)
    other = site.store(small_file())
    with site.database.session(writing=True) as session, pytest.raises(NoSuchOffer):
        Offers(session, site.firm, site.clock).revoke(other, line.key)


@pytest.mark.parametrize("spoil", [zlib.compress, lambda old: old[:-9]])
def test_a_content_that_is_not_what_was_sent_is_refused(site, house, spoil):
    line, token = send(site, house)
    with site.database.session(writing=True) as session:
        old = session.scalar(select(OfferRow.content))
        session.execute(update(OfferRow).values(content=spoil(old)))
    with pytest.raises(OfferDamaged):
        opened(site, token)
    with site.database.session(writing=False) as session, pytest.raises(OfferDamaged):
        Offers(session, site.firm, site.clock).content(line.key)


def test_answers_are_kept_the_newest_first_and_the_same_again_once(site, house):
    line, token = send(site, house)
    for choice in ("Fill the walls", "Fill the walls", "Fill and wrap"):
        with site.database.session(writing=True) as session:
            owner = OwnerOffers(session, site.clock)
            owner.answer(owner.by_token(token), "Olive Invented", choice, "When?")
        site.clock.move(minutes=1)
    with site.database.session(writing=False) as session:
        answers = Offers(session, site.firm, site.clock).answers([line.key])[line.key]
    assert [each.choice for each in answers] == ["Fill and wrap", "Fill the walls"]
    assert {(each.name, each.question) for each in answers} == {("Olive Invented", "When?")}


def test_an_offer_has_only_so_many_answers(site, house):
    _line, token = send(site, house)
    with site.database.session(writing=True) as session:
        owner = OwnerOffers(session, site.clock)
        offer = owner.by_token(token)
        for number in range(MOST_ANSWERS):
            site.clock.move(minutes=1)
            owner.answer(offer, "Olive Invented", "Fill the walls", str(number))
        with pytest.raises(TooManyAnswers):
            owner.answer(offer, "Olive Invented", "Fill the walls", "one more")
