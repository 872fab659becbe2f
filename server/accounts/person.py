"""Someone who has signed in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from server.units import System

Role = Literal["contractor", "lead"]
"""A contractor works on the firm's houses; a lead also says who may sign in."""


@dataclass(frozen=True, slots=True)
class Person:
    """A person of a firm. units: what figures are shown in."""

    key: str
    firm_key: str
    firm_name: str
    name: str
    email: str
    role: Role
    units: System

    @property
    def is_lead(self) -> bool:
        """Whether this person may say who signs in."""
        return self.role == "lead"
