"""The price books of one firm: each change is a new version, an old one never changes."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace

from sqlalchemy import select
from sqlalchemy.orm import Session

from server.clock import Clock
from server.pricing.book import PriceBook
from server.pricing.book_file import read_price_book, seed_price_book, write_price_book
from server.storage import models as m
from server.storage.houses import StaleVersion


@dataclass(frozen=True, slots=True)
class WrittenBook:
    """A price book as it is kept; None is the seed book."""

    content: str | None

    @property
    def fingerprint(self) -> str:
        """A hash of all of it."""
        return "seed" if self.content is None else hashlib.sha256(self.content.encode()).hexdigest()

    def book(self) -> PriceBook:
        """The price book."""
        return seed_price_book() if self.content is None else read_price_book(self.content)


class PriceBooks:
    """The price books of one firm."""

    def __init__(self, session: Session, firm_key: str, clock: Clock) -> None:
        self._session = session
        self._firm = firm_key
        self._clock = clock

    def current(self) -> PriceBook:
        """The newest version; the seed book, as version 1, while nothing was changed."""
        return self.written().book()

    def written(self) -> WrittenBook:
        """The newest version as it is kept, in one reading."""
        return WrittenBook(self._newest())

    def _newest(self) -> str | None:
        row = m.PriceBookRow
        return self._session.scalar(
            select(row.content)
            .where(row.firm_key == self._firm)
            .order_by(row.version.desc())
            .limit(1)
        )

    def save(self, book: PriceBook, by: str) -> PriceBook:
        """Save a changed book as the next version. Raises: StaleVersion if it is not the newest."""
        if book.version != self.current().version:
            raise StaleVersion("price book")
        saved = replace(book, version=book.version + 1)
        self._session.add(
            m.PriceBookRow(
                firm_key=self._firm,
                version=saved.version,
                at=self._clock(),
                by=by,
                content=write_price_book(saved),
            )
        )
        self._session.flush()
        return saved
