"""What people type is read right or refused with words, and what is printed can be typed.

Expected values come from the definitions of the units, never from the library that converts:
foot 0.3048 m, inch 0.0254 m, pound 0.45359237 kg, grain 1/7000 lb, International-Table Btu
1055.05585262 J, US therm 105 480 400 J (NIST SP 811, appendix B), °F = 5/9 K.
"""

import contextlib
import math
import subprocess
import sys
import time
from typing import get_args

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from server import units
from server.units import (
    KINDS,
    System,
    UnitError,
    format_quantity,
    read_quantity,
    to_display,
    unit_label,
)

FT, IN, MILE = 0.3048, 0.0254, 1609.344
LB = 0.45359237
BTU = 1055.05585262
THERM = 105_480_400.0
HOUR = 3600.0
KWH = 3.6e6
F = 5 / 9
U_IP = BTU / (HOUR * FT**2 * F)
K_IP = BTU / (HOUR * FT * F)
R_IP = 1 / U_IP

SYSTEMS: tuple[System, ...] = get_args(System)

READ = [
    # numbers
    ("12 m", "length", 12),
    (".5 m", "length", 0.5),
    ("5. m", "length", 5),
    ("-7 m", "length", -7),
    ("−7 m", "length", -7),  # U+2212
    ("+7 m", "length", 7),
    ("1e3 m", "length", 1000),
    ("1.5E-3m", "length", 0.0015),
    ("  8 ft ", "length", 8 * FT),
    ("12\u202f000 ft", "length", 12000 * FT),
    ("3/4 in", "thickness", 0.75 * IN),
    ("3 1/2 in", "thickness", 3.5 * IN),
    ("3-1/2 in", "thickness", 3.5 * IN),
    ("-3 1/2 in", "thickness", -3.5 * IN),
    ("13/16 in", "thickness", 0.8125 * IN),
    ("1 15/16 in", "thickness", 1.9375 * IN),
    ("3\u20444 in", "thickness", 0.75 * IN),  # fraction slash
    ("½ in", "thickness", 0.5 * IN),
    ("3½ in", "thickness", 3.5 * IN),
    ("3 ½ in", "thickness", 3.5 * IN),
    ("3-½ in", "thickness", 3.5 * IN),
    ("1¼ in", "thickness", 1.25 * IN),
    ("¾ in", "thickness", 0.75 * IN),
    ("⅛ in", "thickness", IN / 8),
    ("2⅜ in", "thickness", 2.375 * IN),
    ("⅝ in", "thickness", 0.625 * IN),
    ("⅞ in", "thickness", 0.875 * IN),
    ("⅓ ft", "length", FT / 3),
    ("⅔ yd", "length", 2 * FT),
    # lengths
    ('3 1/2"', "thickness", 3.5 * IN),
    ("3.5 in.", "thickness", 3.5 * IN),
    ("3.5 Inches", "thickness", 3.5 * IN),
    ("89 mm", "thickness", 0.089),
    ("89MM", "thickness", 0.089),
    ("8.9 cm", "thickness", 0.089),
    ("6”", "thickness", 6 * IN),
    ("6″", "thickness", 6 * IN),
    ("6''", "thickness", 6 * IN),
    ("6'", "length", 6 * FT),
    ("6′", "length", 6 * FT),
    ("1 foot", "length", FT),
    ("10 feet", "length", 10 * FT),
    ("8' 6\"", "length", 102 * IN),
    ("8'6\"", "length", 102 * IN),
    ("8 ft 6 in", "length", 102 * IN),
    ("8 ft. 6 in.", "length", 102 * IN),
    ("8 feet 6 inches", "length", 102 * IN),
    ("8'-6 1/2\"", "length", 102.5 * IN),
    ("8’ 6½”", "length", 102.5 * IN),
    ("8′ 6″", "length", 102 * IN),
    ("-1' 6\"", "length", -18 * IN),
    # areas and volumes
    ("40 m^2", "area", 40),
    ("40 m²", "area", 40),
    ("40m2", "area", 40),
    ("40 sq m", "area", 40),
    ("40 square metres", "area", 40),
    ("400 cm^2", "area", 0.04),
    ("400 mm²", "area", 0.0004),
    ("430 ft^2", "area", 430 * FT**2),
    ("430 ft²", "area", 430 * FT**2),
    ("430 sq ft", "area", 430 * FT**2),
    ("430 sq. ft.", "area", 430 * FT**2),
    ("430 sq.ft.", "area", 430 * FT**2),
    ("430 SQFT", "area", 430 * FT**2),
    ("430 SF", "area", 430 * FT**2),
    ("430 square feet", "area", 430 * FT**2),
    ("12 in²", "area", 12 * IN**2),
    ("385 m^3", "volume", 385),
    ("13600 ft^3", "volume", 13600 * FT**3),
    ("13600 cu ft", "volume", 13600 * FT**3),
    ("13600 cubic feet", "volume", 13600 * FT**3),
    ("13600 cf", "volume", 13600 * FT**3),
    ("250 L", "volume", 0.25),
    ("1500 mm^2/m", "opening_area", 0.0015),
    ("15 cm²/m", "opening_area", 0.0015),
    ("0.01 m^2/m", "opening_area", 0.01),
    ("2 in^2/ft", "opening_area", 2 * IN**2 / FT),
    ("2 sq in per foot", "opening_area", 2 * IN**2 / FT),
    # temperatures
    ("70 degF", "temperature", 38 * F),
    ("70°F", "temperature", 38 * F),
    ("70 F", "temperature", 38 * F),
    ("70 deg F", "temperature", 38 * F),
    ("70 degrees Fahrenheit", "temperature", 38 * F),
    ("-7 degC", "temperature", -7),
    ("19.5 °C", "temperature", 19.5),
    ("20c", "temperature", 20),
    ("20 ℃", "temperature", 20),
    ("300 K", "temperature", 26.85),
    ("300 kelvin", "temperature", 26.85),
    ("20 delta_degF", "temperature_difference", 20 * F),
    ("20 Δ°F", "temperature_difference", 20 * F),
    ("20 delta F", "temperature_difference", 20 * F),
    ("11 delta_degC", "temperature_difference", 11),
    ("11 Δ°C", "temperature_difference", 11),
    ("11 K", "temperature_difference", 11),
    ("11 ΔK", "temperature_difference", 11),
    # heat through things
    ("0.035 W/(m*K)", "conductivity", 0.035),
    ("0.035 W/mK", "conductivity", 0.035),
    ("0.035 W/m/K", "conductivity", 0.035),
    ("0.035 W/m·K", "conductivity", 0.035),
    ("0.035 W/m-K", "conductivity", 0.035),
    ("0.035 W/(m °C)", "conductivity", 0.035),
    ("0.035 W·m⁻¹·K⁻¹", "conductivity", 0.035),
    ("0.02 Btu/(hour*ft*delta_degF)", "conductivity", 0.02 * K_IP),
    ("0.02 BTU/hr·ft·°F", "conductivity", 0.02 * K_IP),
    ("0.24 Btu*in/(hour*ft^2*delta_degF)", "conductivity", 0.02 * K_IP),
    ("0.24 Btu·in/h·ft²·°F", "conductivity", 0.02 * K_IP),
    ("0.24 Btu-in/hr-ft2-F", "conductivity", 0.02 * K_IP),
    ("0.24 BTU in/(hr sqft °F)", "conductivity", 0.02 * K_IP),
    ("0.15 W/(m*K)", "linear_transmittance", 0.15),
    ("0.09 Btu/(h·ft·°F)", "linear_transmittance", 0.09 * K_IP),
    ("1.8 W/(m^2*K)", "u_value", 1.8),
    ("1.8 W/m²K", "u_value", 1.8),
    ("1.8 W/m2.K", "u_value", 1.8),
    ("1.8 W m⁻² K⁻¹", "u_value", 1.8),
    ("0.32 Btu/(hour*ft^2*delta_degF)", "u_value", 0.32 * U_IP),
    ("0.32 Btu/h·ft²·°F", "u_value", 0.32 * U_IP),
    ("0.32 BTU/hr/sq ft/F", "u_value", 0.32 * U_IP),
    ("0.32 Btu/(hr)(ft²)(°F)", "u_value", 0.32 * U_IP),
    ("0.32 Btu/(ft²·°F·h)", "u_value", 0.32 * U_IP),
    ("0.35 btu", "u_value", 0.35 * U_IP),
    ("U-0.35", "u_value", 0.35 * U_IP),
    ("u 0.35", "u_value", 0.35 * U_IP),
    ("USI-1.8", "u_value", 1.8),
    ("1 Btu/(h·ft²·°F)", "u_value", 5.678263),
    ("2.3 m^2*K/W", "resistance", 2.3),
    ("2.3 m²K/W", "resistance", 2.3),
    ("0.44 hour*ft^2*delta_degF/Btu", "resistance", 0.44 * R_IP),
    ("13 h·ft²·°F/Btu", "resistance", 13 * R_IP),
    ("13 hr-sf-F/BTU", "resistance", 13 * R_IP),
    ("R-13", "resistance", 13 * R_IP),
    ("R13", "resistance", 13 * R_IP),
    ("r 13", "resistance", 13 * R_IP),
    ("R – 13", "resistance", 13 * R_IP),  # en dash
    ("R-.5", "resistance", 0.5 * R_IP),
    ("R-3½", "resistance", 3.5 * R_IP),
    ("RSI-2.3", "resistance", 2.3),
    ("RSI 2.3", "resistance", 2.3),
    ("rsi2.3", "resistance", 2.3),
    ("1 h·ft²·°F/Btu", "resistance", 0.1761102),
    ("216 W/K", "conductance", 216),
    ("410 Btu/(hour*delta_degF)", "conductance", 410 * BTU / HOUR / F),
    # air
    ("0.03 m^3/s", "flow", 0.03),
    ("28 L/s", "flow", 0.028),
    ("108 m³/h", "flow", 0.03),
    ("60 ft^3/minute", "flow", 60 * FT**3 / 60),
    ("60 cubic feet per minute", "flow", 60 * FT**3 / 60),
    ("60 CFM", "flow", 60 * FT**3 / 60),
    ("0.5 1/hour", "air_change_rate", 0.5),
    ("3 1/hour", "air_change_rate", 3),
    ("3 1/2 1/hour", "air_change_rate", 3.5),
    ("0.5/h", "air_change_rate", 0.5),
    ("0.5 h⁻¹", "air_change_rate", 0.5),
    ("0.5 per hour", "air_change_rate", 0.5),
    ("0.5 air changes per hour", "air_change_rate", 0.5),
    ("0.5 ACH", "air_change_rate", 0.5),
    # climate
    ("3.5 m/s", "speed", 3.5),
    ("36 km/hour", "speed", 10),
    ("7.5 mph", "speed", 7.5 * MILE / HOUR),
    ("7.5 mile/hour", "speed", 7.5 * MILE / HOUR),
    ("10 ft/s", "speed", 10 * FT),
    ("9 knots", "speed", 9 * 1852 / HOUR),
    ("14 MJ/m^2", "irradiation", 14e6),
    ("14 MJ/(m²·day)", "irradiation", 14e6),
    ("4 kWh/m²/day", "irradiation", 4 * KWH),
    ("4000 Wh/m^2", "irradiation", 4 * KWH),
    ("1200 Btu/ft^2 per day", "irradiation", 1200 * BTU / FT**2),
    ("1200 Btu/ft² day", "irradiation", 1200 * BTU / FT**2),
    ("36.1 deg", "angle", 36.1),
    ("180°", "angle", 180),
    ("35 degrees", "angle", 35),
    ("9.3 g/kg", "humidity_ratio", 0.0093),
    ("0.0093 kg/kg", "humidity_ratio", 0.0093),
    ("65 gr/lb", "humidity_ratio", 65 / 7000),
    ("65 grains per pound", "humidity_ratio", 65 / 7000),
    ("0.0093 lb/lb", "humidity_ratio", 0.0093),
    # energy, its price and its carbon
    ("500 W", "power", 500),
    ("2.5 kW", "power", 2500),
    ("24000 Btu/hour", "power", 24000 * BTU / HOUR),
    ("24 MBH", "power", 24000 * BTU / HOUR),
    ("10 kWh", "energy", 10 * KWH),
    ("10 MJ", "energy", 1e7),
    ("2 GJ", "energy", 2e9),
    ("850 therms", "energy", 850 * THERM),
    ("1 therm", "energy", 29.3001 * KWH),
    ("85 MMBtu", "energy", 85e6 * BTU),
    ("85 kBtu", "energy", 85e3 * BTU),
    ("85 BTU", "energy", 85 * BTU),
    ("0.14 USD/kWh", "price_of_energy", 0.14),
    ("0.14 $/kWh", "price_of_energy", 0.14),
    ("$0.14/kWh", "price_of_energy", 0.14),
    ("$ 0.14 per kWh", "price_of_energy", 0.14),
    ("−$0.02/kWh", "price_of_energy", -0.02),
    ("14 ¢/kWh", "price_of_energy", 0.14),
    ("1.35 USD/therm", "price_of_energy", 1.35 * KWH / THERM),
    ("$14.1/MMBtu", "price_of_energy", 14.1 * KWH / (1e6 * BTU)),
    ("0.05 USD/MJ", "price_of_energy", 0.18),
    ("50 USD/GJ", "price_of_energy", 0.18),
    ("0.39 kg/kWh", "carbon_of_energy", 0.39),
    ("390 g/kWh", "carbon_of_energy", 0.39),
    ("390 g CO₂e/kWh", "carbon_of_energy", 0.39),
    ("0.86 lb/kWh", "carbon_of_energy", 0.86 * LB),
    ("117 lb CO2/MMBtu", "carbon_of_energy", 117 * LB * KWH / (1e6 * BTU)),
    ("5.3 kg/therm", "carbon_of_energy", 5.3 * KWH / THERM),
    ("11.7 lb/therm", "carbon_of_energy", 11.7 * LB * KWH / THERM),
    ("0.05 kg/MJ", "carbon_of_energy", 0.18),
    ("50 kg/GJ", "carbon_of_energy", 0.18),
    # materials
    ("56 kg/m^3", "density", 56),
    ("3.5 lb/ft^3", "density", 3.5 * LB / FT**3),
    ("3.5 pcf", "density", 3.5 * LB / FT**3),
    ("1006 J/(kg*K)", "specific_heat", 1006),
    ("1.006 kJ/kgK", "specific_heat", 1006),
    ("0.24 Btu/(lb*delta_degF)", "specific_heat", 0.24 * BTU / LB / F),
    ("25 lbs", "mass", 25 * LB),
    ("25 kg", "mass", 25),
]

