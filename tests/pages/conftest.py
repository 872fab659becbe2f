"""The whole application on a database of its own, for pages of a house."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.databases import sqlite_database
from tests.stored_houses import WholeSite


@pytest.fixture
def site(tmp_path: Path) -> Iterator[WholeSite]:
    """A site for one test; files whose tests only look have one for all of them."""
    made = WholeSite(sqlite_database(tmp_path))
    yield made
    made.database.close()
