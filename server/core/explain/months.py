"""The months of a year, column by column, in the order in which they are worked out."""

from __future__ import annotations

import numpy as np

from server.core import air, energy
from server.core.air import BlowerDoor
from server.core.arrays import Array, Real
from server.core.climate import MONTH_DAYS, Climate
from server.core.evaluate import Result
from server.core.explain.base import Column, Formula, Input
from server.core.explain.year import VARIABLE_BASE
from server.core.ground_wave import LAG_MONTHS

BASIC_MODEL = (
    "ASHRAE Fundamentals, basic model of infiltration (Sherman and Grimsrud), "
    "coefficients from memory"
)
NORMAL_DAYS = "Schoenau and Kehrig (1990), Energy and Buildings 14"
SPREAD = "own derivation: independent spreads add in quadrature, storage is a first-order lag"
OPEN_WINDOWS = f"{VARIABLE_BASE}; share of open windows by our own judgement"
LATENT = "enthalpy of outdoor air; indoor sources after the residential load procedure (memory)"
GAINS = "ISO 13790:2008 11.3 and 11.4 (memory)"


def heating_columns(result: Result) -> tuple[Column, ...]:
    """What makes the heating of every month, from the climate to the load.

    Shapes: one house without draws; SI, energies in kWh. Range: any result. Raises: nothing.
    Source: each column's own.
    """
    house, working, warm = result.house, result.working, result.heating
    return (
        *_weather(house.climate),
        *_air_columns(result, house.heating_set_point, working.warm_air.net_of_recovery),
        _conductance(result, working.warm.conductance),
        *_gains(result),
        _ground(result),
        _balance_point("t_bal", "balance_point", warm.balance_point, result, warming=True),
        *_spread(result, warm.deviation, "σ_e"),
        _column(
            "HDD",
            "heating_degree_days",
            "K·d",
            warm.degree_days,
            Formula(
                "degree_days",
                "HDD",
                "N*σ_e*(Z*Phi(Z) + phi(Z))",
                "K·d",
                NORMAL_DAYS,
                where=(("Z", "(t_bal - T_m)/σ_e"),),
            ),
        ),
        _column(
            "Q_h",
            "heating_need",
            "kWh",
            warm.load_kwh,
            Formula("month_heating", "Q_h", "K*24*HDD/1000", "kWh", VARIABLE_BASE),
        ),
    )


def cooling_columns(result: Result) -> tuple[Column, ...]:
    """What makes the cooling of every month; gains and spread as for heating, at its own set point.

    Shapes: one house without draws; SI, energies in kWh. Range: any result. Raises: nothing.
    Source: each column's own.
    """
    house, working, cool = result.house, result.working, result.cooling
    climate = house.climate
    share = energy.open_window_share(climate.humidity_ratio)
    opened = Input("K_win", "open_window_conductance", working.open_window_conductance, "W/K")
    shell = Input("K_out", "to_outdoors", result.to_outdoors, "W/K")
    return (
        *_weather(climate),
        *_air_columns(result, house.cooling_set_point, working.cool_air.net_of_recovery),
        _conductance(result, working.cool.conductance),
        *_gains(result),
        _ground(result),
        _balance_point("t_bal", "cooling_balance_point", cool.balance_point, result, warming=False),
        _column(
            "K_max",
            "widest_conductance",
            "W/K",
            cool.widest,
            Formula("widest", "K_max", "max(K, K_out + K_win)", "W/K", OPEN_WINDOWS),
            (shell, opened),
        ),
        _column(
            "t_max",
            "open_window_balance_point",
            "°C",
            cool.start,
            Formula(
                "open_balance_point",
                "t_max",
                "max(T_c - (g - K_g*(T_c - T_g))/K_max, t_bal)",
                "°C",
                OPEN_WINDOWS,
            ),
            _set_point_and_ground(result, warming=False),
        ),
        *_spread(result, cool.deviation, "σ_e"),
        *_open_share(climate, share),
        _column("Q_s", "cooling_need", "kWh", cool.load_kwh, _COOLING),
        _column("h", "hours_with_cooling", "h", cool.hours, _HOURS),
        *_latent_columns(result),
    )


_COOLING = Formula(
    "month_cooling",
    "Q_s",
    "24*K*(c*(C_o + (t_max - t_bal)*N*Phi(O)) + (1 - c)*C_c)/1000",
    "kWh",
    OPEN_WINDOWS,
    where=(
        ("O", "(T_m - t_max)/σ_e"),
        ("Z", "(T_m - t_bal)/σ_e"),
        ("C_o", "N*σ_e*(O*Phi(O) + phi(O))"),
        ("C_c", "N*σ_e*(Z*Phi(Z) + phi(Z))"),
    ),
)
_HOURS = Formula(
    "hours_with_cooling",
    "h",
    "24*N*(c*Phi((T_m - t_max)/σ_e) + (1 - c)*Phi((T_m - t_bal)/σ_e))",
    "h",
    OPEN_WINDOWS,
)


