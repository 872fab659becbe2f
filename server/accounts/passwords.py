"""Passwords: only their Argon2 hashes are kept."""

from __future__ import annotations

import functools
import unicodedata

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from server.accounts.tokens import new_token

SHORTEST = 10
LONGEST = 200

_HASHER = PasswordHasher()


class PasswordOfWrongLength(Exception):
    """A password has from SHORTEST to LONGEST characters; this one has `length`."""

    def __init__(self, length: int) -> None:
        super().__init__(length)
        self.length = length


def hash_password(password: str) -> str:
    """The hash to keep. Raises: PasswordOfWrongLength."""
    if not SHORTEST <= len(password) <= LONGEST:
        raise PasswordOfWrongLength(len(password))
    return _HASHER.hash(_as_typed_anywhere(password))


def verify_password(password: str, password_hash: str | None) -> bool:
    """Whether this is the password. Without a hash it never is, after as much work."""
    try:
        right = _HASHER.verify(password_hash or _nobodys_hash(), _as_typed_anywhere(password))
    except (VerificationError, InvalidHashError):
        return False
    return right and password_hash is not None


def needs_rehash(password_hash: str) -> bool:
    """Whether the hash was made with other parameters than are used now."""
    return _HASHER.check_needs_rehash(password_hash)


def _as_typed_anywhere(password: str) -> str:
    """Keyboards send an accented letter as one character or as two."""
    return unicodedata.normalize("NFKC", password)


@functools.cache
def _nobodys_hash() -> str:
    return _HASHER.hash(new_token())
