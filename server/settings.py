"""What the environment sets. Every name starts with WARMSIDE_."""

from __future__ import annotations

from pathlib import Path

from pydantic_settings import BaseSettings, SettingsConfigDict

ROOT = Path(__file__).resolve().parent.parent


class Settings(BaseSettings):
    """database_url: SQLAlchemy's address of the database, SQLite in var/ where not set."""

    model_config = SettingsConfigDict(env_prefix="WARMSIDE_")

    database_url: str = f"sqlite:///{ROOT / 'var' / 'warmside.db'}"
