"""The demo house and its strategies by the monthly method and by the hour, in one TMY3 year."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from benchmarks.hourly.five_resistances import Loads, build, simulate
from benchmarks.hourly.weather import HOURS, Array, Year, monthly_climate
from server.core.air import basic_model_flow, leakage_area
from server.core.evaluate import Result, evaluate
from server.core.house import House
from server.core.strategy import apply
from server.files.building import read_project
from server.files.seeds import DEMO_HOUSE


@dataclass(frozen=True, slots=True, eq=False)
class SideBySide:
    """Houses in order, as found first; loads kWh a year (houses,), months houses x 12."""

    names: tuple[str, ...]
    monthly: tuple[Result, ...]
    hourly: Loads

    @property
    def heating(self) -> tuple[Array, Array]:
        """A year's heating, kWh: by the month, by the hour."""
        by_month = np.array([float(result.heating_load_kwh) for result in self.monthly])
        return by_month, self.hourly.heating.sum(axis=-1)

    @property
    def cooling(self) -> tuple[Array, Array]:
        """A year's sensible cooling, kWh: by the month, by the hour."""
        by_month = np.array([float(result.cooling_load_kwh) for result in self.monthly])
        return by_month, self.hourly.cooling.sum(axis=-1)


def demo_houses(year: Year) -> dict[str, House]:
    """The demo house as found and under each strategy, where the year was."""
    project = read_project(DEMO_HOUSE.read_bytes())
    found = replace(project.house, climate=monthly_climate(year))
    return {"as found": found} | {
        strategy.name: apply(strategy, found) for strategy in project.strategies
    }


def side_by_side(
    year: Year,
    change: Callable[[House], House] = lambda house: house,
    *,
    windows: bool = True,
    gains_to_air: bool = False,
) -> SideBySide:
    """Both methods; change is done to each house first. The ground is what the product takes.

    Without windows the hourly houses never open any; the monthly ones still do.
    """
    houses = {name: change(house) for name, house in demo_houses(year).items()}
    results = tuple(evaluate(house) for house in houses.values())
    ground = np.stack([result.ground_temperature for result in results])
    network = build(list(houses.values()), year)
    loads = simulate(network, year, ground, windows=windows, gains_to_air=gains_to_air)
    return SideBySide(tuple(houses), results, loads)


def without_sun(year: Year) -> Year:
    """The year in the dark."""
    dark = np.zeros(HOURS)
    return replace(year, level=dark, beam=dark, diffuse=dark, planes={})


def steady_error(year: Year) -> Array:
    """Hourly heating over sum(UA) dT less one: freezing outdoors, no sun, sky or gains."""
    frost, wind = np.zeros(HOURS), 3.0
    steady = replace(
        without_sun(year), temperature=frost, wind_speed=frost + wind, sky_radiation=0.0
    )
    houses = [replace(house, people_and_appliances=0.0) for house in demo_houses(year).values()]
    network = build(houses, steady)
    found = simulate(network, steady, np.zeros((len(houses), 12))).heating.sum(axis=-1)
    warm = network.heat_to
    flow = [
        basic_model_flow(
            leakage_area(house.leakage.flow_at_50_pa),
            np.array([float(house.heating_set_point)]),
            np.array([wind]),
            house.storeys,
            house.leakage.shelter_class,
        )[0]
        for house in houses
    ]
    fans = network.fan * (1.0 - network.recovery)
    air = network.air_capacity * (np.array(flow) + fans)
    conductance = network.openings + network.mass_out + network.mass_ground + air
    return found / (conductance * warm * HOURS / 1000.0) - 1.0