REFUSED = [
    ("", "length", "empty", "Write a length like"),
    (" ", "area", "empty", "Nothing is written"),
    ("9**9**9 m", "length", "power", "double star"),
    ("40 m**2", "area", "power", "ft^2 or ft²"),
    ("nan m", "length", "not_finite", "calculated with"),
    ("inf ft", "length", "not_finite", "calculated with"),
    ("-Infinity ft", "length", "not_finite", "calculated with"),
    ("1e999 m", "length", "not_finite", "calculated with"),
    ("1e308 GJ", "energy", "not_finite", "calculated with"),
    ("1,200 ft^2", "area", "comma", "write 1200, not 1,200"),
    ("3,5 m", "length", "comma", "3.5, not 3,5"),
    ("3 1/0 in", "length", "zero_denominator", "divides by zero"),
    ("1/0 in", "length", "zero_denominator", "divides by zero"),
    ("1 15/6 in", "length", "improper_fraction", "must be below one"),
    ("40 m", "area", "wrong_unit", "“m” measures a length, not an area. Understood are ft²"),
    ("5 kg", "length", "wrong_unit", "“kg” measures a mass, not a length"),
    ("5 W/(m*K)", "u_value", "wrong_unit", "measures a thermal conductivity, not a U-value"),
    ("R-13", "u_value", "wrong_unit", "“R” measures a thermal resistance"),
    ("U-0.35", "resistance", "wrong_unit", "“U” measures a U-value"),
    ("0.35 Btu/h", "u_value", "wrong_unit", "measures a power"),
    ("0.5 1/h", "length", "wrong_unit", "“1/h” measures an air change rate"),
    ("0.5 1/s", "air_change_rate", "unknown_unit", "“1/s” is not a unit known"),
    ("8' 6\"", "area", "two_numbers", "more than one number"),
    ("3.5", "length", "missing_unit", "has no unit. Write a length like “12.5 ft”"),
    ("13", "resistance", "missing_unit", "like “R-13”"),
    ("3.5 blorp", "length", "unknown_unit", "“blorp” is not a unit known for a length"),
    ("5 m m", "length", "unknown_unit", "“m m” is not a unit known"),
    ("5 m.m", "length", "unknown_unit", "ft, in, yd, m, cm, mm"),
    ("5 mj", "energy", "unknown_unit", "MJ"),  # could be a millijoule
    ("5 MBtu", "energy", "unknown_unit", "MMBtu"),  # a thousand or a million
    ("7 ach50", "air_change_rate", "unknown_unit", "ach50"),
    ("5 Btu/(h)*ft²*°F", "u_value", "unknown_unit", "not a unit known"),
    ("5 W/(m²*K", "u_value", "unknown_unit", "not a unit known"),
    ("5 W//K", "conductance", "unknown_unit", "not a unit known"),
    ("5² m", "length", "unknown_unit", "not a unit known"),
    ("5^2 m", "length", "unknown_unit", "not a unit known"),
    ("5 1 m", "length", "two_numbers", "more than one number"),
    ("12 000 m", "length", "two_numbers", "more than one number"),
    ("3 1/2 1/2 in", "length", "two_numbers", "more than one number"),
    ("3.5 1/2 in", "length", "two_numbers", "more than one number"),
    ("5-7 in", "length", "two_numbers", "more than one number"),
    ("5 in 3 in", "length", "two_numbers", "more than one number"),
    ("3 - 1/2 in", "length", "two_numbers", "more than one number"),
    ("½½ in", "length", "unknown_unit", "not a unit known"),
    ("½5 in", "length", "two_numbers", "more than one number"),
    ("8.5' 6\"", "length", "two_numbers", "more than one number"),
    ("8' 12\"", "length", "inches", "must be below 12"),
    ("R-", "resistance", "bad_number", "No number can be read"),
    ("R--5", "resistance", "bad_number", "No number can be read"),
    ("RSİ-2", "resistance", "bad_number", "No number can be read"),
    ("1$0.5/kWh", "price_of_energy", "two_numbers", "more than one number"),
    ("R-13 in", "resistance", "after_label", "says more than its number"),
    ("--5 m", "length", "bad_number", "No number can be read"),
    ("0x10 m", "length", "bad_number", "digits 0 to 9"),
    ("1_000 m", "length", "bad_number", "digits 0 to 9"),
    ("1.2.3 m", "length", "bad_number", "digits 0 to 9"),
    ("٣ m", "length", "bad_number", "digits 0 to 9"),
    ("__import__('os') m", "length", "bad_number", "No number can be read"),
    ("m", "length", "bad_number", "No number can be read from “m”"),
    (".", "length", "bad_number", "No number can be read"),
    ("{kind} m", "length", "bad_number", "“{kind} m”"),
    ("5\nm", "length", "unprintable", "line break"),
    ("5 m\x00", "length", "unprintable", "another character"),
    ("5" * 39 + " m", "length", "too_long", "at most 40 characters"),
    ("70 degF", "temperature_difference", "temperature_not_difference", "a difference of temp"),
    ("11 °C", "temperature_difference", "temperature_not_difference", "delta_degC"),
    ("5 delta_degC", "temperature", "difference_not_temperature", "a temperature is wanted"),
    ("5 ΔK", "temperature", "difference_not_temperature", "a temperature is wanted"),
    ("5 '3", "volume", "two_numbers", "more than one number"),
    ("5 sf2", "area", "unknown_unit", "not a unit known"),
    ("5 Δ°F", "temperature", "difference_not_temperature", "°F, degF"),
]


