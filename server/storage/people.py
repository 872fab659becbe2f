"""All queries on people, their sessions and their sign-in links."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import Any

from sqlalchemy import Row, Select, delete, select, update
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from server.accounts.person import Person, Role
from server.accounts.tokens import new_token, token_hash
from server.clock import Clock
from server.storage.house_rows import new_key
from server.storage.models import FirmRow, PersonRow, SessionRow, SignInLinkRow
from server.units import System

SESSION_LASTS = timedelta(days=30)
LINK_LASTS = timedelta(hours=72)


class NoSuchPerson(Exception):
    """The firm has nobody of this key, or nobody who may sign in."""


class EmailTaken(Exception):
    """Someone signs in with this email already."""


class CannotDisableSelf(Exception):
    """Whoever disabled themself could not undo it."""


@dataclass(frozen=True, slots=True)
class PersonLine:
    """A person in the firm's list."""

    key: str
    name: str
    email: str
    role: Role
    has_password: bool
    disabled: bool


class Accounts:
    """What happens before anyone is known: it sees all firms, and only by a token or an email."""

    def __init__(self, session: Session, clock: Clock) -> None:
        self._session = session
        self._clock = clock

    def person_of_session(self, token: str) -> Person | None:
        """Who signed in with this token, unless it is old or the person is disabled."""
        query = _people().join(SessionRow, SessionRow.person_key == PersonRow.key)
        found = self._session.execute(
            query.where(
                SessionRow.token_hash == token_hash(token), SessionRow.expires_at > self._clock()
            )
        )
        return _one_person(found.one_or_none())

    def start_session(self, person: Person) -> str:
        """A new token for a browser of this person."""
        token, now = new_token(), self._clock()
        self._session.add(
            SessionRow(
                token_hash=token_hash(token),
                firm_key=person.firm_key,
                person_key=person.key,
                created_at=now,
                expires_at=now + SESSION_LASTS,
            )
        )
        self._session.flush()
        return token

    def end_session(self, token: str) -> None:
        """Sign one browser out."""
        self._session.execute(delete(SessionRow).where(SessionRow.token_hash == token_hash(token)))

    def link_works(self, token: str) -> bool:
        """Whether `use_link` would let someone in. The link stays unused."""
        works = self._session.scalar(
            select(SignInLinkRow.token_hash)
            .join(PersonRow, PersonRow.key == SignInLinkRow.person_key)
            .where(*self._unused(token), PersonRow.disabled_at.is_(None))
        )
        return works is not None

    def use_link(self, token: str) -> Person | None:
        """Who the link was made for. It works once: of two at the same time, one gets in."""
        # the condition and the mark are one statement, or both could read it as unused
        person_key = self._session.scalar(
            update(SignInLinkRow)
            .where(*self._unused(token))
            .values(used_at=self._clock())
            .returning(SignInLinkRow.person_key)
        )
        if person_key is None:
            return None
        found = self._session.execute(_people().where(PersonRow.key == person_key))
        return _one_person(found.one_or_none())

    def by_email(self, email: str) -> tuple[Person, str | None] | None:
        """Who signs in with this email, and the hash of the password if there is one."""
        query = _people().add_columns(PersonRow.password_hash)
        row = self._session.execute(query.where(PersonRow.email == tidy_email(email))).one_or_none()
        return None if row is None else (_person(row), row.password_hash)

    def forget_expired(self) -> None:
        """Delete sessions and links that are too old to work."""
        for table in (SessionRow, SignInLinkRow):
            self._session.execute(delete(table).where(table.expires_at <= self._clock()))

    def _unused(self, token: str) -> tuple[Any, ...]:
        return (
            SignInLinkRow.token_hash == token_hash(token),
            SignInLinkRow.used_at.is_(None),
            SignInLinkRow.expires_at > self._clock(),
        )


