"""All queries on houses. A repository is made for one firm and sees nothing of another."""

from __future__ import annotations

import hashlib
import json
import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, Literal, cast

from sqlalchemy import Table, delete, insert, select, update
from sqlalchemy.orm import Session

from server.clock import Clock
from server.files.differences import Difference, differences, same
from server.files.house_file import HouseFile
from server.storage import models as m
from server.storage.house_rows import (
    BOOKKEEPING,
    HouseRows,
    columns_of,
    new_key,
    to_house,
    to_rows,
    with_keys,
)

BIN = timedelta(days=30)
MOST_WORDS = 20  # differences a revision lists; its whole content is kept anyway

Shelf = Literal["open", "archived", "bin"]
Order = Literal["changed", "name", "year"]


class NoSuchHouse(Exception):
    """The firm has no house of this key, or it has been emptied from the bin."""


class StaleVersion(Exception):
    """The house was saved by someone else since it was read."""


@dataclass(frozen=True, slots=True)
class Stored:
    """A house as stored."""

    key: str
    version: int
    house: HouseFile
    changed_at: datetime
    archived_at: datetime | None
    binned_at: datetime | None


@dataclass(frozen=True, slots=True)
class HouseLine:
    """A house in a list."""

    key: str
    name: str
    year_built: int | None
    version: int
    changed_at: datetime
    binned_at: datetime | None


@dataclass(frozen=True, slots=True)
class Revision:
    """Who saved which version, when, and what differs from the one before."""

    version: int
    at: datetime
    by: str
    what: Sequence[Difference]


@dataclass(frozen=True, slots=True)
class Packed:
    """A whole house as a revision keeps it: what is read of it is what its fingerprint says."""

    content: bytes

    @property
    def fingerprint(self) -> str:
        """A hash of all of it."""
        return hashlib.sha256(self.content).hexdigest()

    def house(self) -> HouseFile:
        """The house."""
        return HouseFile.from_stored(json.loads(zlib.decompress(self.content)))


