"""Every rule, in the order in which people read them."""

from __future__ import annotations

from server.core.findings import interstitial
from server.core.findings.base import Rule

ALL_FINDINGS: tuple[Rule, ...] = (interstitial.RULE,)
