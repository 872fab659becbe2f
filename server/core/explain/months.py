"""The months of a year, column by column, in the order in which they are worked out."""

from __future__ import annotations

import numpy as np

from server.core import air, energy
from server.core.air import BlowerDoor
from server.core.arrays import Array, Real
from server.core.climate import MONTH_DAYS, Climate
from server.core.energy import Envelope, Spread
from server.core.evaluate import Result
from server.core.explain.base import Column, Formula, Input
from server.core.explain.year import VARIABLE_BASE
from server.core.gains import RADIANT_SHARE
from server.core.ground_wave import LAG_MONTHS

BASIC_MODEL = (
    "ASHRAE Fundamentals, basic model of infiltration (Sherman and Grimsrud), "
    "coefficients from memory"
)
NORMAL_DAYS = "Schoenau and Kehrig (1990), Energy and Buildings 14"
SPREAD = "own derivation: independent spreads add in quadrature"
STORAGE = "own derivation: a house between two set points stores heat only while it floats"
LINEAR_LOSS = (
    "least squares over normally distributed hours, Gauss-Hermite quadrature of three nodes"
)
OPEN_WINDOWS = f"{VARIABLE_BASE}; share of open windows by our own judgement"
LATENT = "enthalpy of outdoor air; indoor sources after the residential load procedure (memory)"
GAINS = "ISO 13790:2008 11.3 and 11.4 (memory)"


def heating_columns(result: Result) -> tuple[Column, ...]:
    """What makes the heating of every month, from the climate to the load.

    Shapes: one house without draws; SI, energies in kWh. Range: any result. Raises: nothing.
    Source: each column's own.
    """
    warm = result.heating
    envelope = result.working.warm
    return (
        *_weather(result.house.climate),
        *_air_columns(result, envelope),
        _slope(envelope),
        *_gains(result),
        _ground(result),
        _base("t_b", "base", warm.base, result, warming=True),
        _balance_point(result),
        *_spread(result, envelope, warm.spread),
        _column("HDD", "heating_degree_days", "K·d", warm.degree_days, _DEGREE_DAYS),
        _column("Q_h", "heating_need", "kWh", warm.load_kwh, _HEATING),
    )


