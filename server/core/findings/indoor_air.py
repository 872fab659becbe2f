"""How warm and humid the air is on either side of a component, month by month."""

from __future__ import annotations

import functools
from dataclasses import dataclass

import numpy as np

from server.core.air import NO_FANS, Ventilation, air_flows, air_pressure, whole_house_flow
from server.core.errors import require_within
from server.core.evaluate import Result
from server.core.findings.ground_floors import is_concrete_floor
from server.core.house import GROUND, OUTDOORS, House, Kind
from server.core.moisture import saturation_pressure

Months = tuple[float, ...]

EXCESS = {1: 270.0, 2: 540.0, 3: 810.0, 4: 1080.0, 5: 1360.0}  # Pa, ISO 13788:2012 A.1 (memory)
# Dwellings with normal occupancy and ventilation, and use that is not known, Table A.1 (memory).
AIRED_CLASS, UNKNOWN_CLASS = 2, 3
NO_EXCESS_ABOVE = 20.0  # deg C outdoors
DRIED_TO = 0.6  # relative humidity that cooling holds indoors (common practice)
NEARLY_SATURATED = 0.95  # as humid as a space that the ground wets is taken to get (our judgement)
WATER_TO_AIR = 0.621945  # ratio of the molar masses


@dataclass(frozen=True, slots=True)
class IndoorHumidity:
    """How humid the rooms are: a class of ISO 13788, 1 to 5, or twelve relative humidities.

    humidity_class: None is that of normal ventilation where fans or leaks bring it all year, else
    that of use not known. Raises: ImpossibleValue.
    """

    humidity_class: int | None = None
    relative_humidity: Months | None = None

    def __post_init__(self) -> None:
        if self.humidity_class is not None:
            require_within("indoor_humidity.humidity_class", self.humidity_class, 1, 5)
        if self.relative_humidity is not None:
            place = "indoor_humidity.relative_humidity"
            require_within(place, np.array(self.relative_humidity), 0.01, 1.0)


@dataclass(frozen=True, slots=True)
class Air:
    """Twelve months of the air of a space: deg C and Pa of vapour."""

    temperature: Months
    pressure: Months


def vapour_pressure(humidity_ratio: float, pressure: float) -> float:
    """Vapour pressure of air from its water.

    p_v = p w/(0.621945 + w).
    Shapes: floats, kg/kg and Pa; result Pa. Range: zero and up. Raises: nothing.
    Source: ASHRAE Handbook: Fundamentals, psychrometrics (memory); held against psychrolib.
    """
    return pressure * humidity_ratio / (WATER_TO_AIR + humidity_ratio)


def pressure_excess(humidity_class: int, outdoor_temperature: float) -> float:
    """How much more vapour pressure indoors has than outdoors.

    All of it up to 0 deg C, falling evenly to none at 20 deg C.
    Shapes: a class and deg C; result Pa. Range: classes 1 to 5. Raises: KeyError.
    Source: ISO 13788:2012 Annex A, Figure A.1, upper limit of the class (memory).
    """
    cold = (NO_EXCESS_ABOVE - outdoor_temperature) / NO_EXCESS_ABOVE
    return EXCESS[humidity_class] * min(1.0, max(0.0, cold))