@pytest.mark.parametrize(("text", "kind", "expected"), READ)
def test_reads(text: str, kind: str, expected: float) -> None:
    # Rounded published factors (six digits) stand among the exact ones.
    tolerance = 1e-6 if expected in (5.678263, 0.1761102, 29.3001 * KWH) else 1e-12
    assert read_quantity(text, kind) == pytest.approx(expected, rel=tolerance, abs=1e-12)


@pytest.mark.parametrize(("text", "kind", "code", "phrase"), REFUSED)
def test_refuses_with_words(text: str, kind: str, code: str, phrase: str) -> None:
    with pytest.raises(UnitError) as caught:
        read_quantity(text, kind)
    assert caught.value.code == code
    assert phrase in str(caught.value)
    assert str(caught.value).isprintable()
    assert {"text", "kind", "example", "allowed"} <= caught.value.facts.keys()
    assert all(isinstance(fact, str) for fact in caught.value.facts.values())


def test_every_code_is_refused_somewhere() -> None:
    assert {code for _, _, code, _ in REFUSED} == units._SENTENCES.keys()


def test_forty_characters_are_enough_and_allowed() -> None:
    assert read_quantity("0" * 37 + "5 m", "length") == 5


def test_small_letters_confuse_no_two_words() -> None:
    meanings: dict[str, set[str]] = {}
    for spelling, word in units._EXACT_WORDS.items():
        if spelling not in units._CASE_MATTERS:
            meanings.setdefault(spelling.lower(), set()).add(word)
    assert [spelling for spelling, words in meanings.items() if len(words) > 1] == []