def cooling_columns(result: Result) -> tuple[Column, ...]:
    """What makes the cooling of every month, at its own set point.

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
        *_air_columns(result, working.cool),
        _slope(working.cool),
        *_gains(result),
        _ground(result),
        _base("t_b", "base", cool.balance_point, result, warming=False),
        _column(
            "K_max",
            "widest_conductance",
            "W/K",
            cool.widest,
            Formula("widest", "K_max", "max(K_s, K_out + K_win)", "W/K", OPEN_WINDOWS),
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
                "max(T_c - (g - K_g*(T_c - T_g))/K_max, t_b)",
                "°C",
                OPEN_WINDOWS,
            ),
            _set_point_and_ground(result, warming=False),
        ),
        *_spread(result, working.cool, cool.spread),
        *_open_share(climate, share),
        _column("Q_s", "cooling_need", "kWh", cool.load_kwh, _COOLING),
        _column("h", "hours_with_cooling", "h", cool.hours, _HOURS),
        *_latent_columns(result),
    )


_OFTEN = ("w", "1/(1 + r)")  # share of the time of the damped side of the day's swing
_DEGREE_DAYS = Formula(
    "degree_days",
    "HDD",
    "N*s*(w*(Y*Phi(Y) + phi(Y)) + (1 - w)*(Z*Phi(Z) + phi(Z)))",
    "K·d",
    f"{NORMAL_DAYS}; {STORAGE}",
    where=(_OFTEN, ("Y", "(t_b + r*x - T_m)/s"), ("Z", "(t_b - x - T_m)/s")),
)
_HEATING = Formula("month_heating", "Q_h", "K_s*24*HDD/1000", "kWh", VARIABLE_BASE)
_COOLING = Formula(
    "month_cooling",
    "Q_s",
    "24*K_s*(c*(C_o + (t_max - t_b)*N*D_o) + (1 - c)*C_c)/1000",
    "kWh",
    f"{OPEN_WINDOWS}; {STORAGE}",
    where=(
        _OFTEN,
        ("O", "(T_m - t_max + r*x)/s"),
        ("P", "(T_m - t_max - x)/s"),
        ("Y", "(T_m - t_b + r*x)/s"),
        ("Z", "(T_m - t_b - x)/s"),
        ("D_o", "w*Phi(O) + (1 - w)*Phi(P)"),
        ("C_o", "N*s*(w*(O*Phi(O) + phi(O)) + (1 - w)*(P*Phi(P) + phi(P)))"),
        ("C_c", "N*s*(w*(Y*Phi(Y) + phi(Y)) + (1 - w)*(Z*Phi(Z) + phi(Z)))"),
    ),
)
_HOURS = Formula(
    "hours_with_cooling",
    "h",
    "24*N*(c*(w*Phi(O) + (1 - w)*Phi(P)) + (1 - c)*(w*Phi(Y) + (1 - w)*Phi(Z)))",
    "h",
    f"{OPEN_WINDOWS}; {STORAGE}",
    where=(
        _OFTEN,
        ("O", "(T_m - t_max + r*x)/s"),
        ("P", "(T_m - t_max - x)/s"),
        ("Y", "(T_m - t_b + r*x)/s"),
        ("Z", "(T_m - t_b - x)/s"),
    ),
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


def _air_columns(result: Result, envelope: Envelope) -> list[Column]:
    """Infiltration at the month's mean, outdoor air as a conductance, its mean loss and slope."""
    columns = [
        _infiltration(result, envelope.set_point),
        _column("K_air", "air_conductance", "W/K", envelope.air, *_of_air(result)),
    ]
    if result.house.climate.diurnal_deviation is None:
        flat = Formula("air_loss_at_mean", "L_a", "K_air*(T_i - T_m)", "W", VARIABLE_BASE)
        point = (Input("T_i", "set_point", envelope.set_point, "°C"),)
        same = Formula("air_slope_at_mean", "k_a", "K_air", "W/K", VARIABLE_BASE)
        return [
            *columns,
            _column("L_a", "air_loss", "W", envelope.air_loss, flat, point),
            _column("k_a", "air_slope", "W/K", envelope.air_slope, same),
        ]
    where, inputs = _three_losses(result, envelope)
    mean = Formula("air_loss", "L_a", "(L_c + 4*L_m + L_w)/6", "W", LINEAR_LOSS, where)
    slope = Formula("air_slope", "k_a", "(L_c - L_w)/(2*b)", "W/K", LINEAR_LOSS, where)
    return [
        *columns,
        _column("L_a", "air_loss", "W", envelope.air_loss, mean, inputs),
        _column("k_a", "air_slope", "W/K", envelope.air_slope, slope, inputs),
    ]


def _fan_inputs(result: Result) -> tuple[Input, ...]:
    fan = result.house.ventilation
    capacity = Input("ρc", "air_heat_capacity", _heat_capacity(result), "J/(m³·K)")
    flow = Input("V_f", "fan_flow", fan.flow, "m³/s", ("air", "ventilation", "flow"))
    place = ("air", "ventilation", "heat_recovery")
    recovery = Input("e_r", "heat_recovery", fan.heat_recovery, "", place)
    return (capacity, flow, recovery) if fan.balanced else (capacity, flow)


def _outdoor_air(result: Result, infiltration: str) -> str:
    """Flow net of recovery, with the infiltration of this symbol."""
    if result.house.ventilation.balanced:
        return f"({infiltration} + V_f*(1 - e_r))"
    return f"sqrt({infiltration}**2 + V_f**2)"