class Airs:
    """The air of every space of one result; None where the climate tells no humidity."""

    def __init__(
        self, result: Result, humidity: IndoorHumidity, moved_inside: tuple[str, ...] = ()
    ) -> None:
        self._result = result
        self._moved = moved_inside
        self._humidity = humidity
        self._known: dict[str, Air | None] = {}

    @functools.cached_property
    def outdoors(self) -> Air | None:
        """Outdoors, at or below saturation."""
        climate = self._result.house.climate
        if climate.humidity_ratio is None:
            return None
        total = float(air_pressure(climate.elevation))
        temperature = tuple(float(each) for each in climate.mean_temperature)
        pressure = tuple(
            min(vapour_pressure(float(w), total), saturation_pressure(t))
            for w, t in zip(climate.humidity_ratio, temperature, strict=True)
        )
        return Air(temperature, pressure)

    @functools.cached_property
    def humidity_class(self) -> int:
        """The class of ISO 13788 that holds: as given, else by whether the house is aired."""
        if self._humidity.humidity_class is not None:
            return self._humidity.humidity_class
        is_known = is_aired(self._result.house, self._moved)
        return AIRED_CLASS if is_known else UNKNOWN_CLASS

    @property
    def lacks_air(self) -> bool:
        """Whether the rooms are taken for humid since too little fresh air comes in."""
        return self._humidity == IndoorHumidity() and self.humidity_class == UNKNOWN_CLASS

    @functools.cached_property
    def indoors(self) -> Air | None:
        """The rooms: between their set points, humid by their class or as the lead says.

        Where the house is cooled, at most 60 % in the months in which the cooling set point holds.
        """
        outdoors, house = self.outdoors, self._result.house
        if outdoors is None:
            return None
        temperature = tuple(_indoor_temperature(house, each) for each in outdoors.temperature)
        pressure = []
        for month, inside in enumerate(temperature):
            saturated = saturation_pressure(inside)
            if self._humidity.relative_humidity is not None:
                pressure.append(self._humidity.relative_humidity[month] * saturated)
                continue
            outside = outdoors.temperature[month]
            excess = pressure_excess(self.humidity_class, outside)
            most = DRIED_TO if house.cooling is not None and _is_cooled(house, outside) else 1.0
            pressure.append(min(outdoors.pressure[month] + excess, most * saturated))
        return Air(temperature, tuple(pressure))

    def of(self, space: str) -> Air | None:
        """The air of a space, or outdoors'.

        A buffer stands between its neighbours in temperature. One that touches the ground is as
        humid as the rooms or outdoors, whichever is more; any other has outdoor air.
        """
        if space not in self._known:
            self._known[space] = self._of(space)
        return self._known[space]

    def _of(self, space: str) -> Air | None:
        indoors, outdoors, house = self.indoors, self.outdoors, self._result.house
        if indoors is None or outdoors is None or space == OUTDOORS:
            return outdoors
        if house.is_inside(space):
            return indoors
        temperature = self._buffer_temperature(space)
        source = outdoors.pressure
        if _touches_ground(house, space):
            source = tuple(map(max, indoors.pressure, outdoors.pressure))
        pressure = tuple(
            min(each, NEARLY_SATURATED * saturation_pressure(t))
            for each, t in zip(source, temperature, strict=True)
        )
        return Air(temperature, pressure)

    def _buffer_temperature(self, space: str) -> Months:
        result, indoors, outdoors = self._result, self.indoors, self.outdoors
        assert indoors is not None
        assert outdoors is not None
        weights = result.working.graph.buffers[space]
        out, ground = float(weights.outdoors), float(weights.ground)
        return tuple(
            out * outdoors.temperature[month]
            + ground * float(result.ground_temperature[month])
            + (1.0 - out - ground) * indoors.temperature[month]
            for month in range(12)
        )


ROUNDING = 0.995  # a fan is bought to the next 5 cfm


def is_aired(house: House, moved_inside: tuple[str, ...] = ()) -> bool:
    """Whether fan and leaks bring the fresh air a dwelling is to have, even in the mildest month.

    Shapes: a house without draws. Range: any. Raises: nothing.
    Source: ASHRAE 62.2-2016 4.1.1 (memory), leaks by `air_flows`.
    """
    return least_fresh_air(house) >= ROUNDING * fresh_air_needed(house, moved_inside)


def fresh_air_needed(house: House, moved_inside: tuple[str, ...] = ()) -> float:
    """Fresh air a dwelling is to have, m3/s; a cellar that came inside counts with its floor.

    Bare or covered ground is no floor of a dwelling.

    Shapes: a house without draws. Range: any. Raises: nothing. Source: `whole_house_flow`.
    """
    cellars = sum(
        float(part.area)
        for part in house.components
        if part.kind is Kind.BASEMENT_FLOOR
        and part.from_space in moved_inside
        and is_concrete_floor(part)
    )
    return float(whole_house_flow(float(house.floor_area) + cellars, house.bedrooms))


def least_fresh_air(house: House) -> float:
    """Outdoor air by fan and leaks in the month that brings least, m3/s.

    Shapes: a house without draws. Range: any. Raises: nothing. Source: `air_flows`.
    """
    return _least_flow(house, house.ventilation)


def least_leaks(house: House) -> float:
    """Outdoor air through leaks alone in the month that brings least, m3/s.

    Shapes: a house without draws. Range: any. Raises: nothing. Source: `air_flows`.
    """
    return _least_flow(house, NO_FANS)


def _least_flow(house: House, ventilation: Ventilation) -> float:
    flows = air_flows(
        house.leakage,
        ventilation,
        house.storeys,
        house.heating_set_point,
        house.climate.mean_temperature,
        house.climate.wind_speed,
    )
    return float(flows.outdoor.min())


def _indoor_temperature(house: House, outside: float) -> float:
    warm = max(float(house.heating_set_point), outside)
    return warm if house.cooling is None else min(warm, float(house.cooling_set_point))


def _is_cooled(house: House, outside: float) -> bool:
    """Whether a month is warm enough that people cool: gains add some kelvin to outdoors."""
    return outside >= NO_EXCESS_ABOVE or outside >= float(house.heating_set_point)


def _touches_ground(house: House, space: str) -> bool:
    return any(part.from_space == space and part.to_space == GROUND for part in house.components)