@pytest.mark.parametrize("kind", KINDS)
def test_what_an_error_recommends_is_understood(kind: str) -> None:
    read_quantity(KINDS[kind].example, kind)
    for unit in KINDS[kind].allowed.split(", "):
        read_quantity(f"1 {unit}", kind)


@pytest.mark.parametrize("kind", KINDS)
def test_every_unit_of_the_tables_converts(kind: str) -> None:
    for spelling in KINDS[kind].units:
        assert math.isfinite(read_quantity(f"1 {spelling}", kind))


@pytest.mark.parametrize(
    ("value", "kind", "system", "digits", "unit", "printed"),
    [
        (3.5 * IN, "thickness", "ip", None, True, "3.50\u00a0in"),
        (3.5 * IN, "thickness", "si", None, True, "89\u00a0mm"),
        (430 * FT**2, "area", "ip", None, True, "430\u00a0ft²"),
        (21.1111, "temperature", "ip", None, True, "70.0\u00a0°F"),
        (-3.46, "temperature", "si", None, True, "\u22123.5\u00a0°C"),
        (-0.04, "temperature", "si", None, True, "0.0\u00a0°C"),
        (-0.0, "power", "si", None, False, "0"),
        (13 * R_IP, "resistance", "ip", None, True, "13.0\u00a0h·ft²·°F/Btu"),
        (1.0, "u_value", "si", 1, True, "1.0\u00a0W/(m²·K)"),
        (9999.4, "power", "si", None, False, "9999"),
        (9999.5, "power", "si", None, False, "10\u202f000"),
        (-1234567.0, "power", "si", None, False, "\u22121\u202f234\u202f567"),
        (12345.678, "length", "si", 1, False, "12\u202f345.7"),
        (0.14, "price_of_energy", "ip", None, True, "$0.140/kWh"),
        (-0.14, "price_of_energy", "si", 2, True, "\u2212$0.14/kWh"),
        (180.0, "angle", "si", None, True, "180°"),
        (KWH, "energy", "ip", None, True, "1\u00a0kWh"),
        (0.5, "air_change_rate", "ip", None, True, "0.50\u00a0per hour"),
    ],
)
def test_prints(
    value: float, kind: str, system: System, digits: int | None, unit: bool, printed: str
) -> None:
    assert format_quantity(value, kind, system, digits, unit) == printed


