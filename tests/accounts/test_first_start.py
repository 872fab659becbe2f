"""The first start of an installation, and the command that makes a link."""

from datetime import timedelta

from sqlalchemy import text

from server.__main__ import main
from server.clock import utc_now
from server.first_start import prepare
from server.storage.houses import Houses
from server.storage.models import Row
from server.storage.people import Accounts
from tests.accounts.site import MovedClock, Site


def counted(database):
    with database.session(writing=False) as session:
        return [
            session.scalar(text(f"SELECT count(*) FROM {table.name}"))  # noqa: S608
            for table in Row.metadata.sorted_tables
        ]


def test_the_first_start_makes_a_demo_and_the_second_nothing(database):
    clock = MovedClock()
    links = prepare(database, clock)
    assert [role for role, _token in links] == ["contractor", "lead"]
    before = counted(database)
    assert prepare(database, clock) == []
    assert counted(database) == before
    with database.session(writing=True) as session:
        for role, token in links:
            person = Accounts(session, clock).use_link(token)
            assert person.role == role
            assert person.email.endswith("@example.com")
            (house,) = Houses(session, person.firm_key, clock).listed("open")
            assert house.version == 1
            assert Accounts(session, clock).use_link(token) is None


def test_a_later_start_empties_bins_and_forgets_what_expired(database):
    clock = MovedClock()
    (_role, token), _lead = prepare(database, clock)
    with database.session(writing=True) as session:
        person = Accounts(session, clock).use_link(token)
        Accounts(session, clock).start_session(person)
        houses = Houses(session, person.firm_key, clock)
        (house,) = houses.listed("open")
        houses.bin(house.key, binned=True)
    clock.now += timedelta(days=31)
    assert prepare(database, clock) == []
    with database.session(writing=False) as session:
        for table in ("houses", "revisions", "sessions", "sign_in_links"):
            assert session.scalar(text(f"SELECT count(*) FROM {table}")) == 0  # noqa: S608


def test_a_firm_that_is_there_gets_no_demo(database):
    Site(database)
    assert prepare(database, MovedClock()) == []


def test_the_command_makes_a_link(database, monkeypatch, capsys):
    monkeypatch.setenv("WARMSIDE_DATABASE_URL", database.url.render_as_string(hide_password=False))
    prepare(database, utc_now)
    assert main(["sign-in-link", "Lead@example.com"]) == 0
    told = capsys.readouterr()
    start = "http://127.0.0.1:8000/sign-in/"
    assert told.out.startswith(start)
    with database.session(writing=True) as session:
        person = Accounts(session, utc_now).use_link(told.out.removeprefix(start).strip())
    assert person.role == "lead"
    assert main(["sign-in-link", "lead@example.com", "--site", "https://site.example/"]) == 0
    assert capsys.readouterr().out.startswith("https://site.example/sign-in/")


def test_the_command_knows_whom_it_does_not_know(database, monkeypatch, capsys):
    monkeypatch.setenv("WARMSIDE_DATABASE_URL", database.url.render_as_string(hide_password=False))
    assert main(["sign-in-link", "nobody@example.com"]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert "nobody@example.com" in told.err
