"""Many variations of one house in one call, in chunks that stay small enough for the cache."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass, replace
from typing import Any

import numpy as np

from server.core.arrays import Array, Real
from server.core.evaluate import Result, evaluate
from server.core.gains import planes_of
from server.core.house import House
from server.core.solar import sun_geometry

CHUNK = 2000  # draws at a time: their monthly arrays fit the processor's cache


def evaluate_draws(
    house: House, draws: int, figures: Mapping[str, Callable[[Result], Real]]
) -> dict[str, Array]:
    """Compute a house whose quantities carry draws, and collect some figures of every draw.

    Shapes: quantities of the house (draws,) or (draws, 12), or without draws; figures (draws,).
    Range: any number of draws; memory grows with the figures only.
    Raises: what `evaluate` raises.
    Source: definition.
    """
    geometry = sun_geometry(float(house.climate.latitude), planes_of([house]))
    collected: dict[str, list[Array]] = {name: [] for name in figures}
    for start in range(0, draws, CHUNK):
        stop = min(start + CHUNK, draws)
        part: House = house
        if draws > CHUNK:
            part = _taken(house, slice(start, stop), draws, {})
        result = evaluate(part, geometry)
        for name, read in figures.items():
            collected[name].append(np.broadcast_to(read(result), (stop - start,)))
    return {name: np.concatenate(parts) for name, parts in collected.items()}


def _taken(value: Any, part: slice, draws: int, made: dict[int, Any]) -> Any:
    """A copy with only some draws; what carries none is shared, what was shared stays shared."""
    if isinstance(value, np.ndarray):
        return value[part] if value.ndim and value.shape[0] == draws else value
    if id(value) in made:
        return made[id(value)]
    taken = value
    if isinstance(value, tuple):
        items = [_taken(item, part, draws, made) for item in value]
        if any(new is not old for new, old in zip(items, value, strict=True)):
            taken = tuple(items)
    elif isinstance(value, Mapping):
        taken = {key: _taken(item, part, draws, made) for key, item in value.items()}
    elif is_dataclass(value) and not isinstance(value, type):
        old = {field.name: getattr(value, field.name) for field in fields(value)}
        new = {name: _taken(item, part, draws, made) for name, item in old.items()}
        changed = {name: item for name, item in new.items() if item is not old[name]}
        if changed:
            taken = replace(value, **changed)
    made[id(value)] = taken
    return taken
