"""What stands ready before the first request: tables, a demo firm, an emptied bin."""

from __future__ import annotations

from sqlalchemy import select, text
from sqlalchemy.orm import Session

from server.accounts.person import Role
from server.clock import Clock
from server.files.reading import read_house_file
from server.files.seeds import DEMO_HOUSE
from server.storage.database import Database
from server.storage.houses import Houses, empty_bins
from server.storage.models import FirmRow
from server.storage.people import Accounts, People, add_firm

# an invented firm with invented people
DEMO_FIRM = "Example Remodelling (demo)"
DEMO_PEOPLE: tuple[tuple[Role, str, str], ...] = (
    ("contractor", "Cory Example", "contractor@example.com"),
    ("lead", "Lee Example", "lead@example.com"),
)


def prepare(database: Database, clock: Clock) -> list[tuple[Role, str]]:
    """Bring the database up to date, and delete what has lain there long enough.

    A database without any firm gets the demo firm. The result is the token of a sign-in link for
    each of its people then, nothing at a later start.
    """
    database.migrate()
    with database.session(writing=True) as session:
        empty_bins(session, clock)
        Accounts(session, clock).forget_expired()
        if not database.is_sqlite:
            # of two processes that start at once, the second finds the firm of the first
            session.execute(text("LOCK TABLE firms IN EXCLUSIVE MODE"))
        if session.scalar(select(FirmRow.key).limit(1)) is not None:
            return []
        return _add_demo_firm(session, clock)


def _add_demo_firm(session: Session, clock: Clock) -> list[tuple[Role, str]]:
    firm = add_firm(session, DEMO_FIRM, clock)
    people = People(session, firm, clock)
    added = [people.add(name, email, role) for role, name, email in DEMO_PEOPLE]
    house, _document = read_house_file(DEMO_HOUSE.read_bytes())
    Houses(session, firm, clock).add(house, added[0].name)
    return [(person.role, people.make_link(person.key)) for person in added]
