"""Heating and cooling of a house by month: variable-base degree-days, the days' real spread."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np

from server.core.arrays import Array, Real, by_month
from server.core.climate import MONTH_DAYS, Climate
from server.core.degree_days import (
    cooling_degree_days,
    heating_degree_days,
    share_of_days_above,
)

BTU_PER_DAY = 1055.05585262 / 86400.0  # W
FT2 = 0.09290304  # m2
HOURS_A_DAY = 24.0
LEAST_CONDUCTANCE = 1e-6  # W/K: a house that loses nothing outdoors keeps its division
OPEN_WINDOW_AIR_CHANGES = 2.0  # 1/h, our judgement of what open windows reach
WINDOWS_OPEN_BELOW = 0.009  # kg/kg monthly humidity ratio: all open their windows, our judgement
WINDOWS_SHUT_ABOVE = 0.013  # kg/kg: nobody does, our judgement
INDOOR_HUMIDITY = 0.0093  # kg/kg, air at the cooling set point and about half saturated
EVAPORATION_HEAT = 2.5e6  # J/kg
USUAL_SENSIBLE_HEAT_RATIO = 0.75  # common practice, where neither humidity nor a ratio is known


@dataclass(frozen=True, slots=True, eq=False)
class Sources:
    """Heat gains that reach indoors, W, months last.

    people: constant. led_out: share of what radiates inside that leaves at once. sun: through
    openings and on opaque surfaces. sky: radiated away.
    sun_within_day: mean square of the sun's departure from its day's mean, W2.
    sun_with_temperature: mean product of that departure and a unit-rms temperature swing, W.
    """

    people: Real
    led_out: Real
    sun: Array
    sky: Array
    sun_within_day: Array
    sun_with_temperature: Array

    @property
    def total(self) -> Array:
        """People and sun less the sky, W."""
        return by_month(self.people) + self.sun - self.sky


@dataclass(frozen=True, slots=True, eq=False)
class Envelope:
    """What the balance at one set point needs, conductances W/K.

    air (..., 12): outdoor air net of recovery, at the month's mean temperature. air_loss (..., 12):
    mean heat it takes, W. air_slope (..., 12): what it takes more for each kelvin outdoors is
    colder. set_point deg C. heat_capacity J/K. band K: between the two set points, in which the
    house stores heat.
    """

    to_outdoors: Real
    to_ground: Real
    air: Array
    air_loss: Array
    air_slope: Array
    set_point: Real
    heat_capacity: Real
    band: Real

    @property
    def conductance(self) -> Array:
        """To outdoors in all, W/K by month."""
        return np.maximum(by_month(self.to_outdoors) + self.air, LEAST_CONDUCTANCE)

    @property
    def slope(self) -> Array:
        """Loss to outdoors for each kelvin that outdoors is colder, W/K by month."""
        return np.maximum(by_month(self.to_outdoors) + self.air_slope, LEAST_CONDUCTANCE)

    def ground_loss(self, ground_temperature: Array) -> Array:
        """Heat into the ground at the set point, W by month (negative where it gives heat)."""
        return by_month(self.to_ground) * (by_month(self.set_point) - ground_temperature)

    def balance_point(self, gains: Array, ground_temperature: Array, conductance: Array) -> Array:
        """Outdoor temperature at which gains and losses meet.

        Shapes: (..., 12) W, deg C, W/K; result (..., 12) deg C.
        Range: a conductance above zero.
        Raises: nothing.
        Source: ASHRAE Fundamentals, variable-base degree-day method; ground set apart, since it is
        not at outdoor temperature.
        """
        ground = self.ground_loss(ground_temperature)
        result: Array = by_month(self.set_point) - (gains - ground) / conductance
        return result

    def base(self, outdoor_temperature: Array, gains: Array, ground_temperature: Array) -> Array:
        """Where the straight line of the balance over outdoor temperature meets zero.

        The line has the month's mean balance and `slope`; with air that does not depend on the
        weather it is the balance point.
        Shapes: (..., 12) deg C, W, deg C; result (..., 12) deg C.
        Range: any.
        Raises: nothing.
        Source: `air.linear_loss`.
        """
        colder = by_month(self.set_point) - outdoor_temperature
        lost = by_month(self.to_outdoors) * colder + self.air_loss
        lack = lost + self.ground_loss(ground_temperature) - gains
        result: Array = outdoor_temperature + lack / self.slope
        return result


@dataclass(frozen=True, slots=True, eq=False)
class Heating:
    """Balance point deg C at the month's mean air; base deg C that the degree-days go to; load kWh.

    spread: of the balance. degree_days K d.
    """

    balance_point: Array
    base: Array
    spread: Spread
    degree_days: Array
    load_kwh: Array


@dataclass(frozen=True, slots=True, eq=False)
class Cooling:
    """Sensible and latent cooling load, kWh by month, and the hours with cooling.

    balance_point deg C: where the straight line of the balance meets zero. start deg C: where
    cooling begins with open windows. widest W/K: what conducts with them open.
    """

    balance_point: Array
    spread: Spread
    start: Array
    widest: Array
    load_kwh: Array
    latent_kwh: Array
    hours: Array


def people_and_appliances(floor_area: Real, bedrooms: float) -> Real:
    """Mean heat of people and appliances in a house nobody has asked about.

    17 900 + 23.8 floor area (ft2) + 4104 bedrooms, in Btu a day.
    Shapes: floor area any, m2; result the same, W.
    Range: dwellings.
    Raises: nothing.
    Source: IECC residential reference design, internal gains (memory).
    """
    return (17900.0 + 23.8 * floor_area / FT2 + 4104.0 * bedrooms) * BTU_PER_DAY


@dataclass(frozen=True, slots=True, eq=False)
class Spread:
    """How a month's balance spreads, as kelvins of outdoor temperature, (..., 12).

    days: standard deviation from day to day. swing: rms within the day. unstored: what storage
    leaves of that swing's variance, 0 to 1.
    """

    days: Array
    swing: Array
    unstored: Array

    def over_the_day(self, of: Callable[[Array], Array], base: Array, towards: float) -> Array:
        """Mean of a function of the base over the swing within the day, as storage leaves it.

        A swing u of mean zero and variance r s^2, at -r s for 1/(1 + r) of the time and at s for
        the rest; see `unstored_share`. towards 1 for heating, -1 for cooling.
        Shapes: (..., 12) K; result the function's.
        Range: any.
        Raises: nothing.
        Source: own derivation.
        """
        often = 1.0 / (1.0 + self.unstored)
        damped = of(base + towards * self.unstored * self.swing)
        if not self.swing.any():
            return damped
        return often * damped + (1.0 - often) * of(base - towards * self.swing)


def spread_of_balance(envelope: Envelope, climate: Climate, sources: Sources) -> Spread:
    """Spread of the balance: of the days' temperature and of their sun, and within the day.

    Days: s^2 + (s_sun/K)^2, s_sun the mean solar gain times the sun's day-to-day variation. Within
    the day: rms of outdoor temperature and sun/K together. K is the loss for each kelvin colder.
    Shapes: (..., 12); K.
    Range: a term counts only where the climate carries the column for it.
    Raises: nothing.
    Source: own derivation (independent spreads add in quadrature).
    """
    slope = envelope.slope
    variance = np.asarray(climate.daily_deviation) ** 2
    if climate.sun_variation is not None:
        variance = variance + (sources.sun * climate.sun_variation / slope) ** 2
    swing: Array = np.zeros(12)
    unstored: Array = np.ones(12)
    if climate.diurnal_deviation is not None:
        outdoors = climate.diurnal_deviation
        within = (
            outdoors**2
            + 2.0 * outdoors * sources.sun_with_temperature / slope
            + sources.sun_within_day / slope**2
        )
        swing = np.sqrt(np.maximum(within, 0.0))
        all_loss = slope + by_month(envelope.to_ground)
        hours = by_month(envelope.heat_capacity) / all_loss / 3600.0
        unstored = unstored_share(swing, hours, envelope.band)
    return Spread(np.sqrt(variance), swing, unstored)


def unstored_share(swing: Array, hours: Array, band: Real) -> Array:
    """How much of the variance of a daily swing storage leaves to heating, or to cooling.

    A house of one capacity, kept from falling under one set point and from rising above another.
    While it is heated the set point holds it and nothing is stored; heat is taken up only while it
    floats. Under a sinusoid of amplitude A heating sets in where the mean surplus is the damped
    amplitude A_d = A/sqrt(1 + (2 pi tau/24 h)^2), and never stops where the mean lack is A. Daily
    heating is thus E[(lack - u)+] with a u of mean zero between -A_d and A. Its variance is near
    A A_d/2, so r = 1/sqrt(1 + (2 pi tau/24 h)^2), not the square that damps a house left free.
    What would float beyond the band is lost too: with b = band/(2 A_d) the share is
    r + (1 - r) (1 - b)^3 for b below one.
    Shapes: (..., 12) rms K and h, band (...) K; result dimensionless.
    Range: 0 to 1; 1 without storage or without a band.
    Raises: nothing.
    Source: own derivation; the cubic stands for the exact solution of that house within 0.08.
    """
    damped = 1.0 / np.sqrt(1.0 + (2.0 * math.pi * hours / HOURS_A_DAY) ** 2)
    free = 2.0 * math.sqrt(2.0) * np.maximum(swing * damped, 1e-9)
    beyond = np.maximum(1.0 - by_month(band) / free, 0.0) ** 3
    result: Array = damped + (1.0 - damped) * beyond
    return result


def heating(
    envelope: Envelope, climate: Climate, sources: Sources, ground_temperature: Array
) -> Heating:
    """Heating load: loss for each kelvin times degree-days to the base that it goes with.

    All gains act through the base, so there is no utilisation factor.
    Shapes: (..., 12); loads kWh.
    Range: any month; never below zero.
    Raises: nothing.
    Source: ASHRAE Fundamentals, variable-base degree-day method; spread by `spread_of_balance`.
    """
    slope = envelope.slope
    base = envelope.base(climate.mean_temperature, sources.total, ground_temperature)
    spread = spread_of_balance(envelope, climate, sources)

    def below(base: Array) -> Array:
        return heating_degree_days(climate.mean_temperature, spread.days, base, MONTH_DAYS)

    degree_days = spread.over_the_day(below, base, 1.0)
    return Heating(
        balance_point=envelope.balance_point(
            sources.total, ground_temperature, envelope.conductance
        ),
        base=base,
        spread=spread,
        degree_days=degree_days,
        load_kwh=slope * HOURS_A_DAY * degree_days / 1000.0,
    )


def cooling(
    envelope: Envelope,
    climate: Climate,
    sources: Sources,
    ground_temperature: Array,
    open_window_conductance: Real,
    latent: LatentLoad,
) -> Cooling:
    """Cooling load at its own set point, with windows opened while that is enough and dry enough.

    Closed: Q = 24 h K CDD(t_bal). Open: windows lift the conductance to K_max, so cooling starts
    only at t_max: Q = 24 h K [CDD(t_max) + (t_max - t_bal) N F((T_m - t_max)/s)]. The share of
    time with open windows falls from 1 to 0 with the month's humidity.
    Shapes: (..., 12); open_window_conductance (...) W/K is added to what the envelope conducts,
    in place of its closed-window air.
    Range: any month; never below zero.
    Raises: nothing.
    Source: ASHRAE Fundamentals, variable-base degree-day method with natural ventilation; share of
    open windows by our own judgement.
    """
    conductance = envelope.slope
    spread = spread_of_balance(envelope, climate, sources)
    outdoor = climate.mean_temperature
    base = envelope.base(outdoor, sources.total, ground_temperature)
    widest = np.maximum(conductance, by_month(envelope.to_outdoors + open_window_conductance))
    # with a net loss at the set point open windows would only bring heat in
    start = np.maximum(envelope.balance_point(sources.total, ground_temperature, widest), base)

    def above(base: Array) -> Array:
        return cooling_degree_days(outdoor, spread.days, base, MONTH_DAYS)

    def share_above(base: Array) -> Array:
        return share_of_days_above(outdoor, spread.days, base)

    days_open = spread.over_the_day(share_above, start, -1.0)
    days_closed = spread.over_the_day(share_above, base, -1.0)
    closed = spread.over_the_day(above, base, -1.0)
    opened = spread.over_the_day(above, start, -1.0) + (start - base) * MONTH_DAYS * days_open
    share = open_window_share(climate.humidity_ratio)
    load = HOURS_A_DAY * conductance * (share * opened + (1.0 - share) * closed) / 1000.0
    days = share * days_open + (1.0 - share) * days_closed
    hours = HOURS_A_DAY * MONTH_DAYS * days
    return Cooling(
        base, spread, start, widest, load, latent.energy_kwh(climate, load, hours), hours
    )


@dataclass(frozen=True, slots=True, eq=False)
class LatentLoad:
    """Moisture that cooling must condense: outdoor air (..., 12) m3/s, its density, and people."""

    outdoor_air: Array
    air_density: Real
    floor_area: Real
    bedrooms: float

    def energy_kwh(self, climate: Climate, sensible_kwh: Array, hours: Array) -> Array:
        """Latent load of the hours with cooling.

        [rho 2.5e6 Q max(0, w - 0.0093) + 20 + 0.22 A + 12 (bedrooms + 1)] W times the hours;
        without humidity, a fixed sensible heat ratio.
        Shapes: (..., 12) kWh and h; result kWh.
        Range: never below zero.
        Raises: nothing.
        Source: enthalpy of the outdoor air; indoor sources after the residential load procedure of
        ASHRAE Fundamentals (memory).
        """
        if climate.humidity_ratio is None:
            ratio = climate.sensible_heat_ratio
            known = USUAL_SENSIBLE_HEAT_RATIO if ratio is None else ratio
            fixed: Array = sensible_kwh * (1.0 / by_month(known) - 1.0)
            return fixed
        wetter = np.maximum(climate.humidity_ratio - INDOOR_HUMIDITY, 0.0)
        outdoor = by_month(self.air_density) * EVAPORATION_HEAT * self.outdoor_air * wetter
        indoor = 20.0 + 0.22 * by_month(self.floor_area) + 12.0 * (self.bedrooms + 1.0)
        result: Array = (outdoor + indoor) * hours / 1000.0
        return result


def open_window_share(humidity_ratio: Array | None) -> Array | float:
    """Share of the cooling season's mild days on which windows are opened.

    Shapes: (..., 12) kg/kg; result the same, 0 to 1; 1 where humidity is unknown.
    Range: falls linearly between 9 and 13 g/kg.
    Raises: nothing.
    Source: our own judgement.
    """
    if humidity_ratio is None:
        return 1.0
    width = WINDOWS_SHUT_ABOVE - WINDOWS_OPEN_BELOW
    result: Array = np.clip((WINDOWS_SHUT_ABOVE - humidity_ratio) / width, 0.0, 1.0)
    return result


@dataclass(frozen=True, slots=True, eq=False)
class Way:
    """One way heat leaves indoors: conductance (..., 1 or 12) W/K, difference (..., 12) K."""

    conductance: Array
    difference: Array


@dataclass(frozen=True, slots=True, eq=False)
class Share:
    """What one way answers for: kWh a year, and kWh a year of each constant W/K in it."""

    energy_kwh: Real
    per_conductance: Real


def heating_shares(heating_load_kwh: Array, ways: Mapping[str, Way]) -> dict[str, Share]:
    """Divide the heating load among the ways heat leaves, by each way's gross loss.

    Shapes: (..., 12); results (...).
    Range: negative differences count as zero; a month in which nothing is lost is divided by
    conductance alone. The shares sum to the yearly load.
    Raises: nothing.
    Source: definition: shares of one whole.
    """
    held = {name: np.maximum(way.difference, 0.0) for name, way in ways.items()}
    gross: Array = np.zeros_like(heating_load_kwh)
    conductance: Array = gross
    for name, way in ways.items():
        gross = gross + way.conductance * held[name]
        conductance = conductance + way.conductance
    lost = gross > 0.0
    per_watt = heating_load_kwh / np.where(lost, gross, conductance)
    shares = {}
    for name, way in ways.items():
        of_each = per_watt * np.where(lost, held[name], 1.0)
        shares[name] = Share(
            energy_kwh=_year(of_each * way.conductance), per_conductance=_year(of_each)
        )
    return shares


def _year(monthly: Array) -> Real:
    total = monthly.sum(axis=-1)
    return float(total) if np.ndim(total) == 0 else total
