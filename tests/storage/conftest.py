"""Every test here runs on SQLite and on PostgreSQL."""

from tests.databases import database

__all__ = ["database"]
