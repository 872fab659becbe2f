"""Every test here that needs a database runs on SQLite and on PostgreSQL."""

import pytest

from tests.accounts.site import Site
from tests.databases import database

__all__ = ["database"]


@pytest.fixture
def site(database):
    """The account pages with two people."""
    return Site(database)
