"""Temperatures of the spaces of a house on its design night."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from server.core.arrays import Real
from server.core.evaluate import Result
from server.core.house import OUTDOORS


def design_night(result: Result) -> Mapping[str, Real] | None:
    """Temperature of every space and of outdoors, deg C, in a long night at design temperature.

    Spaces inside stand at the heating set point; a buffer between indoors, outdoors and the ground
    of its coldest month, without sources. None where the design temperature is not known.
    Shapes: the result's.
    Range: any result.
    Raises: nothing.
    Source: the steady balance of `network.balance`.
    """
    house = result.house
    outdoors = house.climate.heating_design_temperature
    if outdoors is None:
        return None
    indoors = house.heating_set_point
    ground = np.min(result.ground_temperature, axis=-1)
    temperatures: dict[str, Real] = {OUTDOORS: outdoors}
    for space in house.spaces:
        temperatures[space.name] = indoors
        if not space.inside:
            weights = result.working.graph.buffers[space.name]
            rest = 1.0 - weights.outdoors - weights.ground
            temperatures[space.name] = (
                weights.outdoors * outdoors + weights.ground * ground + rest * indoors
            )
    return temperatures