def _of_air(result: Result) -> tuple[Formula, tuple[Input, ...]]:
    source = "ASHRAE Fundamentals, combining of infiltration and fans (memory)"
    expression = f"ρc*{_outdoor_air(result, 'V_i')}"
    return Formula("air_conductance", "K_air", expression, "W/K", source), _fan_inputs(result)


def _three_losses(
    result: Result, envelope: Envelope
) -> tuple[tuple[tuple[str, str], ...], tuple[Input, ...]]:
    """The loss by air at the mean and at sqrt(3) spreads of the hours either side."""
    where = [("b", "sqrt(3)*max(sqrt(σ**2 + σ_h**2), 0.01)")]
    leaks: tuple[Input, ...] = ()
    flow = "V_i"
    if isinstance(result.house.leakage, BlowerDoor):
        where.append(_LEAKAGE_AREA)
        leaks = _leak_inputs(result, envelope.set_point)[:-1]
    for letter, outdoors in (("c", "(T_m - b)"), ("m", "T_m"), ("w", "(T_m + b)")):
        if isinstance(result.house.leakage, BlowerDoor):
            flow = f"V_{letter}"
            where.append((flow, f"A_L/1000*sqrt(C_s*abs(T_i - {outdoors}) + C_w*u**2)"))
        through = _outdoor_air(result, flow)
        where.append((f"L_{letter}", f"ρc*{through}*(T_i - {outdoors})"))
    point = Input("T_i", "set_point", envelope.set_point, "°C")
    return tuple(where), (*_fan_inputs(result), *leaks, point)


_LEAKAGE_AREA = ("A_L", "10000*Q_50*(4/50)**0.65*sqrt(1.2041/(2*4))")


def _leak_inputs(result: Result, set_point: Real) -> tuple[Input, ...]:
    leakage = result.house.leakage
    assert isinstance(leakage, BlowerDoor)
    stack, wind = air.basic_model_coefficients(result.house.storeys, leakage.shelter_class)
    return (
        Input("Q_50", "flow_at_50_pa", leakage.flow_at_50_pa, "m³/s", ("air",)),
        Input("C_s", "stack_coefficient", stack, "(L/s)²/(cm⁴·K)"),
        Input("C_w", "wind_coefficient", wind, "(L/s)²/(cm⁴·(m/s)²)"),
        Input("T_i", "set_point", set_point, "°C"),
    )


def _infiltration(result: Result, set_point: Real) -> Column:
    house, climate = result.house, result.house.climate
    leakage = house.leakage
    if not isinstance(leakage, BlowerDoor):
        return _given("V_i", "infiltration", "m³/s", leakage.flow)
    flow = air.basic_model_flow(
        air.leakage_area(leakage.flow_at_50_pa),
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
        where=(_LEAKAGE_AREA,),
    )
    inputs = _leak_inputs(result, set_point)
    return _column("V_i", "infiltration", "m³/s", flow, formula, inputs)


def _heat_capacity(result: Result) -> Real:
    return air.air_heat_capacity(result.house.climate.elevation)


def _slope(envelope: Envelope) -> Column:
    formula = Formula(
        "slope", "K_s", f"max(K_out + k_a, {energy.LEAST_CONDUCTANCE:g})", "W/K", LINEAR_LOSS
    )
    shell = Input("K_out", "to_outdoors", envelope.to_outdoors, "W/K")
    return _column("K_s", "slope", "W/K", envelope.slope, formula, (shell,))


def _gains(result: Result) -> list[Column]:
    gains, house = result.working.sources, result.house
    given = house.people_and_appliances
    if given is None:
        given = energy.people_and_appliances(house.floor_area, house.bedrooms)
    inputs = (
        Input("P", "people_and_appliances", given, "W", ("gains",)),
        Input("l", "led_out", gains.led_out, ""),
    )
    expression = f"P*(1 - {RADIANT_SHARE:g}*l) + S - L"
    formula = Formula("gains", "g", expression, "W", GAINS)
    return [
        _given("S", "sun", "W", gains.sun),
        _given("L", "sky", "W", gains.sky),
        _column("g", "gains", "W", gains.total, formula, inputs),
    ]


