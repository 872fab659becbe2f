"""The sentences of one sort of finding."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class RuleWords:
    """What one rule says. told: by outcome, what was found, and what mends it or what to do.

    Braces hold the names of facts. aside: it tells of materials rather than of this house, and
    stands folded unless it asks for something.
    """

    title: str
    source: str
    told: Mapping[str, tuple[str, str]]
    aside: bool = False