class Houses:
    """The houses of one firm."""

    def __init__(self, session: Session, firm_key: str, clock: Clock) -> None:
        self._session = session
        self._firm = firm_key
        self._clock = clock
        self._locked: dict[str, tuple[Stored, HouseRows]] = {}

    def listed(self, shelf: Shelf, search: str = "", order: Order = "changed") -> list[HouseLine]:
        """The houses on a shelf whose name holds the words searched for."""
        row = m.HouseRow
        query = select(
            row.key, row.name, row.year_built, row.version, row.changed_at, row.binned_at
        ).where(row.firm_key == self._firm)
        if shelf == "bin":
            query = query.where(row.binned_at > self._clock() - BIN)
        else:
            archived = (
                row.archived_at.is_not(None) if shelf == "archived" else row.archived_at.is_(None)
            )
            query = query.where(row.binned_at.is_(None), archived)
        for word in search.split()[:10]:
            query = query.where(row.name.icontains(word, autoescape=True))
        orders = {
            "changed": (row.changed_at.desc(),),
            "name": (row.name,),
            "year": (row.year_built.is_(None), row.year_built),
        }
        found = self._session.execute(query.order_by(*orders[order], row.key))
        return [HouseLine(*line) for line in found]

    def load(self, key: str, *, to_change: bool = False) -> Stored:
        """A house. to_change: nobody else may save it until this transaction ends.

        Raises: NoSuchHouse.
        """
        query = select(m.HouseRow).where(m.HouseRow.firm_key == self._firm, m.HouseRow.key == key)
        if to_change:
            query = query.with_for_update()
        row = self._session.scalar(query)
        if row is None or _is_gone(row.binned_at, self._clock()):
            raise NoSuchHouse(key)
        rows = self._rows(row)
        stored = Stored(
            key, row.version, to_house(rows), row.changed_at, row.archived_at, row.binned_at
        )
        if to_change:
            self._locked[key] = stored, rows
        return stored

    def packed(self, key: str) -> Packed:
        """A house as it stands, in one reading. Raises: NoSuchHouse."""
        house, row = m.HouseRow, m.RevisionRow
        query = (
            select(house.binned_at, row.content)
            .join(row, (row.house_key == house.key) & (row.version == house.version))
            .where(house.firm_key == self._firm, row.firm_key == self._firm, house.key == key)
        )
        found = self._session.execute(query).one_or_none()
        if found is None or _is_gone(found.binned_at, self._clock()):
            raise NoSuchHouse(key)
        return Packed(found.content)

    def add(self, house: HouseFile, by: str) -> str:
        """Store a new house; the result is its key."""
        house, key, now = with_keys(house), new_key(), self._clock()
        rows = to_rows(self._firm, key, house)
        rows.house.version, rows.house.created_at, rows.house.changed_at = 1, now, now
        self._session.add(rows.house)
        self._session.flush()
        for table in m.HOUSE_PARTS:
            self._insert(table, [columns_of(row) for row in rows.of(table)])
        self._write_revision(key, 1, house, by, [])
        return key

    def save_house(self, key: str, house: HouseFile, base_version: int, by: str) -> int:
        """Save a changed house, the one way there is; the result is the new version.

        Raises: NoSuchHouse, StaleVersion.
        """
        if key not in self._locked:
            self.load(key, to_change=True)
        stored, rows = self._locked.pop(key)
        if stored.version != base_version:
            raise StaleVersion(key)
        house = with_keys(house)
        what = differences(stored.house.as_stored(), house.as_stored())
        if not what:
            return stored.version
        version = stored.version + 1
        self._write_rows(rows, to_rows(self._firm, key, house))
        self._update(key, version=version, changed_at=self._clock())
        self._write_revision(key, version, house, by, what)
        return version

    def archive(self, key: str, *, archived: bool) -> None:
        """Put a finished house away, or take it out again. Raises: NoSuchHouse."""
        self._update(key, archived_at=self._clock() if archived else None)

    def bin(self, key: str, *, binned: bool) -> None:
        """Put a house into the bin, or take it out again. Raises: NoSuchHouse."""
        self._update(key, binned_at=self._clock() if binned else None)

    def revisions(self, key: str) -> list[Revision]:
        """What was saved, the newest first. Raises: NoSuchHouse."""
        row = m.RevisionRow
        query = select(row.version, row.at, row.by, row.what).where(
            row.firm_key == self._firm, row.house_key == key
        )
        found = self._session.execute(query.order_by(row.version.desc())).all()
        if not found:
            raise NoSuchHouse(key)
        return [Revision(*cast("Any", line)) for line in found]

    def version(self, key: str, version: int) -> HouseFile:
        """The house as it stood in a version. Raises: NoSuchHouse."""
        row = m.RevisionRow
        content = self._session.scalar(
            select(row.content).where(
                row.firm_key == self._firm, row.house_key == key, row.version == version
            )
        )
        if content is None:
            raise NoSuchHouse(key)
        return Packed(content).house()

    # Rows

    def _rows(self, house: m.HouseRow) -> HouseRows:
        rows = HouseRows(house)
        for table in m.HOUSE_PARTS:
            query = select(table).where(table.firm_key == self._firm, table.house_key == house.key)
            rows.parts[table] = list(self._session.scalars(query.order_by(table.position)))
        return rows

    def _write_rows(self, before: HouseRows, after: HouseRows) -> None:
        """Write what differs: parents go in first and out last."""
        was, now = columns_of(before.house), columns_of(after.house)
        changed = {
            name: value
            for name, value in now.items()
            if name not in BOOKKEEPING and not same(value, was[name])
        }
        if changed:
            self._session.execute(
                update(_table(m.HouseRow))
                .where(m.HouseRow.firm_key == self._firm, m.HouseRow.key == after.house.key)
                .values(changed)
            )
        old = {table: _by_key(before.of(table)) for table in m.HOUSE_PARTS}
        new = {table: _by_key(after.of(table)) for table in m.HOUSE_PARTS}
        for table in m.HOUSE_PARTS:
            self._insert(table, [row for key, row in new[table].items() if key not in old[table]])
            for key, row in new[table].items():
                if key in old[table] and not same(old[table][key], row):
                    self._session.execute(
                        update(_table(table)).where(*self._at(table, after, key)).values(row)
                    )
        for table in reversed(m.HOUSE_PARTS):
            gone = old[table].keys() - new[table].keys()
            for key in gone:
                self._session.execute(delete(_table(table)).where(*self._at(table, after, key)))

    def _at(self, table: type[m.OfAHouse], rows: HouseRows, key: str) -> tuple[Any, ...]:
        return (
            table.firm_key == self._firm,
            table.house_key == rows.house.key,
            table.key == key,
        )

    def _insert(self, table: type[m.OfAHouse], rows: list[dict[str, Any]]) -> None:
        if rows:
            self._session.execute(insert(_table(table)), rows)

    def _update(self, key: str, **values: Any) -> None:
        changed = self._session.scalar(
            update(m.HouseRow)
            .where(m.HouseRow.firm_key == self._firm, m.HouseRow.key == key)
            .values(values)
            .returning(m.HouseRow.key)
            .execution_options(synchronize_session=False)
        )
        if changed is None:
            raise NoSuchHouse(key)

    def _write_revision(
        self, key: str, version: int, house: HouseFile, by: str, what: list[Difference]
    ) -> None:
        content = zlib.compress(json.dumps(house.as_stored()).encode())
        self._session.add(
            m.RevisionRow(
                firm_key=self._firm,
                house_key=key,
                version=version,
                at=self._clock(),
                by=by,
                what=what[:MOST_WORDS],
                content=content,
            )
        )


def empty_bins(session: Session, clock: Clock) -> int:
    """Delete, in every firm, the houses that were in the bin for thirty days; how many."""
    old = delete(m.HouseRow).where(m.HouseRow.binned_at <= clock() - BIN)
    return len(session.scalars(old.returning(m.HouseRow.key)).all())


def _is_gone(binned_at: datetime | None, now: datetime) -> bool:
    """Whether a house has been in the bin for too long to be seen."""
    return binned_at is not None and binned_at <= now - BIN


def _table(rows: type[m.Row]) -> Table:
    """The table of rows, for statements that name columns rather than attributes."""
    return cast("Table", rows.__table__)


def _by_key(rows: list[Any]) -> dict[str, dict[str, Any]]:
    return {row.key: columns_of(row) for row in rows}
