"""Secrets that stand in a cookie or a link; the database holds only their hashes."""

from __future__ import annotations

import hashlib
import secrets

TOKEN_BYTES = 20  # 160 bits


def new_token() -> str:
    """A token nobody can guess, fit for an address."""
    return secrets.token_urlsafe(TOKEN_BYTES)


def token_hash(token: str) -> str:
    """What is kept of a token. It is random, so a plain hash cannot be searched backwards."""
    return hashlib.sha256(token.encode("utf-8", errors="replace")).hexdigest()