class People:
    """The people of one firm."""

    def __init__(self, session: Session, firm_key: str, clock: Clock) -> None:
        self._session = session
        self._firm = firm_key
        self._clock = clock

    def listed(self) -> list[PersonLine]:
        """Everyone, those who may sign in first, by name."""
        row = PersonRow
        query = select(
            row.key,
            row.name,
            row.email,
            row.role,
            row.password_hash.is_not(None),
            row.disabled_at.is_not(None),
        ).where(row.firm_key == self._firm)
        order = (row.disabled_at.is_not(None), row.name, row.key)
        found: Any = self._session.execute(query.order_by(*order))
        return [PersonLine(*line) for line in found]

    def add(self, name: str, email: str, role: Role) -> Person:
        """A new person without a password. Raises: EmailTaken."""
        row = PersonRow(
            key=new_key(),
            firm_key=self._firm,
            name=name,
            email=tidy_email(email),
            role=role,
            units="ip",
            created_at=self._clock(),
        )
        try:
            with self._session.begin_nested():
                self._session.add(row)
        except IntegrityError:
            raise EmailTaken(email) from None
        found = self._session.execute(_people().where(PersonRow.key == row.key))
        return _person(found.one())

    def make_link(self, person_key: str) -> str:
        """The token of a new sign-in link; earlier links stop working. Raises: NoSuchPerson."""
        self._lock(person_key, PersonRow.disabled_at.is_(None))
        self._delete(SignInLinkRow, person_key)
        token = new_token()
        self._session.add(
            SignInLinkRow(
                token_hash=token_hash(token),
                firm_key=self._firm,
                person_key=person_key,
                expires_at=self._clock() + LINK_LASTS,
            )
        )
        self._session.flush()
        return token

    def password_hash(self, person_key: str) -> str | None:
        """The hash of the password, if there is one."""
        return self._session.scalar(select(PersonRow.password_hash).where(*self._at(person_key)))

    def set_password(self, person_key: str, password_hash: str | None) -> None:
        """Keep another hash; None forgets the password. Raises: NoSuchPerson."""
        self._update(person_key, password_hash=password_hash)

    def set_units(self, person_key: str, units: System) -> None:
        """What figures are shown in. Raises: NoSuchPerson."""
        self._update(person_key, units=units)

    def set_disabled(self, person_key: str, disabled: bool, by: str) -> None:
        """Keep a person out at once, or let them in again. by: the key of who does it.

        Raises: NoSuchPerson, CannotDisableSelf.
        """
        if disabled and person_key == by:
            raise CannotDisableSelf(person_key)
        self._update(person_key, disabled_at=self._clock() if disabled else None)
        if disabled:
            self.sign_out_everywhere(person_key)

    def sign_out_everywhere(self, person_key: str) -> None:
        """End all sessions and links of a person."""
        self._delete(SessionRow, person_key)
        self._delete(SignInLinkRow, person_key)

    # Rows

    def _at(self, person_key: str) -> tuple[Any, ...]:
        return (PersonRow.firm_key == self._firm, PersonRow.key == person_key)

    def _lock(self, person_key: str, *conditions: Any) -> None:
        """Nobody disables the person until this transaction ends."""
        query = select(PersonRow.key).where(*self._at(person_key), *conditions)
        if self._session.scalar(query.with_for_update()) is None:
            raise NoSuchPerson(person_key)

    def _update(self, person_key: str, **values: Any) -> None:
        changed = self._session.scalar(
            update(PersonRow).where(*self._at(person_key)).values(values).returning(PersonRow.key)
        )
        if changed is None:
            raise NoSuchPerson(person_key)

    def _delete(self, table: type[SessionRow] | type[SignInLinkRow], person_key: str) -> None:
        self._session.execute(
            delete(table).where(table.firm_key == self._firm, table.person_key == person_key)
        )


def add_firm(session: Session, name: str, clock: Clock) -> str:
    """A new firm without people; the result is its key."""
    key = new_key()
    session.add(FirmRow(key=key, name=name, created_at=clock()))
    session.flush()
    return key


def tidy_email(email: str) -> str:
    """An email as it is kept: capitals make no difference."""
    return email.strip().lower()


def _people() -> Select[*tuple[Any, ...]]:
    """Those who may sign in."""
    return (
        select(
            PersonRow.key,
            PersonRow.firm_key,
            FirmRow.name.label("firm_name"),
            PersonRow.name,
            PersonRow.email,
            PersonRow.role,
            PersonRow.units,
        )
        .join(FirmRow, FirmRow.key == PersonRow.firm_key)
        .where(PersonRow.disabled_at.is_(None))
    )


def _one_person(row: Row[*tuple[Any, ...]] | None) -> Person | None:
    return None if row is None else _person(row)


def _person(row: Row[*tuple[Any, ...]]) -> Person:
    key, firm_key, firm_name, name, email, role, units = row[:7]
    return Person(key, firm_key, firm_name, name, email, role, units)