def _column(
    symbol: str,
    name: str,
    unit: str,
    values: Array | Real,
    formula: Formula | None = None,
    inputs: tuple[Input, ...] = (),
    source: str | None = None,
) -> Column:
    twelve = np.broadcast_to(np.asarray(values, dtype=float), (12,))
    return Column(
        symbol, name, unit, tuple(float(value) for value in twelve), formula, inputs, source
    )


def _given(symbol: str, name: str, unit: str, values: Array | Real, source: str = "") -> Column:
    return _column(symbol, name, unit, values, source=source)


def _weather(climate: Climate) -> list[Column]:
    given = climate.name
    columns = [
        _given("m", "month_number", "", np.arange(1.0, 13.0)),
        _given("N", "days", "d", MONTH_DAYS),
        _given("T_m", "outdoor_temperature", "°C", climate.mean_temperature, given),
        _given("σ", "daily_deviation", "K", climate.daily_deviation, given),
        _given("u", "wind_speed", "m/s", climate.wind_speed, given),
    ]
    if climate.sun_variation is not None:
        columns.append(_given("v", "sun_variation", "", climate.sun_variation, given))
    if climate.diurnal_deviation is not None:
        columns.append(_given("σ_h", "diurnal_deviation", "K", climate.diurnal_deviation, given))
    if climate.humidity_ratio is not None:
        grams = climate.humidity_ratio * 1000.0
        columns.append(_given("w", "humidity_ratio", "g/kg", grams, given))
    return columns


def _air_columns(result: Result, set_point: Real, net: Array) -> list[Column]:
    fan = result.house.ventilation
    infiltration = _infiltration(result, set_point)
    capacity = Input("ρc", "air_heat_capacity", _heat_capacity(result), "J/(m³·K)")
    flows = (
        Input("V_f", "fan_flow", fan.flow, "m³/s", ("ventilation", "flow")),
        Input("r", "heat_recovery", fan.heat_recovery, "", ("ventilation", "heat_recovery")),
    )
    expression = "ρc*(V_i + V_f*(1 - r))" if fan.balanced else "ρc*sqrt(V_i**2 + V_f**2)"
    inputs = (capacity, *flows) if fan.balanced else (capacity, flows[0])
    return [
        infiltration,
        _column(
            "K_air",
            "air_conductance",
            "W/K",
            _heat_capacity(result) * net,
            Formula(
                "air_conductance",
                "K_air",
                expression,
                "W/K",
                "ASHRAE Fundamentals, combining of infiltration and fans (memory)",
            ),
            inputs,
        ),
    ]


def _infiltration(result: Result, set_point: Real) -> Column:
    house, climate = result.house, result.house.climate
    leakage = house.leakage
    if not isinstance(leakage, BlowerDoor):
        return _given("V_i", "infiltration", "m³/s", leakage.flow)
    stack, wind = air.basic_model_coefficients(house.storeys, leakage.shelter_class)
    area = air.leakage_area(leakage.flow_at_50_pa)
    flow = air.basic_model_flow(
        area,
        set_point - climate.mean_temperature,
        climate.wind_speed,
        house.storeys,
        leakage.shelter_class,
    )
    formula = Formula(
        "basic_model",
        "V_i",
        "A_L/1000*sqrt(C_s*abs(T_i - T_m) + C_w*u**2)",
        "m³/s",
        BASIC_MODEL,
        where=(("A_L", "10000*Q_50*(4/50)**0.65*sqrt(1.2041/(2*4))"),),
    )
    inputs = (
        Input("Q_50", "flow_at_50_pa", leakage.flow_at_50_pa, "m³/s", ("air",)),
        Input("C_s", "stack_coefficient", stack, "(L/s)²/(cm⁴·K)"),
        Input("C_w", "wind_coefficient", wind, "(L/s)²/(cm⁴·(m/s)²)"),
        Input("T_i", "set_point", set_point, "°C"),
    )
    return _column("V_i", "infiltration", "m³/s", flow, formula, inputs)


def _heat_capacity(result: Result) -> Real:
    return air.air_heat_capacity(result.house.climate.elevation)


def _conductance(result: Result, conductance: Array) -> Column:
    formula = Formula(
        "conductance",
        "K",
        f"max(K_out + K_air, {energy.LEAST_CONDUCTANCE:g})",
        "W/K",
        VARIABLE_BASE,
    )
    shell = Input("K_out", "to_outdoors", result.to_outdoors, "W/K")
    return _column("K", "conductance", "W/K", conductance, formula, (shell,))


def _gains(result: Result) -> list[Column]:
    gains = result.working.sources
    people = Input("P", "people_and_appliances", gains.people, "W", ("gains",))
    formula = Formula("gains", "g", "P + S - L", "W", GAINS)
    return [
        _given("S", "sun", "W", gains.sun),
        _given("L", "sky", "W", gains.sky),
        _column("g", "gains", "W", gains.total, formula, (people,)),
    ]


