"""What the account page shows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from server.accounts.passwords import LONGEST, SHORTEST
from server.accounts.person import Person


def account_context(
    person: Person,
    *,
    has_password: bool,
    saved: bool = False,
    faults: Mapping[str, str] | None = None,
) -> dict[str, Any]:
    """faults: what is wrong, by field. saved: a new password has just been kept."""
    return {
        "person": person,
        "has_password": has_password,
        "saved": saved,
        "faults": faults or {},
        "shortest": SHORTEST,
        "longest": LONGEST,
    }
