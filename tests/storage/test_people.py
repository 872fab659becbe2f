"""People of a firm, their sessions and links, as rows."""

import threading
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import event, text

from server.accounts.tokens import token_hash
from server.storage.people import (
    Accounts,
    CannotDisableSelf,
    EmailTaken,
    NoSuchPerson,
    People,
    add_firm,
)

NOON = datetime(2031, 3, 1, 12, tzinfo=UTC)


def noon():
    return NOON


def after(**passed):
    return lambda: NOON + timedelta(**passed)


@pytest.fixture
def firm(database):
    with database.session(writing=True) as session:
        return add_firm(session, "Invented Remodelling", noon)


@pytest.fixture
def other_firm(database):
    with database.session(writing=True) as session:
        return add_firm(session, "Another Invented Firm", noon)


@pytest.fixture
def person(database, firm):
    with database.session(writing=True) as session:
        return People(session, firm, noon).add("Cory Invented", "Cory@Example.com", "contractor")


def make_link(database, person, clock=noon):
    with database.session(writing=True) as session:
        return People(session, person.firm_key, clock).make_link(person.key)


def start_session(database, person):
    with database.session(writing=True) as session:
        return Accounts(session, noon).start_session(person)


def use_link(database, token, clock=noon):
    with database.session(writing=True) as session:
        return Accounts(session, clock).use_link(token)


def who(database, token, clock=noon):
    with database.session(writing=False) as session:
        return Accounts(session, clock).person_of_session(token)


def test_a_session_says_who_it_is_in_one_query(database, person):
    token = start_session(database, person)
    statements = []

    def note(*given):
        statements.append(given[2])

    event.listen(database.engine, "before_cursor_execute", note)
    assert who(database, token) == person
    event.remove(database.engine, "before_cursor_execute", note)
    assert len([words for words in statements if words.startswith("SELECT")]) == 1
    assert (person.name, person.email) == ("Cory Invented", "cory@example.com")
    assert (person.firm_name, person.role, person.units) == (
        "Invented Remodelling",
        "contractor",
        "ip",
    )


def test_a_session_ends_after_thirty_days(database, person):
    token = start_session(database, person)
    assert who(database, token, after(days=29.9)) == person
    assert who(database, token, after(days=30)) is None


def test_a_session_that_was_ended_is_nobody(database, person):
    token, other = start_session(database, person), start_session(database, person)
    with database.session(writing=True) as session:
        Accounts(session, noon).end_session(token)
    assert who(database, token) is None
    assert who(database, other) == person


def test_only_hashes_of_tokens_are_kept(database, person):
    tokens = [start_session(database, person), make_link(database, person)]
    with database.session(writing=False) as session:
        for token, table in zip(tokens, ("sessions", "sign_in_links"), strict=True):
            (row,) = session.execute(text(f"SELECT * FROM {table}"))  # noqa: S608
            assert token_hash(token) in row
            assert token not in str(row)


def test_a_link_lets_in_once(database, person):
    token = make_link(database, person)
    assert use_link(database, token) == person
    assert use_link(database, token) is None
    assert use_link(database, "never made") is None


def test_a_link_ages_in_three_days(database, person):
    token = make_link(database, person)
    assert use_link(database, token, after(hours=72)) is None
    assert use_link(database, token, after(hours=71.9)) == person


def test_looking_at_a_link_does_not_use_it(database, person):
    token = make_link(database, person)
    for clock, works in ((noon, True), (noon, True), (after(hours=72), False)):
        with database.session(writing=False) as session:
            assert Accounts(session, clock).link_works(token) is works


def test_of_two_at_once_one_gets_in(database, person):
    for _ in range(5):
        token = make_link(database, person)
        start, got_in = threading.Barrier(4), []

        def use(token=token, start=start, got_in=got_in):
            start.wait()
            got_in.append(use_link(database, token))

        threads = [threading.Thread(target=use) for _ in range(4)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert len(got_in) == 4
        assert [found for found in got_in if found is not None] == [person]


def test_a_new_link_replaces_the_one_before(database, person):
    first, second = make_link(database, person), make_link(database, person)
    assert use_link(database, first) is None
    assert use_link(database, second) == person


def test_who_is_disabled_is_out_at_once(database, firm, person):
    session_token, link = start_session(database, person), make_link(database, person)
    with database.session(writing=True) as session:
        People(session, firm, noon).set_disabled(person.key, True, by="someone else")
    assert who(database, session_token) is None
    assert use_link(database, link) is None
    with database.session(writing=True) as session:
        people = People(session, firm, noon)
        assert Accounts(session, noon).by_email(person.email) is None
        assert [line.disabled for line in people.listed()] == [True]
        with pytest.raises(NoSuchPerson):
            people.make_link(person.key)
        people.set_disabled(person.key, False, by="someone else")
    assert who(database, session_token) is None
    assert use_link(database, make_link(database, person)) == person


def test_nobody_disables_themself(database, firm, person):
    with (
        database.session(writing=True) as session,
        pytest.raises(CannotDisableSelf),
    ):
        People(session, firm, noon).set_disabled(person.key, True, by=person.key)


def test_an_email_is_taken_once_whatever_its_capitals(database, other_firm, person):
    with database.session(writing=True) as session:
        people = People(session, other_firm, noon)
        with pytest.raises(EmailTaken):
            people.add("Someone Invented", f" {person.email.upper()} ", "lead")
        # what comes after in the same transaction still works
        people.add("Someone Invented", "someone@example.com", "lead")
    with database.session(writing=False) as session:
        assert len(People(session, other_firm, noon).listed()) == 1


def test_people_of_another_firm_are_nobody(database, other_firm, person):
    with database.session(writing=True) as session:
        people = People(session, other_firm, noon)
        assert people.listed() == []
        assert people.password_hash(person.key) is None
        for attempt in (
            lambda: people.make_link(person.key),
            lambda: people.set_password(person.key, "hash"),
            lambda: people.set_units(person.key, "si"),
            lambda: people.set_disabled(person.key, True, by="someone else"),
        ):
            with pytest.raises(NoSuchPerson):
                attempt()
        people.sign_out_everywhere(person.key)
    token = start_session(database, person)
    with database.session(writing=True) as session:
        People(session, other_firm, noon).sign_out_everywhere(person.key)
    assert who(database, token) == person


def test_password_and_units_are_kept(database, firm, person):
    with database.session(writing=True) as session:
        people = People(session, firm, noon)
        people.set_password(person.key, "a hash")
        people.set_units(person.key, "si")
    with database.session(writing=False) as session:
        found, password_hash = Accounts(session, noon).by_email("CORY@example.com")
        assert (found.units, password_hash) == ("si", "a hash")
        assert [line.has_password for line in People(session, firm, noon).listed()] == [True]


def test_what_expired_is_deleted(database, person):
    start_session(database, person)
    make_link(database, person)
    with database.session(writing=True) as session:
        Accounts(session, after(days=4)).forget_expired()
        left = [
            session.scalar(text(f"SELECT count(*) FROM {table}"))  # noqa: S608
            for table in ("sessions", "sign_in_links")
        ]
    assert left == [1, 0]
