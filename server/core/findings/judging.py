"""All findings of a comparison."""

from __future__ import annotations

from collections.abc import Hashable, Sequence

from server.core.comparison import Comparison
from server.core.evaluate import Result
from server.core.findings.all import ALL_FINDINGS
from server.core.findings.base import ORDER, Finding
from server.core.findings.case import Case, Site
from server.core.strategy import Strategy


def judge(comparison: Comparison, site: Site) -> tuple[tuple[Finding, ...], ...]:
    """What could go wrong, as found and under every strategy, the worst first.

    Shapes: a house without draws.
    Range: any comparison.
    Raises: nothing: a finding that cannot be judged is an open one.
    Source: each rule names its own.
    """
    shared: dict[Hashable, object] = {}
    strategies: Sequence[Strategy | None] = (None, *comparison.strategies)
    return tuple(
        judge_one(comparison.as_found, result, strategy, site, shared)
        for strategy, result in zip(strategies, comparison.all_results, strict=True)
    )


def judge_one(
    found: Result,
    after: Result,
    strategy: Strategy | None,
    site: Site,
    shared: dict[Hashable, object] | None = None,
) -> tuple[Finding, ...]:
    """What could go wrong in one result, the worst first. shared: between results of a comparison.

    Shapes: a house without draws. Range: any. Raises: nothing.
    Source: each rule names its own.
    """
    case = Case(found, after, strategy, site, shared)
    findings = [each for rule in ALL_FINDINGS for each in rule.findings(case)]
    return tuple(sorted(findings, key=lambda each: ORDER.index(each.severity)))
