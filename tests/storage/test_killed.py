"""A process that is killed in the middle of an edit leaves a whole house behind."""

import os
import signal
import subprocess
import sys

import pytest

from server.storage.database import Database
from tests.accounts.site import MovedClock
from tests.conftest import ROOT
from tests.stored_houses import Firm, demo_file

EDITS = """
import sys, time
from sqlalchemy.orm import Session
from server.actions.edit_value import Edit, edit_value
from server.clock import utc_now
from server.storage.database import Database
from server.storage.houses import Houses

url, firm, house, when = sys.argv[1:]
commit = Session.commit

def killed_here(session):
    if when == "after":
        commit(session)
    else:
        session.flush()
    print("now", flush=True)
    time.sleep(60)

Session.commit = killed_here
with Database(url).session(writing=True) as session:
    houses = Houses(session, firm, utc_now)
    part = houses.load(house).house.as_stored()["components"][0]
    place = f"components/{part['key']}/name"
    edit_value(houses, house, Edit(place, [part["name"]], "renamed wall"), "Cory Invented")
"""


def killed_in_an_edit(firm, key, when):
    """Begin an edit in another process and kill that."""
    url = firm.database.url.render_as_string(hide_password=False)
    command = [sys.executable, "-c", EDITS, url, firm.key, key, when]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout.readline() == "now\n"
        os.kill(process.pid, signal.SIGKILL)
    assert process.returncode == -signal.SIGKILL


@pytest.mark.parametrize("when", ["before", "after"])
def test_a_house_outlives_who_edited_it(database, when):
    firm = Firm(database, MovedClock())
    key = firm.add(demo_file())
    before = firm.load(key)
    if database.is_sqlite:
        database.close()
    killed_in_an_edit(firm, key, when)

    if database.is_sqlite:
        firm.database = Database(database.url.render_as_string())
        with firm.database.engine.connect() as connection:
            assert connection.exec_driver_sql("PRAGMA integrity_check").all() == [("ok",)]
            assert connection.exec_driver_sql("PRAGMA foreign_key_check").all() == []
    after = firm.load(key)
    with firm.houses(writing=False) as houses:
        versions = [each.version for each in houses.revisions(key)]
    if when == "before":
        assert (after, versions) == (before, [1])
    else:
        document = before.house.as_stored()
        document["components"][0]["name"] = "renamed wall"
        assert after.house.as_stored()["components"] == document["components"]
        assert "renamed wall" in str(after.house.as_written()["strategies"])
        assert (after.version, versions) == (2, [2, 1])
    # nobody is kept waiting by a lock of the dead
    assert firm.change(key, lambda each: each.update(bedrooms=7)) == after.version + 1
    if firm.database is not database:
        firm.database.close()