def test_display_values_and_labels() -> None:
    assert to_display(5.678263, "u_value", "ip") == pytest.approx(1, rel=1e-6)
    assert to_display(-40, "temperature", "ip") == pytest.approx(-40)
    assert to_display(10, "temperature_difference", "ip") == pytest.approx(18)
    assert unit_label("area", "ip") == "ft²"
    assert unit_label("power", "ip") == "Btu/h"
    assert unit_label("resistance", "ip") == "h·ft²·°F/Btu"
    assert unit_label("u_value", "si") == "W/(m²·K)"


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_does_not_print_what_is_no_number(value: float) -> None:
    with pytest.raises(ValueError, match="cannot be printed"):
        format_quantity(value, "area", "si")


def test_unknown_kind_is_a_mistake_of_the_caller() -> None:
    with pytest.raises(KeyError):
        read_quantity("5 m", "girth")


# Text made of what quantities are made of goes deeper than any text does.
PIECES = st.sampled_from(
    [
        *"0123456789./-+*^()$%,\"' _eE½⅞·²⁻°Δ٣\n\x00\u202f′”{}",
        *("R", "RSI", "U-", " per ", "sq ", "cu ", "deg", "delta_", "nan", "inf", "**"),
        *units._EXACT_WORDS,
    ]
)
TYPED = st.one_of(st.text(max_size=45), st.lists(PIECES, max_size=14).map("".join))


