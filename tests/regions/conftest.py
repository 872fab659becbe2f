"""The whole application with its region pages; storage on both databases."""

import pytest

from server.pages.regions import house_routes, routes
from tests.databases import database, sqlite_database
from tests.stored_houses import WholeSite

__all__ = ["database"]


@pytest.fixture
def site(tmp_path):
    """A firm with its people, another firm, and the pages of regions."""
    made = WholeSite(sqlite_database(tmp_path))
    known = {getattr(each, "path", None) for each in made.app.routes}
    if "/regions" not in known:
        for each in (routes, house_routes):
            made.app.include_router(each.router)
    yield made
    made.database.close()
