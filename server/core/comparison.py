"""A house as found and under every strategy, side by side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from server.core.evaluate import Result, evaluate
from server.core.gains import planes_of
from server.core.house import House
from server.core.solar import sun_geometry
from server.core.strategy import Strategy, apply


@dataclass(frozen=True, slots=True, eq=False)
class Comparison:
    """Results side by side: the house as found first, then each strategy in order."""

    house: House
    strategies: tuple[Strategy, ...]
    as_found: Result
    results: tuple[Result, ...]

    @property
    def all_results(self) -> tuple[Result, ...]:
        """As found and the strategies, in one row."""
        return (self.as_found, *self.results)


def compare(house: House, strategies: Sequence[Strategy]) -> Comparison:
    """Compute a house as found and after each strategy.

    Shapes: the house's.
    Range: strategies that can be applied.
    Raises: what `strategy.apply` raises.
    Source: `evaluate`.
    """
    houses = [house, *(apply(strategy, house) for strategy in strategies)]
    geometry = sun_geometry(float(house.climate.latitude), planes_of(houses))
    results = [evaluate(each, geometry) for each in houses]
    return Comparison(house, tuple(strategies), results[0], tuple(results[1:]))
