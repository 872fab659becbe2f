"""Every rule, in the order in which people read them."""

from __future__ import annotations

from server.core.findings import (
    after_a_leak,
    fire_behaviour,
    fire_blocking,
    foam_cover,
    interstitial,
    sound,
    use_again,
)
from server.core.findings.base import Rule

ALL_FINDINGS: tuple[Rule, ...] = (
    interstitial.RULE,
    foam_cover.RULE,
    fire_behaviour.RULE,
    fire_blocking.RULE,
    sound.RULE,
    after_a_leak.RULE,
    use_again.RULE,
)
