"""Sun on planes of any tilt and azimuth, from the monthly mean daily sum on the level.

On a plane the sun is linear in the day's total H and its diffuse part H_d, with coefficients that
depend on the latitude, the plane and the hour alone. Those are computed once; houses and draws then
only multiply. Planes lead, steps of the day come last.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from server.core.arrays import Array

SOLAR_CONSTANT = 1367.0  # W/m2
ALBEDO = 0.2
STEPS_A_DAY = 96
LEAST_HALF_DAY = 0.1  # rad: a sun that hardly rises gives diffuse light only
WARMEST_HOUR = 15.0  # solar time of the day's highest temperature, common practice
SKY_TEMPERATURE_DIFFERENCE = 11.0  # K, outdoor air over apparent sky, ISO 13790 11.4.6 (memory)
SKY_RADIATION = 0.9 * 5.0  # W/(m2 K), emissivity 0.9, ISO 13790 11.4.6 (memory)

# Klein's day of the month whose extraterrestrial sun is nearest the month's mean
_MEAN_DAY_OF_YEAR = np.array([17.0, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344])
_COMPASS = tuple(range(0, 360, 45))
_SECONDS_A_DAY = 86400.0

# A plane: tilt from level and azimuth from north clockwise, degrees; azimuth None is all round.
Plane: TypeAlias = tuple[float, float | None]


@dataclass(frozen=True, slots=True, eq=False)
class SunGeometry:
    """What latitude and planes make of a day's sun; months x or planes x months.

    extraterrestrial (12,) J/m2 day. half_day (12,) rad. total and diffuse (planes, 12): mean over
    24 h of the plane's irradiance, W/m2, for each J/m2 of H and of H_d. covariance (12, 2 planes,
    2 planes): of those profiles within the day, all total ones first. with_temperature
    (12, 2 planes): with a sinusoid of unit rms that peaks at the warmest hour.
    """

    planes: tuple[Plane, ...]
    extraterrestrial: Array
    half_day: Array
    total: Array
    diffuse: Array
    covariance: Array
    with_temperature: Array


def declination(day_of_year: Array) -> Array:
    """Declination of the sun by Cooper's equation.

    Shapes: any, day 1 to 365; result the same, rad.
    Range: a year of 365 days.
    Raises: nothing.
    Source: Cooper (1969), in Duffie and Beckman.
    """
    result: Array = np.radians(23.45) * np.sin(np.radians(360.0 * (284.0 + day_of_year) / 365.0))
    return result


def sunset_hour_angle(latitude: float, sun_declination: Array) -> Array:
    """Hour angle of sunset; 0 in the polar night, pi in the polar day.

    Shapes: latitude a float, degrees; declination any, rad; result the same, rad.
    Range: -89 to 89 degrees.
    Raises: nothing.
    Source: Duffie and Beckman, Solar Engineering of Thermal Processes, 1.6.
    """
    cosine = -math.tan(math.radians(latitude)) * np.tan(sun_declination)
    result: Array = np.arccos(np.clip(cosine, -1.0, 1.0))
    return result


def extraterrestrial_daily(latitude: float) -> Array:
    """Sun above the air on a level plane, Klein's mean day of each month.

    Shapes: latitude a float, degrees; result (12,), J/m2.
    Range: -89 to 89 degrees.
    Raises: nothing.
    Source: Duffie and Beckman 1.10; days of Klein (1977), Solar Energy 19.
    """
    delta = declination(_MEAN_DAY_OF_YEAR)
    phi = math.radians(latitude)
    sunset = sunset_hour_angle(latitude, delta)
    distance = 1.0 + 0.033 * np.cos(np.radians(360.0 * _MEAN_DAY_OF_YEAR / 365.0))
    height = math.cos(phi) * np.cos(delta) * np.sin(sunset) + sunset * math.sin(phi) * np.sin(delta)
    result: Array = _SECONDS_A_DAY / math.pi * SOLAR_CONSTANT * distance * height
    return result


def diffuse_share(clearness: Array, half_day: Array) -> Array:
    """Share of the monthly mean daily sun that is diffuse.

    Shapes: (..., 12) dimensionless and (12,) rad; result (..., 12).
    Range: the clearness index is held within 0.3 to 0.8, the correlation's own.
    Raises: nothing.
    Source: Erbs, Klein and Duffie (1982), Solar Energy 28; Duffie and Beckman 2.12.
    """
    k = np.clip(clearness, 0.3, 0.8)
    winter = 1.391 - 3.560 * k + 4.189 * k**2 - 2.137 * k**3
    summer = 1.311 - 3.022 * k + 3.427 * k**2 - 1.821 * k**3
    result: Array = np.where(half_day < math.radians(81.4), winter, summer)
    return result


def sun_geometry(latitude: float, planes: Sequence[Plane]) -> SunGeometry:
    """Prepare the sun on some planes at one latitude.

    The level profile of a day is Collares-Pereira and Rabl's, its diffuse part Liu and Jordan's;
    sky isotropic, ground reflectance 0.2. Below 0.1 rad of half day length only diffuse.
    Shapes: a float, degrees, and planes as pairs; see SunGeometry.
    Range: -89 to 89 degrees.
    Raises: nothing.
    Source: Collares-Pereira and Rabl (1979), Solar Energy 22; Liu and Jordan (1960), Solar Energy
    4; Duffie and Beckman 2.13 and 2.15.
    """
    delta = declination(_MEAN_DAY_OF_YEAR)
    half_day = sunset_hour_angle(latitude, delta)
    edges = 2.0 * math.pi * (np.arange(STEPS_A_DAY + 1) / STEPS_A_DAY - 0.5)
    total, diffuse = _plane_profiles(latitude, planes, half_day, edges)
    profiles = np.concatenate([total, diffuse])
    swing = profiles - profiles.mean(axis=-1, keepdims=True)
    clock = (edges[1:] + edges[:-1]) / 2.0
    warmth = math.sqrt(2.0) * np.cos(clock - 2.0 * math.pi * (WARMEST_HOUR - 12.0) / 24.0)
    return SunGeometry(
        planes=tuple(planes),
        extraterrestrial=extraterrestrial_daily(latitude),
        half_day=half_day,
        total=total.mean(axis=-1),
        diffuse=diffuse.mean(axis=-1),
        covariance=np.einsum("pmt,qmt->mpq", swing, swing) / STEPS_A_DAY,
        with_temperature=np.einsum("pmt,t->mp", swing, warmth) / STEPS_A_DAY,
    )


def diffuse_daily(geometry: SunGeometry, horizontal: Array) -> Array:
    """Diffuse part of the daily sum on the level.

    Shapes: (..., 12) J/m2; result the same.
    Range: zero and up.
    Raises: nothing.
    Source: `diffuse_share` of the clearness index H/H_0.
    """
    above = np.maximum(geometry.extraterrestrial, 1.0)
    result: Array = horizontal * diffuse_share(horizontal / above, geometry.half_day)
    return result


def plane_irradiance(geometry: SunGeometry, horizontal: Array) -> Array:
    """Mean irradiance on every plane over the 24 hours of the month's mean day.

    Shapes: (..., 12) J/m2 day on the level; result (planes, ..., 12) W/m2.
    Range: zero and up.
    Raises: nothing.
    Source: `sun_geometry`.
    """
    diffuse = diffuse_daily(geometry, horizontal)
    lead = (1,) * (np.ndim(horizontal) - 1)
    shape = (len(geometry.planes), *lead, 12)
    mean = geometry.total.reshape(shape) * horizontal + geometry.diffuse.reshape(shape) * diffuse
    result: Array = np.maximum(mean, 0.0)
    return result


def variation_within_day(
    geometry: SunGeometry, horizontal: Array, apertures: Array
) -> tuple[Array, Array]:
    """How the sun gained through some apertures varies within the month's mean day.

    Shapes: horizontal (..., 12) J/m2 day; apertures (..., 1 or 12, planes) m2; results (..., 12):
    mean square departure from the day's mean W2, and mean product with a temperature swing of unit
    rms W.
    Range: zero and up.
    Raises: nothing.
    Source: variance of a sum of profiles, from `sun_geometry`.
    """
    diffuse = diffuse_daily(geometry, horizontal)
    swing = geometry.covariance
    lead = np.broadcast_shapes(apertures.shape[:-2], np.shape(horizontal)[:-1])
    square = np.zeros((*lead, 12))
    product = np.zeros((*lead, 12))
    for month in range(12):
        open_to_sun = apertures[..., min(month, apertures.shape[-2] - 1), :]
        weight = np.concatenate(
            [
                open_to_sun * horizontal[..., month, np.newaxis],
                open_to_sun * diffuse[..., month, np.newaxis],
            ],
            axis=-1,
        )
        square[..., month] = ((weight @ swing[month]) * weight).sum(axis=-1)
        product[..., month] = weight @ geometry.with_temperature[month]
    return square, product


def sky_view(tilt: float) -> float:
    """View factor of a plane to the sky.

    Shapes: a float, degrees; result dimensionless.
    Range: 0 (level, facing up) to 180 (facing down).
    Raises: nothing.
    Source: isotropic sky; ISO 13790 11.4.6 gives 1 and 0.5 for level and vertical.
    """
    return (1.0 + math.cos(math.radians(tilt))) / 2.0


def _plane_profiles(
    latitude: float, planes: Sequence[Plane], half_day: Array, edges: Array
) -> tuple[Array, Array]:
    """Irradiance of every plane for each J/m2 of H and of H_d; planes, months, steps.

    H (r_t R_b + reflected) + H_d (sky - R_b) r_d. Where no beam is counted all of H is diffuse.
    """
    delta = declination(_MEAN_DAY_OF_YEAR)
    # the clock's steps, cut at sunrise and sunset: a low sun is steep on east and west walls
    lit = np.clip(edges, -half_day[:, None], half_day[:, None])
    angle, width = (lit[:, 1:] + lit[:, :-1]) / 2.0, np.diff(lit)
    east, north, up = _sun_direction(latitude, delta[:, None], angle)
    total_profile, diffuse_profile = _level_profiles(half_day, angle, width)
    beam_factor = np.stack([_beam_factor(plane, east, north, up) for plane in planes])
    shines = (half_day >= LEAST_HALF_DAY)[:, None]
    tilts = np.radians([tilt for tilt, _ in planes])[:, None, None]
    sky = (1.0 + np.cos(tilts)) / 2.0
    reflected = ALBEDO * (1.0 - np.cos(tilts)) / 2.0
    rate = STEPS_A_DAY / _SECONDS_A_DAY
    total = rate * total_profile * (np.where(shines, beam_factor, sky) + reflected)
    diffuse = rate * diffuse_profile * np.where(shines, sky - beam_factor, 0.0)
    return total, diffuse


def _sun_direction(latitude: float, delta: Array, angle: Array) -> tuple[Array, Array, Array]:
    """Unit vector to the sun (east, north, up), months by steps."""
    phi = math.radians(latitude)
    east = -np.cos(delta) * np.sin(angle)
    north = math.cos(phi) * np.sin(delta) - math.sin(phi) * np.cos(delta) * np.cos(angle)
    up = math.sin(phi) * np.sin(delta) + math.cos(phi) * np.cos(delta) * np.cos(angle)
    return east, north, up


def _level_profiles(half_day: Array, angle: Array, width: Array) -> tuple[Array, Array]:
    """Shares of the day's total and diffuse sun in each step, months by steps; each sums to one."""
    sunset = half_day[:, None]
    a = 0.409 + 0.5016 * np.sin(sunset - math.radians(60.0))
    b = 0.6609 - 0.4767 * np.sin(sunset - math.radians(60.0))
    height = width * (np.cos(angle) - np.cos(sunset))
    # in the polar night what light there is comes evenly
    height = np.where(height.sum(axis=-1, keepdims=True) > 0.0, height, 1.0)
    total = (a + b * np.cos(angle)) * height
    return (
        total / total.sum(axis=-1, keepdims=True),
        height / height.sum(axis=-1, keepdims=True),
    )


def _beam_factor(plane: Plane, east: Array, north: Array, up: Array) -> Array:
    """R_b: beam on the plane over beam on the level, months by steps, zero at night."""
    tilt, azimuth = plane
    if azimuth is None:
        factors = [_beam_factor((tilt, float(side)), east, north, up) for side in _COMPASS]
        return np.asarray(np.mean(factors, axis=0))
    beta, gamma = math.radians(tilt), math.radians(azimuth)
    on_plane = (
        math.sin(beta) * math.sin(gamma) * east
        + math.sin(beta) * math.cos(gamma) * north
        + math.cos(beta) * up
    )
    risen = up > 1e-9
    return np.where(risen, np.maximum(on_plane, 0.0) / np.where(risen, up, 1.0), 0.0)
