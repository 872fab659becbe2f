"""All queries on offers: those of a firm, and the one that a link opens."""

from __future__ import annotations

import hashlib
import json
import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, cast

from sqlalchemy import func, select, update
from sqlalchemy.orm import Session

from server.accounts.tokens import new_token, token_hash
from server.clock import Clock
from server.offers.offer import Content, canonical
from server.storage.house_rows import new_key
from server.storage.models import OfferAnswerRow, OfferRow

MOST_ANSWERS = 100  # of one offer: more is nobody's mind changing


class NoSuchOffer(Exception):
    """There is no offer of this key or link."""


class OfferRevoked(Exception):
    """The link was taken back."""


class OfferExpired(Exception):
    """The link is too old."""


class OfferDamaged(Exception):
    """The content is not what was sent."""


class TooManyAnswers(Exception):
    """The offer has as many answers as it may have."""


@dataclass(frozen=True, slots=True)
class OfferLine:
    """An offer in a list."""

    key: str
    number: int
    created_at: datetime
    by: str
    note: str
    expires_at: datetime | None
    revoked_at: datetime | None
    opened_at: datetime | None


@dataclass(frozen=True, slots=True)
class Answer:
    """What an owner said."""

    offer_key: str
    at: datetime
    name: str
    choice: str
    question: str


@dataclass(frozen=True, slots=True)
class OpenOffer:
    """An offer that a link opens, as it was sent."""

    key: str
    firm_key: str
    number: int
    opened_at: datetime | None
    expires_at: datetime | None
    sha256: str
    content: Content
    is_newest: bool


class Offers:
    """The offers of one firm."""

    def __init__(self, session: Session, firm_key: str, clock: Clock) -> None:
        self._session = session
        self._firm = firm_key
        self.clock = clock

    def send(
        self, house_key: str, content: Content, note: str, expires_at: datetime | None, by: str
    ) -> tuple[OfferLine, str]:
        """Keep an offer; the result is it and the token of its link, which is kept nowhere.

        Numbers count on from the house's last; who holds the house locked gets the next one.
        """
        row, token, written = OfferRow, new_token(), canonical(content)
        last = self._session.scalar(
            select(func.max(row.number)).where(row.firm_key == self._firm, *_of(house_key))
        )
        made = OfferRow(
            key=new_key(),
            firm_key=self._firm,
            house_key=house_key,
            number=(last or 0) + 1,
            token_hash=token_hash(token),
            created_at=self.clock(),
            by=by,
            note=note,
            expires_at=expires_at,
            content=zlib.compress(written),
            sha256=hashlib.sha256(written).hexdigest(),
        )
        self._session.add(made)
        self._session.flush()
        return _line(made), token

    def of_house(self, house_key: str) -> list[OfferLine]:
        """The offers of a house, the newest first."""
        row = OfferRow
        query = select(*_columns()).where(row.firm_key == self._firm, *_of(house_key))
        found: Any = self._session.execute(query.order_by(row.number.desc()))
        return [OfferLine(*line) for line in found]

    def content(self, offer_key: str) -> Content:
        """What was sent. Raises: NoSuchOffer, OfferDamaged."""
        row = OfferRow
        found = self._session.execute(
            select(row.content, row.sha256).where(row.firm_key == self._firm, row.key == offer_key)
        ).one_or_none()
        if found is None:
            raise NoSuchOffer(offer_key)
        return _read(found.content, found.sha256)

    def revoke(self, house_key: str, offer_key: str) -> None:
        """Take the link back, at once; a second time changes nothing. Raises: NoSuchOffer."""
        row = OfferRow
        here = (row.firm_key == self._firm, row.key == offer_key, *_of(house_key))
        found = self._session.scalar(
            update(row)
            .where(*here)
            .values(revoked_at=func.coalesce(row.revoked_at, self.clock()))
            .returning(row.key)
        )
        if found is None:
            raise NoSuchOffer(offer_key)

    def answers(self, offer_keys: Sequence[str]) -> dict[str, list[Answer]]:
        """What owners said to each of some offers, the newest first."""
        row = OfferAnswerRow
        query = (
            select(row.offer_key, row.at, row.name, row.choice, row.question)
            .where(row.firm_key == self._firm, row.offer_key.in_(offer_keys))
            .order_by(row.at.desc(), row.key)
        )
        answers: dict[str, list[Answer]] = {key: [] for key in offer_keys}
        for line in self._session.execute(query):
            answers[line.offer_key].append(Answer(*cast("Any", line)))
        return answers


class OwnerOffers:
    """The offer of whoever has a link. It knows no firm: the token says which offer."""

    def __init__(self, session: Session, clock: Clock) -> None:
        self._session = session
        self._clock = clock

    def by_token(self, token: str) -> OpenOffer:
        """The offer of a link. Raises: NoSuchOffer, OfferRevoked, OfferExpired, OfferDamaged."""
        row = self._session.scalar(select(OfferRow).where(OfferRow.token_hash == token_hash(token)))
        if row is None:
            raise NoSuchOffer
        if row.revoked_at is not None:
            raise OfferRevoked
        if row.expires_at is not None and row.expires_at <= self._clock():
            raise OfferExpired
        newest = self._session.scalar(
            select(func.max(OfferRow.number)).where(
                OfferRow.firm_key == row.firm_key, *_of(row.house_key)
            )
        )
        return OpenOffer(
            key=row.key,
            firm_key=row.firm_key,
            number=row.number,
            opened_at=row.opened_at,
            expires_at=row.expires_at,
            sha256=row.sha256,
            content=_read(row.content, row.sha256),
            is_newest=newest == row.number,
        )

    def opened(self, offer: OpenOffer) -> None:
        """Note when an offer was first opened."""
        self._session.execute(
            update(OfferRow)
            .where(OfferRow.key == offer.key, OfferRow.opened_at.is_(None))
            .values(opened_at=self._clock())
        )

    def answer(self, offer: OpenOffer, name: str, choice: str, question: str) -> None:
        """Keep what an owner says; the same again at once is one answer. Raises: TooManyAnswers."""
        row = OfferAnswerRow
        said = list(
            self._session.execute(
                select(row.name, row.choice, row.question)
                .where(row.firm_key == offer.firm_key, row.offer_key == offer.key)
                .order_by(row.at.desc(), row.key)
            )
        )
        if said and tuple(said[0]) == (name, choice, question):
            return
        if len(said) >= MOST_ANSWERS:
            raise TooManyAnswers
        self._session.add(
            OfferAnswerRow(
                key=new_key(),
                firm_key=offer.firm_key,
                offer_key=offer.key,
                at=self._clock(),
                name=name,
                choice=choice,
                question=question,
            )
        )
        self._session.flush()


def _of(house_key: str) -> tuple[Any, ...]:
    return (OfferRow.house_key == house_key,)


def _columns() -> tuple[Any, ...]:
    return tuple(getattr(OfferRow, name) for name in OfferLine.__dataclass_fields__)


def _line(row: OfferRow) -> OfferLine:
    return OfferLine(*(getattr(row, name) for name in OfferLine.__dataclass_fields__))


def _read(content: bytes, sha256: str) -> Content:
    try:
        written = zlib.decompress(content)
    except zlib.error:
        raise OfferDamaged from None
    if hashlib.sha256(written).hexdigest() != sha256:
        raise OfferDamaged
    read: Content = json.loads(written)
    return read
