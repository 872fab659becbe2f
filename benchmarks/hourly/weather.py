"""Hourly weather of a TMY3 year, and the monthly figures that the product's climate is made of.

A TMY3 row stands at the end of its hour: sums of sun belong to the hour before the stamp, so the
sun's position is taken half an hour earlier; temperature, dew point and wind are readings at the
stamp, so the hour's mean temperature is that of the readings at both its ends.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path

import numpy as np
import pvlib

from server.core.climate import Climate

Array = np.ndarray
Plane = tuple[float, float | None]

GREENSBORO = "723170TYA.CSV"
SAND_POINT = "703165TY.csv"
HOURS = 8760
HOURS_A_DAY = 24
SECONDS_AN_HOUR = 3600.0
ALBEDO = 0.2
COMPASS = tuple(range(0, 360, 45))


@dataclass(frozen=True, slots=True, eq=False)
class Year:
    """8760 hours of one place. deg C, kg/kg, m/s, W/m2, degrees; month 0 to 11.

    sky_radiation is 1, or 0 for a year without radiation to the sky. planes keeps what is computed.
    """

    name: str
    latitude: float
    longitude: float
    elevation: float
    month: Array
    temperature: Array
    humidity_ratio: Array
    wind_speed: Array
    level: Array
    beam: Array
    diffuse: Array
    zenith: Array
    azimuth: Array
    sky_radiation: float = 1.0
    planes: dict[Plane, Array] = field(default_factory=dict)

    def on_plane(self, plane: Plane) -> Array:
        """Irradiance on a plane, W/m2 by hour: isotropic sky; azimuth None is all round."""
        if plane not in self.planes:
            tilt, azimuth = plane
            if azimuth is None:
                sides = [self.on_plane((tilt, float(side))) for side in COMPASS]
                self.planes[plane] = np.mean(sides, axis=0)
            else:
                parts = pvlib.irradiance.get_total_irradiance(
                    tilt,
                    azimuth,
                    self.zenith,
                    self.azimuth,
                    self.beam,
                    self.level,
                    self.diffuse,
                    albedo=ALBEDO,
                    model="isotropic",
                )
                self.planes[plane] = np.asarray(parts["poa_global"])
        return self.planes[plane]


@lru_cache
def read_year(file: str) -> Year:
    """One of the TMY3 years that come with pvlib."""
    path = Path(pvlib.__file__).parent / "data" / file
    table, place = pvlib.iotools.read_tmy3(path, map_variables=True)
    middle = table.index - np.timedelta64(30, "m")
    sun = pvlib.solarposition.get_solarposition(middle, place["latitude"], place["longitude"])
    readings = table["temp_air"].to_numpy(dtype=float)
    return Year(
        name=place["Name"].strip('" ').title(),
        latitude=place["latitude"],
        longitude=place["longitude"],
        elevation=place["altitude"],
        month=middle.month.to_numpy() - 1,
        temperature=(readings + np.roll(readings, 1)) / 2.0,
        humidity_ratio=humidity_ratio(
            table["temp_dew"].to_numpy(dtype=float), table["pressure"].to_numpy(dtype=float) * 100.0
        ),
        wind_speed=table["wind_speed"].to_numpy(dtype=float),
        level=table["ghi"].to_numpy(dtype=float),
        beam=table["dni"].to_numpy(dtype=float),
        diffuse=table["dhi"].to_numpy(dtype=float),
        zenith=sun["apparent_zenith"].to_numpy(),
        azimuth=sun["azimuth"].to_numpy(),
    )


def humidity_ratio(dew_point: Array, pressure: Array) -> Array:
    """Vapour per dry air, kg/kg, from dew point deg C and Pa; saturation of ISO 13788 Annex E."""
    vapour = 610.5 * np.where(
        dew_point >= 0.0,
        np.exp(17.269 * dew_point / (237.3 + dew_point)),
        np.exp(21.875 * dew_point / (265.5 + dew_point)),
    )
    return np.asarray(0.622 * vapour / (pressure - vapour))


def monthly_mean(year: Year, hourly: Array) -> Array:
    """Twelve means of an hourly series."""
    return np.array([hourly[year.month == month].mean() for month in range(12)])


def monthly_climate(year: Year) -> Climate:
    """The same year as the product's twelve months know it."""
    days = year.temperature.reshape(-1, HOURS_A_DAY)
    means = days.mean(axis=1)
    sun = year.level.reshape(-1, HOURS_A_DAY).sum(axis=1) * SECONDS_AN_HOUR
    departure = (days - means[:, np.newaxis]).ravel()
    month_of_day = year.month[::HOURS_A_DAY]
    of_each = [month_of_day == month for month in range(12)]
    daily_sun = np.array([sun[month].mean() for month in of_each])
    spread = np.array([sun[month].std(ddof=1) for month in of_each])
    return Climate(
        name=year.name,
        latitude=year.latitude,
        longitude=year.longitude,
        elevation=year.elevation,
        mean_temperature=monthly_mean(year, year.temperature),
        temperature_deviation=np.array([means[month].std(ddof=1) for month in of_each]),
        horizontal_irradiation=daily_sun,
        wind_speed=monthly_mean(year, year.wind_speed),
        humidity_ratio=monthly_mean(year, year.humidity_ratio),
        sun_variation=np.divide(spread, daily_sun, out=np.zeros(12), where=daily_sun > 0.0),
        diurnal_deviation=np.sqrt(monthly_mean(year, departure**2)),
    )