@settings(max_examples=400, deadline=None)
@given(TYPED, st.sampled_from(sorted(KINDS)))
@example("RSİ-2", "resistance")
@example("-" * 40, "length")
@example("((((((((((((((((((((", "area")
@example("5 " + "m" * 38, "length")
@example("5 " + "m*" * 19, "length")
@example("1 1" + " " * 37, "length")
def test_any_text_is_read_or_refused(text: str, kind: str) -> None:
    read_quantity("1 m", "length")
    start = time.process_time()
    with contextlib.suppress(UnitError):
        assert math.isfinite(read_quantity(text, kind))
    assert time.process_time() - start < 10  # a pattern that backtracks would never end


@settings(max_examples=200, deadline=None)
@given(
    st.sampled_from(sorted(KINDS)),
    st.sampled_from(SYSTEMS),
    st.floats(-1e6, 1e6),
    st.integers(0, 6),
)
def test_what_is_printed_can_be_typed(kind: str, system: System, shown: float, digits: int) -> None:
    slope = to_display(1, kind, system) - to_display(0, kind, system)
    value = (shown - to_display(0, kind, system)) / slope
    again = read_quantity(format_quantity(value, kind, system, digits), kind)
    assert to_display(again, kind, system) == pytest.approx(
        to_display(value, kind, system), rel=1e-9, abs=0.5000001 * 10**-digits
    )


def test_a_unit_is_converted_by_the_library_once() -> None:
    read_quantity("1 Btu/(hour*ft^2*delta_degF)", "u_value")
    before = units._line.cache_info().misses
    for number in range(2000):
        read_quantity(f"{number}.25 Btu/(hour*ft^2*delta_degF)", "u_value")
    assert units._line.cache_info().misses == before


def test_importing_loads_no_conversion_library() -> None:
    program = "import sys, server.units; sys.exit('pint' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", program], check=False).returncode == 0
