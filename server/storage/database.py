"""The database: engine, sessions, the single commit, migrations."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection, Engine, create_engine, event, text
from sqlalchemy.engine import make_url
from sqlalchemy.orm import Session

from server.settings import ROOT

POOL = 45  # a little more than the threads that answer requests
_MIGRATION_LOCK = 7_305_118_402  # any number, the same for all processes


class Database:
    """One database, SQLite or PostgreSQL."""

    def __init__(self, url: str) -> None:
        self.url = make_url(url)
        if self.is_sqlite and self.url.database:
            Path(self.url.database).parent.mkdir(parents=True, exist_ok=True)
        self.engine = _engine(str(self.url.render_as_string(hide_password=False)), self.is_sqlite)

    @property
    def is_sqlite(self) -> bool:
        """Whether this is SQLite."""
        return self.url.get_backend_name() == "sqlite"

    @contextmanager
    def session(self, *, writing: bool) -> Iterator[Session]:
        """A session whose work is committed at the end, or undone on an error.

        One that writes takes SQLite's write lock at once, so that what it reads stays true.
        """
        with Session(self.engine, expire_on_commit=False) as session:
            session.connection(execution_options={"writing": writing})
            try:
                yield session
            except BaseException:
                session.rollback()
                raise
            session.commit()

    def migrate(self) -> None:
        """Bring the tables to the newest revision; safe to call from several processes."""
        with self.engine.connect() as connection:
            if self.is_sqlite:
                # with foreign keys on, rebuilding a table would delete the rows below it
                connection.exec_driver_sql("PRAGMA foreign_keys=OFF")
                connection.rollback()
            with connection.execution_options(writing=True).begin():
                if not self.is_sqlite:
                    lock = text("SELECT pg_advisory_xact_lock(:number)")
                    connection.execute(lock, {"number": _MIGRATION_LOCK})
                command.upgrade(alembic_config(connection), "head")
                if self.is_sqlite:
                    broken = connection.exec_driver_sql("PRAGMA foreign_key_check").all()
                    if broken:
                        raise RuntimeError(f"a migration left rows without their parents: {broken}")
            if self.is_sqlite:
                connection.exec_driver_sql("PRAGMA foreign_keys=ON")
                connection.rollback()

    def close(self) -> None:
        """Close all connections."""
        self.engine.dispose()


def alembic_config(connection: Connection) -> Config:
    """Alembic's configuration for one connection."""
    config = Config(toml_file=ROOT / "pyproject.toml")
    config.attributes["connection"] = connection
    return config


def _engine(url: str, is_sqlite: bool) -> Engine:
    if not is_sqlite:
        return create_engine(url, pool_size=POOL, max_overflow=0, pool_pre_ping=True)
    engine = create_engine(url, pool_size=POOL, max_overflow=0, connect_args={"timeout": 30})

    @event.listens_for(engine, "connect")
    def _connected(connection: Any, _record: Any) -> None:
        connection.isolation_level = None  # the driver's own BEGIN comes too late
        cursor = connection.cursor()
        for pragma in ("journal_mode=WAL", "foreign_keys=ON", "synchronous=NORMAL"):
            cursor.execute(f"PRAGMA {pragma}")
        cursor.close()

    @event.listens_for(engine, "begin")
    def _begun(connection: Connection) -> None:
        writing = connection.get_execution_options().get("writing")
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writing else "BEGIN")

    return engine
