"""Databases for tests: SQLite and PostgreSQL, migrated once and empty for each test."""

from __future__ import annotations

import atexit
import functools
import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import psycopg
import pytest

from server.storage.database import Database
from server.storage.models import Row

SERVER = "postgres@127.0.0.1:5432"


@functools.cache
def sqlite_template() -> Path:
    """A migrated SQLite file without rows, to be copied."""
    folder = Path(tempfile.mkdtemp(prefix="warmside-tests-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    file = folder / "template.db"
    made = Database(f"sqlite:///{file}")
    made.migrate()
    made.close()  # the last to close moves everything into the one file
    return file


def sqlite_database(folder: Path) -> Database:
    """A fresh SQLite database in a folder."""
    file = folder / "warmside.db"
    shutil.copyfile(sqlite_template(), file)
    return Database(f"sqlite:///{file}")


@functools.cache
def postgresql() -> Database | None:
    """A migrated PostgreSQL database of this process, dropped at its end; None without a server."""
    name = f"warmside_test_{os.getpid()}"
    try:
        server = psycopg.connect(f"postgresql://{SERVER}/postgres", autocommit=True)
    except psycopg.OperationalError:
        return None
    with server:
        server.execute(f"DROP DATABASE IF EXISTS {name} WITH (FORCE)")
        server.execute(f"CREATE DATABASE {name}")
    made = Database(f"postgresql+psycopg://{SERVER}/{name}")
    atexit.register(_drop, made, name)
    made.migrate()
    return made


def _drop(made: Database, name: str) -> None:
    made.close()
    with psycopg.connect(f"postgresql://{SERVER}/postgres", autocommit=True) as server:
        server.execute(f"DROP DATABASE {name} WITH (FORCE)")


def empty(database: Database) -> None:
    """Delete all rows."""
    with database.session(writing=True) as session:
        for table in reversed(Row.metadata.sorted_tables):
            session.execute(table.delete())


@pytest.fixture(params=["sqlite", "postgresql"])
def database(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Database]:
    """A migrated database without rows, once of each sort."""
    from tests.conftest import missing

    if request.param == "sqlite":
        made = sqlite_database(tmp_path)
        yield made
        made.close()
        return
    shared = postgresql()
    if shared is None:
        missing("PostgreSQL")
    else:
        empty(shared)
        yield shared
