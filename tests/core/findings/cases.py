"""Cases for the rules of findings: a small house of parts, as found or after one strategy."""

from __future__ import annotations

from typing import Any

from server.core.comparison import compare
from server.core.findings.base import Finding, Rule
from server.core.findings.case import Case
from server.files.site import site_of
from tests.recipes.houses import Json, bays, part, project, solid

GYPSUM = solid("gypsum board")
CLOSED_CELL = "closed-cell sprayed foam, aged"
EMPTY_WALL = part("empty wall", "wall", ("indoors", "outdoors"), [GYPSUM, bays(), solid("plywood")])
PARTITION = part("partition", "partition", ("indoors", "indoors"), [GYPSUM, bays(), GYPSUM])


def case_of(parts: list[Json], changes: Json | None = None, **keys: Any) -> Case:
    """The house as found, or after a strategy with these changes; a strategy's keys in `does`."""
    does = keys.pop("does", {})
    if changes is not None or does:
        strategy = {"name": "the work", "recipe": "own", **does}
        keys["strategies"] = [strategy | ({"changes": changes} if changes else {})]
    made = project(parts, **keys)
    comparison = compare(made.house, made.strategies)
    strategy_made = made.strategies[0] if made.strategies else None
    after = comparison.all_results[-1]
    return Case(comparison.as_found, after, strategy_made, site_of(made.file))


def findings(rule: Rule, parts: list[Json], changes: Json | None = None, **keys: Any) -> Any:
    """What a rule says of it, by outcome."""
    return {each.outcome: each for each in rule.findings(case_of(parts, changes, **keys))}


def the_one(rule: Rule, parts: list[Json], changes: Json | None = None, **keys: Any) -> Finding:
    """The one thing a rule says of it."""
    (found,) = rule.findings(case_of(parts, changes, **keys))
    return found