def _ground(result: Result) -> Column:
    """The ground: the year's mean outdoors, and its share of outdoors' wave, a month late."""
    wave = result.working.ground
    formula = Formula(
        "ground_wave",
        "T_g",
        f"T_y + r*(a*cos(2*pi*(m - {LAG_MONTHS:g})/12) + b*sin(2*pi*(m - {LAG_MONTHS:g})/12))",
        "°C",
        "ISO 13370:2007 Annex H (memory)",
    )
    inputs = (
        Input("T_y", "mean_of_outdoors", wave.mean, "°C"),
        Input("r", "wave_share", wave.share, ""),
        Input("a", "wave_cosine", wave.harmonic.cosine, "K"),
        Input("b", "wave_sine", wave.harmonic.sine, "K"),
    )
    return _column("T_g", "ground_temperature", "°C", result.ground_temperature, formula, inputs)


def _set_point_and_ground(result: Result, *, warming: bool) -> tuple[Input, ...]:
    house = result.house
    if warming:
        place = ("set_points", "heating")
        point = Input("T_h", "heating_set_point", house.heating_set_point, "°C", place)
    else:
        place = ("set_points", "cooling")
        point = Input("T_c", "cooling_set_point", house.cooling_set_point, "°C", place)
    return point, Input("K_g", "to_ground", result.to_ground, "W/K")


def _balance_point(
    symbol: str, name: str, values: Array, result: Result, *, warming: bool
) -> Column:
    point = "T_h" if warming else "T_c"
    formula = Formula(
        "balance_point", symbol, f"{point} - (g - K_g*({point} - T_g))/K", "°C", VARIABLE_BASE
    )
    inputs = _set_point_and_ground(result, warming=warming)
    return _column(symbol, name, "°C", values, formula, inputs)


def _spread(result: Result, deviation: Array, symbol: str) -> list[Column]:
    climate, gains = result.house.climate, result.working.sources
    terms, where, columns = ["σ**2"], [], []
    inputs: tuple[Input, ...] = ()
    if climate.sun_variation is not None:
        terms.append("(S*v/K)**2")
    if climate.diurnal_deviation is not None:
        columns = [
            _given("p", "sun_with_temperature", "W", gains.sun_with_temperature),
            _given("q", "sun_within_day", "W²", gains.sun_within_day),
        ]
        terms.append("max(D, 0)/(1 + (2*pi*τ/24)**2)")
        where = [
            ("D", "σ_h**2 + 2*σ_h*p/K + q/K**2"),
            ("τ", "C/(K + K_g)/3600"),
        ]
        inputs = (
            Input(
                "C", "heat_capacity", result.working.warm.heat_capacity, "J/K", ("thermal_mass",)
            ),
            Input("K_g", "to_ground", result.to_ground, "W/K"),
        )
    formula = Formula(
        "effective_deviation",
        symbol,
        f"sqrt({' + '.join(terms)})",
        "K",
        SPREAD,
        where=tuple(where),
    )
    return [*columns, _column(symbol, "effective_deviation", "K", deviation, formula, inputs)]


def _open_share(climate: Climate, share: Array | float) -> list[Column]:
    if climate.humidity_ratio is None:
        return [_given("c", "open_window_share", "", share, "our own judgement")]
    formula = Formula(
        "open_window_share",
        "c",
        f"max(0, min(1, ({energy.WINDOWS_SHUT_ABOVE * 1000:g} - w)/"
        f"({energy.WINDOWS_SHUT_ABOVE * 1000:g} - {energy.WINDOWS_OPEN_BELOW * 1000:g})))",
        "",
        "our own judgement",
    )
    return [_column("c", "open_window_share", "", share, formula)]


def _latent_columns(result: Result) -> list[Column]:
    house, cool = result.house, result.cooling
    if house.climate.humidity_ratio is None:
        ratio = house.climate.sensible_heat_ratio
        known = energy.USUAL_SENSIBLE_HEAT_RATIO if ratio is None else ratio
        formula = Formula("fixed_ratio", "Q_l", "Q_s*(1/s - 1)", "kWh", "common practice")
        inputs: tuple[Input, ...] = (Input("s", "sensible_heat_ratio", known, ""),)
        return [_column("Q_l", "latent_need", "kWh", cool.latent_kwh, formula, inputs)]
    formula = Formula(
        "latent_load",
        "Q_l",
        f"(ρ*2.5e6*V_o*max(w - {energy.INDOOR_HUMIDITY * 1000:g}, 0)/1000 + M)*h/1000",
        "kWh",
        LATENT,
        where=(("M", "20 + 0.22*A + 12*(B + 1)"),),
    )
    inputs = (
        Input("ρ", "air_density", air.air_density(house.climate.elevation), "kg/m³"),
        Input("A", "floor_area", house.floor_area, "m²", ("floor_area",)),
        Input("B", "bedrooms", house.bedrooms, "", ("bedrooms",)),
    )
    return [
        _given("V_o", "outdoor_flow", "m³/s", result.working.cool_air.outdoor),
        _column("Q_l", "latent_need", "kWh", cool.latent_kwh, formula, inputs),
    ]
