"""Offers are tested on SQLite and on PostgreSQL; the houses and people are invented."""

import pytest

from tests.databases import database
from tests.stored_houses import WholeSite

__all__ = ["database"]


@pytest.fixture
def site(database):
    """The whole application with two firms."""
    return WholeSite(database)
