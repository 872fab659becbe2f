"""The revisions of the tables lead up and down, and end where the models are."""

import os

import psycopg
import pytest
from alembic import command
from alembic.script import ScriptDirectory
from sqlalchemy import inspect

from server.storage.database import Database, alembic_config
from server.storage.models import Row
from tests.accounts.site import MovedClock
from tests.conftest import ROOT, missing
from tests.databases import SERVER, postgresql
from tests.stored_houses import Firm, demo_file, small_file

NAME = f"warmside_test_migrations_{os.getpid()}"


@pytest.fixture(params=["sqlite", "postgresql"])
def bare(request, tmp_path):
    """A database without any table."""
    if request.param == "sqlite":
        made = Database(f"sqlite:///{tmp_path / 'bare.db'}")
        yield made
        made.close()
        return
    if postgresql() is None:
        missing("PostgreSQL")
    with psycopg.connect(f"postgresql://{SERVER}/postgres", autocommit=True) as server:
        server.execute(f"DROP DATABASE IF EXISTS {NAME} WITH (FORCE)")
        server.execute(f"CREATE DATABASE {NAME}")
        made = Database(f"postgresql+psycopg://{SERVER}/{NAME}")
        yield made
        made.close()
        server.execute(f"DROP DATABASE {NAME} WITH (FORCE)")


def tables(database):
    return set(inspect(database.engine).get_table_names()) - {"alembic_version"}


def run(database, what, *given):
    """One of Alembic's commands; as in a migration, foreign keys of SQLite are off meanwhile."""
    with database.engine.connect() as connection:
        if database.is_sqlite:
            connection.exec_driver_sql("PRAGMA foreign_keys=OFF")
            connection.rollback()
        with connection.execution_options(writing=True).begin():
            what(alembic_config(connection), *given)
        if database.is_sqlite:
            connection.exec_driver_sql("PRAGMA foreign_keys=ON")
            connection.rollback()


def revisions():
    """All revisions, the newest first."""
    return list(ScriptDirectory(ROOT / "migrations").walk_revisions())


def test_up_down_and_up_again(bare):
    bare.migrate()
    assert tables(bare) == set(Row.metadata.tables)
    run(bare, command.downgrade, "base")
    assert tables(bare) == set()
    bare.migrate()
    assert tables(bare) == set(Row.metadata.tables)


def test_the_models_are_what_the_migrations_made(bare):
    bare.migrate()
    run(bare, command.check)


def test_there_is_one_line_of_revisions():
    script = ScriptDirectory(ROOT / "migrations")
    assert len(script.get_heads()) == len(script.get_bases()) == 1
    assert not any(each.is_branch_point for each in revisions())


def test_the_last_revision_keeps_a_house_down_and_up(bare):
    """What the last revision does not hold is in the house.

    With one revision only, down is away with everything, and up is a fresh start.
    """
    bare.migrate()
    firm = Firm(bare, MovedClock())
    key = firm.add(small_file())
    firm.change(key, lambda document: document.update(bedrooms=5))
    before = firm.load(key)
    run(bare, command.downgrade, "-1")
    bare.migrate()
    if len(revisions()) > 1:
        after = firm.load(key)
        assert after == before
        assert after.house.as_stored() == before.house.as_stored()
        with firm.houses(writing=False) as houses:
            assert [each.version for each in houses.revisions(key)] == [2, 1]
    else:
        firm = Firm(bare, MovedClock())
        assert firm.load(firm.add(demo_file())).house.as_written() == demo_file().as_written()


def test_migrating_again_changes_nothing(bare):
    bare.migrate()
    firm = Firm(bare, MovedClock())
    key = firm.add(demo_file())
    bare.migrate()
    assert firm.load(key).house.as_written() == demo_file().as_written()


def test_foreign_keys_are_on_after_a_migration(bare):
    bare.migrate()
    firm = Firm(bare, MovedClock())
    firm.add(demo_file())
    with bare.session(writing=True) as session:
        session.execute(Row.metadata.tables["houses"].delete())
    with bare.session(writing=False) as session:
        assert session.execute(Row.metadata.tables["layers"].select()).all() == []