def _ground(result: Result) -> Column:
    """The ground: the year's mean outdoors, and its share of outdoors' wave, a month late."""
    wave = result.working.ground
    formula = Formula(
        "ground_wave",
        "T_g",
        f"T_y + y*(a*cos(2*pi*(m - {LAG_MONTHS:g})/12) + z*sin(2*pi*(m - {LAG_MONTHS:g})/12))",
        "°C",
        "ISO 13370:2007 Annex H (memory)",
    )
    inputs = (
        Input("T_y", "mean_of_outdoors", wave.mean, "°C"),
        Input("y", "wave_share", wave.share, ""),
        Input("a", "wave_cosine", wave.harmonic.cosine, "K"),
        Input("z", "wave_sine", wave.harmonic.sine, "K"),
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


def _base(symbol: str, name: str, values: Array, result: Result, *, warming: bool) -> Column:
    """Where the straight line of the balance meets zero."""
    point = "T_h" if warming else "T_c"
    lack = f"K_out*({point} - T_m) + L_a + K_g*({point} - T_g) - g"
    formula = Formula("base", symbol, f"T_m + ({lack})/K_s", "°C", LINEAR_LOSS)
    shell = Input("K_out", "to_outdoors", result.to_outdoors, "W/K")
    inputs = (*_set_point_and_ground(result, warming=warming), shell)
    return _column(symbol, name, "°C", values, formula, inputs)


def _balance_point(result: Result) -> Column:
    """The balance point that people know, with the air of the month's mean."""
    least = f"{energy.LEAST_CONDUCTANCE:g}"
    formula = Formula(
        "balance_point",
        "t_bal",
        f"T_h - (g - K_g*(T_h - T_g))/max(K_out + K_air, {least})",
        "°C",
        VARIABLE_BASE,
    )
    shell = Input("K_out", "to_outdoors", result.to_outdoors, "W/K")
    inputs = (*_set_point_and_ground(result, warming=True), shell)
    values = result.heating.balance_point
    return _column("t_bal", "balance_point", "°C", values, formula, inputs)


def _spread(result: Result, envelope: Envelope, spread: Spread) -> list[Column]:
    climate, gains = result.house.climate, result.working.sources
    by_sun = " + (S*v/K_s)**2" if climate.sun_variation is not None else ""
    days = Formula("spread_of_days", "s", f"sqrt(σ**2{by_sun})", "K", SPREAD)
    columns = [_column("s", "spread_of_days", "K", spread.days, days)]
    if climate.diurnal_deviation is None:
        return [
            *columns,
            _given("x", "swing_within_day", "K", spread.swing),
            _given("r", "unstored_share", "", spread.unstored),
        ]
    swing = Formula(
        "swing_within_day",
        "x",
        "sqrt(max(σ_h**2 + 2*σ_h*p/K_s + q/K_s**2, 0))",
        "K",
        SPREAD,
    )
    unstored = Formula(
        "unstored_share",
        "r",
        "d + (1 - d)*max(1 - B/f, 0)**3",
        "",
        STORAGE,
        where=(
            ("τ", "C/(K_s + K_g)/3600"),
            ("d", "1/sqrt(1 + (2*pi*τ/24)**2)"),
            ("f", "2*sqrt(2)*max(x*d, 1e-9)"),
        ),
    )
    inputs = (
        Input("C", "heat_capacity", envelope.heat_capacity, "J/K", ("thermal_mass",)),
        Input("K_g", "to_ground", result.to_ground, "W/K"),
        Input("B", "band", envelope.band, "K"),
    )
    return [
        *columns,
        _given("p", "sun_with_temperature", "W", gains.sun_with_temperature),
        _given("q", "sun_within_day", "W²", gains.sun_within_day),
        _column("x", "swing_within_day", "K", spread.swing, swing),
        _column("r", "unstored_share", "", spread.unstored, unstored, inputs),
    ]


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
