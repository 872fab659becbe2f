"""The regions of one firm: each change of a region's defaults is a new version; old ones stay."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import func, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from server.clock import Clock
from server.regions.defaults import RegionDefaults, seed_regions
from server.storage import models as m
from server.storage.houses import StaleVersion

LONGEST_KEY = 40
_NOT_IN_KEYS = re.compile("[^a-z0-9]+")


class NoSuchRegion(Exception):
    """The firm has no region of this key, or no such version of it."""


class RegionTaken(Exception):
    """The firm has a region of this key already."""


@dataclass(frozen=True, slots=True)
class RegionVersion:
    """One version of a region's defaults. at, by: None where the seed data stands unchanged."""

    key: str
    version: int
    at: datetime | None
    by: str | None
    defaults: RegionDefaults


class Regions:
    """The regions of one firm. The seed data stands as version 1, without rows."""

    def __init__(self, session: Session, firm_key: str, clock: Clock) -> None:
        self._session = session
        self._firm = firm_key
        self._clock = clock

    def current(self) -> list[RegionVersion]:
        """The newest version of every region: those of the seed data, then the firm's by name."""
        row = m.RegionRow
        newest = (
            select(row.key, func.max(row.version).label("version"))
            .where(row.firm_key == self._firm)
            .group_by(row.key)
            .subquery()
        )
        query = select(row).join(
            newest, (row.key == newest.c.key) & (row.version == newest.c.version)
        )
        changed = {
            each.key: _read(each)
            for each in self._session.scalars(query.where(row.firm_key == self._firm))
        }
        seeds = [changed.get(key) or _seed(key) for key in seed_regions()]
        own = [each for key, each in changed.items() if key not in seed_regions()]
        return seeds + sorted(own, key=lambda each: each.defaults.name)

    def load(self, key: str, version: int | None = None) -> RegionVersion:
        """A region as it stands, or as it stood in a version. Raises: NoSuchRegion."""
        row = m.RegionRow
        query = select(row).where(row.firm_key == self._firm, row.key == key)
        if version is not None:
            query = query.where(row.version == version)
        found = self._session.scalar(query.order_by(row.version.desc()).limit(1))
        if found is not None:
            return _read(found)
        if key not in seed_regions() or version not in (None, 1):
            raise NoSuchRegion(key)
        return _seed(key)

    def save(self, key: str, defaults: RegionDefaults, base_version: int, by: str) -> int:
        """Save changed defaults; the result is the new version, the old one if nothing changed.

        Raises: NoSuchRegion; StaleVersion where somebody saved the region since it was read.
        """
        before = self.load(key)
        if before.version != base_version:
            raise StaleVersion(key)
        if before.defaults.as_written() == defaults.as_written():
            return before.version
        try:
            self._insert(key, before.version + 1, defaults, by)
        except IntegrityError:
            raise StaleVersion(key) from None
        return before.version + 1

    def add(self, defaults: RegionDefaults, by: str, key: str | None = None) -> str:
        """Add a region of the firm's own; the result is its key. Raises: RegionTaken."""
        made = (key or _NOT_IN_KEYS.sub("-", defaults.name.lower()).strip("-"))[:LONGEST_KEY]
        made = made or "region"
        try:
            self.load(made)
        except NoSuchRegion:
            try:
                self._insert(made, 1, defaults, by)
            except IntegrityError:
                raise RegionTaken(made) from None
            return made
        raise RegionTaken(made)

    def _insert(self, key: str, version: int, defaults: RegionDefaults, by: str) -> None:
        content = json.dumps(defaults.as_written(), ensure_ascii=False)
        with self._session.begin_nested():
            self._session.add(
                m.RegionRow(
                    firm_key=self._firm,
                    key=key,
                    version=version,
                    at=self._clock(),
                    by=by,
                    content=content,
                )
            )


def _read(row: m.RegionRow) -> RegionVersion:
    defaults = RegionDefaults.model_validate(json.loads(row.content))
    return RegionVersion(row.key, row.version, row.at, row.by, defaults)


def _seed(key: str) -> RegionVersion:
    return RegionVersion(key, 1, None, None, seed_regions()[key])
