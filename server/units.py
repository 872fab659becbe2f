"""The one place that reads quantities as people type them and formats the ones they read.

A typed quantity is a number and a unit: `3 1/2"`, `430 ft^2`, `-7 degC`, `R-13`, `$0.14/kWh`.
The number is read here. The unit is taken apart into words, and the words are looked up in the
table of the kind of quantity (`KINDS`), which gives a unit expression written in this file. Only
that expression reaches Pint: nobody's text does.

To allow another unit, add a row to its kind in `KINDS`; another spelling of a word, to `_WORDS`.
"""

import functools
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from gettext import gettext
from typing import TYPE_CHECKING, Final, Literal, NoReturn

if TYPE_CHECKING:
    import pint

System = Literal["ip", "si"]

LONGEST_TEXT: Final = 40
"""Characters a typed quantity may have."""


def N_(sentence: str) -> str:  # noqa: N802  (what tools that collect texts look for)
    """Mark a text for translation where the language of the reader is not known yet."""
    return sentence


# --------------------------------------------------------------------------------------------
# Errors

_SENTENCES: Final[Mapping[str, str]] = {
    "empty": N_("Nothing is written here. Write {kind} like “{example}”."),
    "too_long": N_("“{text}” is too long: a quantity has at most 40 characters."),
    "unprintable": N_("“{text}” contains a line break or another character that cannot be read."),
    "comma": N_("“{text}” has a comma: write 1200, not 1,200, and 3.5, not 3,5."),
    "power": N_("“{text}” has a double star: write a square as ft^2 or ft²."),
    "bad_number": N_(
        "No number can be read from “{text}”. Write it with the digits 0 to 9, "
        "like 12, 3.5, 3/4 or 3 1/2."
    ),
    "not_finite": N_("The number in “{text}” is not one that can be calculated with."),
    "zero_denominator": N_("The fraction in “{text}” divides by zero."),
    "improper_fraction": N_("The fraction after the whole number in “{text}” must be below one."),
    "inches": N_("The inches after the feet in “{text}” must be below 12."),
    "two_numbers": N_("“{text}” has more than one number. Write one, like “{example}”."),
    "after_label": N_("“{text}” says more than its number: write it like “{example}”."),
    "missing_unit": N_(
        "“{text}” has no unit. Write {kind} like “{example}”; understood are {allowed}."
    ),
    "unknown_unit": N_(
        "“{unit}” is not a unit known for {kind}. Understood are {allowed}; "
        "for example “{example}”."
    ),
    "wrong_unit": N_(
        "“{unit}” measures {other}, not {kind}. Understood are {allowed}; for example “{example}”."
    ),
    "temperature_not_difference": N_(
        "“{unit}” is a temperature, and a difference of temperatures is wanted. "
        "Understood are {allowed}; for example “{example}”."
    ),
    "difference_not_temperature": N_(
        "“{unit}” is a difference of temperatures, and a temperature is wanted. "
        "Understood are {allowed}; for example “{example}”."
    ),
}


class UnitError(ValueError):
    """A typed quantity that was refused.

    `code` is a stable slug, a key of `_SENTENCES`. `facts` always holds `text` (as typed, on one
    line), `kind` (a key of `KINDS`), `example` and `allowed`; `unit`, and `other` (a kind), where
    the code is about a unit. `str(error)` is a sentence for a person.
    """

    def __init__(self, code: str, facts: dict[str, str]) -> None:
        super().__init__(code, facts)
        self.code = code
        self.facts = facts

    def __str__(self) -> str:
        names = {
            fact: gettext(KINDS[value].name)
            for fact, value in self.facts.items()
            if fact in ("kind", "other")
        }
        return gettext(_SENTENCES[self.code]).format_map({**self.facts, **names})


# --------------------------------------------------------------------------------------------
# Units: from a spelling to the key of a table

# Left the word used in the tables, right what else people write for it.
_WORDS: Final[Mapping[str, str]] = {
    "m": "meter meters metre metres",
    "cm": "centimeter centimeters centimetre centimetres",
    "mm": "millimeter millimeters millimetre millimetres",
    "in": 'inch inches "',
    "ft": "foot feet '",
    "yd": "yard yards",
    "mi": "mile miles",
    "km": "kilometer kilometers kilometre kilometres",
    "ft2": "sf",
    "ft3": "cf",
    "L": "liter liters litre litres",
    "s": "sec second seconds",
    "min": "minute minutes",
    "h": "hr hrs hour hours",
    "day": "days d",
    "K": "kelvin kelvins degK",
    "degC": "C celsius degreeC degreesC degcelsius degreescelsius",
    "degF": "F fahrenheit degreeF degreesF degfahrenheit degreesfahrenheit",
    "deltadegC": "deltaC deltacelsius deltaK deltadegK deltakelvin",
    "deltadegF": "deltaF deltafahrenheit",
    "deg": "degree degrees",
    "g": "gram grams",
    "kg": "kilogram kilograms kgs kilo kilos",
    "lb": "lbs lbm pound pounds",
    "gr": "grain grains",
    "W": "watt watts",
    "kW": "kilowatt kilowatts",
    "J": "joule joules",
    "kJ": "",
    "MJ": "megajoule megajoules",
    "GJ": "gigajoule gigajoules",
    "Wh": "",
    "kWh": "kilowatthour kilowatthours",
    "MWh": "",
    "Btu": "btus",
    "kBtu": "",
    "MMBtu": "mmbtus",
    "therm": "therms thm",
    "Btuh": "",
    "MBH": "",
    "cfm": "",
    "mph": "",
    "kph": "kmh",
    "fpm": "",
    "knot": "knots kn kt kts",
    "pcf": "",
    "psf": "",
    "psi": "",
    "Pa": "pascal pascals",
    "perm": "perms",
    "ng": "",
    "inHg": "",
    "kPa": "",
    "ach": "",
    "air": "",
    "change": "changes",
    "percent": "%",
    "USD": "$ US$ dollar dollars",
    "cent": "cents ¢",
    "CO": "",
    "e": "eq",
    # Written together, as in W/mK or J/kgK. None of the first words stands in a table by itself,
    # so the millikelvin is not mistaken for anything.
    "m K": "mK",
    "kg K": "kgK",
    "lb degF": "lbF",
}
# A small m in these would be another unit, so they are understood only as spelled.
_CASE_MATTERS: Final = frozenset({"MJ", "MWh"})
# Within a composite unit a temperature can only be a difference: Btu/(h·ft²·°F).
_IN_COMPOSITE: Final = {"deltadegF": "degF", "deltadegC": "K", "degC": "K"}


def _words_by_spelling() -> tuple[dict[str, str], dict[str, str]]:
    """Table word by spelling: as spelled, and in small letters where that is safe."""
    exact: dict[str, str] = {}
    for word, others in _WORDS.items():
        exact |= dict.fromkeys(([] if " " in word else [word]) + others.split(), word)
    small = {k.lower(): w for k, w in exact.items() if k not in _CASE_MATTERS}
    return exact, small


_EXACT_WORDS, _SMALL_WORDS = _words_by_spelling()

_UNIT_SIGNS: Final = str.maketrans(
    dict.fromkeys("·⋅∙•×", "*")
    | dict.fromkeys("°º˚", "deg")
    | dict.fromkeys("Δ∆", "delta")
    | {"²": "2", "³": "3", "¹": "1", "⁻": "-", "₂": "2", "℃": "degC", "℉": "degF"}
)
# In this order; every pattern is linear in the text.
_UNIT_REWRITES: Final = tuple(
    (re.compile(pattern, re.IGNORECASE | re.ASCII), replacement)
    for pattern, replacement in (
        (r"(delta|degrees?|deg)[ _.]+(?=[a-z])", r"\1"),  # deg F, delta_degF
        (r"\b(?:square|sq)[. ]*([a-z]+)", r"\g<1>2"),  # sq ft, sq. ft.
        (r"\b(?:cubic|cu)[. ]*([a-z]+)", r"\g<1>3"),
        (r"\bper\b", "/"),
        (r"\.(?=$|[ /)*])", ""),  # in., ft.
        (r"\.|-(?=[a-z])", "*"),  # W/m.K, h-ft2-F/Btu
        (r" *([/*^()]) *", r"\1"),
        (r"\)\(", "*"),  # Btu/(h)(ft²)(°F)
        (r" +", "*"),
        (r"\^(?=-?[123])", ""),
    )
)
_FACTOR: Final = re.compile(r"""([A-Za-z]+\$?|[$¢%'"])(-[123]|[23])?""")


def _factors(group: str) -> list[tuple[str, int]] | None:
    """Words of `h*ft2*degF` with their powers; None where one is not known."""
    if group.startswith("(") and group.endswith(")"):
        group = group[1:-1]
    if _FACTOR.sub("", group).strip("*") or not all(group.split("*")):
        return None
    found = []
    for spelling, power in _FACTOR.findall(group):
        words = _EXACT_WORDS.get(spelling) or _SMALL_WORDS.get(spelling.lower())
        if words is None:
            return None
        *before, last = words.split()
        if power and (last[-1].isdigit() or not spelling.isalpha()):  # no sf2, no "2
            return None
        found += [(word, 1) for word in before] + [(last, int(power or 1))]
    return found


@functools.lru_cache(maxsize=2048)
def _unit_key(spelling: str) -> str | None:
    """One key for all the ways to write a unit, None where a word is not known.

    As in the trade, everything after the first stroke is below it: `Btu/h·ft²·°F`,
    `Btu/(hr ft2 F)` and `Btu/hour/ft^2/delta_degF` all give `Btu/degF*ft2*h`. A reading that would
    make another unit of it is in no table.
    """
    unit = spelling.strip().translate(_UNIT_SIGNS)
    for pattern, replacement in _UNIT_REWRITES:
        unit = pattern.sub(replacement, unit)
    top, *bottoms = unit.split("/")
    factors: list[tuple[str, int]] = []
    for sign, group in ((1, top), *((-1, bottom) for bottom in bottoms)):
        if sign == 1 and bottoms and group in ("", "1"):  # /h, 1/h
            continue
        read = _factors(group)
        if read is None:
            return None
        factors += [(word, sign * power) for word, power in read]
    if len(factors) > 1:
        factors = [(_IN_COMPOSITE.get(word, word), power) for word, power in factors]
    above = sorted(word + (str(power) if power > 1 else "") for word, power in factors if power > 0)
    below = sorted(
        word + (str(-power) if power < -1 else "") for word, power in factors if power < 0
    )
    return "*".join(above) + "/" + "*".join(below)


# --------------------------------------------------------------------------------------------
# Kinds of quantity


@dataclass(frozen=True)
class Display:
    """How a kind is printed in one system: the unit as printed and the usual decimals."""

    label: str
    digits: int


@dataclass(frozen=True)
class Kind:
    """A kind of quantity: what is understood for it and how it is printed.

    `base` and the values of `units` are Pint expressions; the keys of `units` are spellings, each
    of which stands for all that `_unit_key` reads the same. `labels` are the prefixes that carry
    the unit, as in R-13. `allowed` and `example` go into error sentences.
    """

    name: str
    base: str
    units: Mapping[str, str]
    ip: Display
    si: Display
    allowed: str
    example: str
    labels: Mapping[str, str] = field(default_factory=dict)
    by_key: Mapping[str, str] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        by_key: dict[str, str] = {}
        for spelling, expression in self.units.items():
            key = _unit_key(spelling)
            if key is None or by_key.setdefault(key, expression) != expression:
                raise ValueError(f"unit table of {self.name}: {spelling!r} cannot be told apart")
        object.__setattr__(self, "by_key", by_key)

    def display(self, system: System) -> Display:
        """How this kind is printed in a system."""
        return self.ip if system == "ip" else self.si


def _ratios(tops: Mapping[str, str], bottoms: Mapping[str, str]) -> dict[str, str]:
    """Every top over every bottom."""
    return {
        f"{top}/{bottom}": f"{above}/{below}"
        for top, above in tops.items()
        for bottom, below in bottoms.items()
    }


# What is relied on in Pint: `Btu_it` is the International-Table Btu, 1055.05585262 J exactly, so
# that 1 Btu_it/(h·ft²·°F) = 5.678263 W/(m²·K); Pint's plain `Btu` (1055.056 J) and `therm`
# (29.3071 kWh) are others. `US_therm` is 105 480 400 J = 29.3001 kWh, the therm of a gas bill.
# MMBtu is a million Btu; MBtu, a thousand to some and a million to others, is not understood.
_ENERGIES: Final = {
    "kWh": "kilowatt_hour",
    "MWh": "megawatt_hour",
    "therm": "US_therm",
    "MMBtu": "megaBtu_it",
    "MJ": "megajoule",
    "GJ": "gigajoule",
}
_LENGTHS: Final = {
    "m": "meter",
    "cm": "centimeter",
    "mm": "millimeter",
    "in": "inch",
    "ft": "foot",
    "yd": "yard",
}
_PER_LENGTH: Final = {
    "W/(m*K)": "watt/(meter*kelvin)",
    "Btu/(h*ft*degF)": "Btu_it/(hour*foot*delta_degF)",
}
_DAILY: Final = {
    "MJ/m^2": "megajoule/meter**2",
    "kJ/m^2": "kilojoule/meter**2",
    "J/m^2": "joule/meter**2",
    "kWh/m^2": "kilowatt_hour/meter**2",
    "Wh/m^2": "watt_hour/meter**2",
    "Btu/ft^2": "Btu_it/foot**2",
}
_MASSES: Final = {"kg": "kilogram", "g": "gram", "lb": "pound"}
_CARBON_MASSES: Final = {
    mass + of: unit for mass, unit in _MASSES.items() for of in ("", "*CO2", "*CO2*e")
}
_U_VALUE_IP: Final = "Btu_it/(hour*foot**2*delta_degF)"
_U_VALUE_SI: Final = "watt/(meter**2*kelvin)"
_RESISTANCE_IP: Final = "hour*foot**2*delta_degF/Btu_it"
_RESISTANCE_SI: Final = "meter**2*kelvin/watt"

# The first kind that knows a unit names it in an error, so plain kinds stand before derived ones.
KINDS: Final[Mapping[str, Kind]] = {
    "length": Kind(
        name=N_("a length"),
        base="meter",
        units=_LENGTHS,
        ip=Display("ft", 2),
        si=Display("m", 2),
        allowed="ft, in, yd, m, cm, mm",
        example="12.5 ft",
    ),
    # A length that is printed small.
    "thickness": Kind(
        name=N_("a thickness"),
        base="meter",
        units=_LENGTHS,
        ip=Display("in", 2),
        si=Display("mm", 0),
        allowed="in, ft, mm, cm, m",
        example="3 1/2 in",
    ),
    "area": Kind(
        name=N_("an area"),
        base="meter**2",
        units={f"{unit}^2": f"{expression}**2" for unit, expression in _LENGTHS.items()},
        ip=Display("ft²", 0),
        si=Display("m²", 1),
        allowed="ft², sq ft, in², m², cm², mm²",
        example="430 ft²",
    ),
    "volume": Kind(
        name=N_("a volume"),
        base="meter**3",
        units={"m^3": "meter**3", "ft^3": "foot**3", "yd^3": "yard**3", "L": "liter"},
        ip=Display("ft³", 0),
        si=Display("m³", 1),
        allowed="ft³, cu ft, yd³, m³, L",
        example="13600 ft³",
    ),
    "opening_area": Kind(
        name=N_("an opening area per length"),
        base="meter**2/meter",
        units={
            "mm^2/m": "millimeter**2/meter",
            "cm^2/m": "centimeter**2/meter",
            "m^2/m": "meter**2/meter",
            "in^2/ft": "inch**2/foot",
        },
        ip=Display("in²/ft", 2),
        si=Display("mm²/m", 0),
        allowed="in²/ft, mm²/m, cm²/m, m²/m",
        example="1500 mm²/m",
    ),
    # The base is °C, not K.
    "temperature": Kind(
        name=N_("a temperature"),
        base="degC",
        units={"degC": "degC", "degF": "degF", "K": "kelvin"},
        ip=Display("°F", 1),
        si=Display("°C", 1),
        allowed="°F, degF, °C, degC, K",
        example="70 °F",
    ),
    "temperature_difference": Kind(
        name=N_("a temperature difference"),
        base="kelvin",
        units={"delta_degC": "delta_degC", "delta_degF": "delta_degF", "K": "kelvin"},
        ip=Display("Δ°F", 1),
        si=Display("K", 1),
        allowed="delta_degF, Δ°F, delta_degC, Δ°C, K",
        example="20 delta_degF",
    ),
    "power": Kind(
        name=N_("a power"),
        base="watt",
        units={
            "W": "watt",
            "kW": "kilowatt",
            "Btu/h": "Btu_it/hour",
            "Btuh": "Btu_it/hour",
            "kBtu/h": "kiloBtu_it/hour",
            "MBH": "kiloBtu_it/hour",
        },
        ip=Display("Btu/h", 0),
        si=Display("W", 0),
        allowed="Btu/h, kBtu/h, W, kW",
        example="24000 Btu/h",
    ),
    # Printed in kWh in both systems, because bills and fuels are compared in one unit.
    "energy": Kind(
        name=N_("an amount of energy"),
        base="joule",
        units=_ENERGIES
        | {
            "kW*h": "kilowatt_hour",
            "Wh": "watt_hour",
            "J": "joule",
            "kJ": "kilojoule",
            "kBtu": "kiloBtu_it",
            "Btu": "Btu_it",
        },
        ip=Display("kWh", 0),
        si=Display("kWh", 0),
        allowed="kWh, therm, MMBtu, kBtu, Btu, MJ, GJ",
        example="850 therm",
    ),
    "conductivity": Kind(
        name=N_("a thermal conductivity"),
        base="watt/(meter*kelvin)",
        units=_PER_LENGTH | {"Btu*in/(h*ft^2*degF)": "Btu_it*inch/(hour*foot**2*delta_degF)"},
        ip=Display("Btu/(h·ft·°F)", 4),
        si=Display("W/(m·K)", 3),
        allowed="W/(m·K), Btu/(h·ft·°F), Btu·in/(h·ft²·°F)",
        example="0.035 W/(m·K)",
    ),
    # The psi-value of a junction.
    "linear_transmittance": Kind(
        name=N_("a linear thermal transmittance"),
        base="watt/(meter*kelvin)",
        units=_PER_LENGTH,
        ip=Display("Btu/(h·ft·°F)", 3),
        si=Display("W/(m·K)", 3),
        allowed="W/(m·K), Btu/(h·ft·°F)",
        example="0.15 W/(m·K)",
    ),
    # A bare Btu, and the U of a window label, are inch-pound.
    "u_value": Kind(
        name=N_("a U-value"),
        base=_U_VALUE_SI,
        units={
            "W/(m^2*K)": _U_VALUE_SI,
            "Btu/(h*ft^2*degF)": _U_VALUE_IP,
            "Btu": _U_VALUE_IP,
        },
        ip=Display("Btu/(h·ft²·°F)", 3),
        si=Display("W/(m²·K)", 3),
        allowed="Btu/(h·ft²·°F), W/(m²·K), Btu",
        example="U-0.35",
        labels={"U": _U_VALUE_IP, "USI": _U_VALUE_SI},
    ),
    # The R of an insulation label is inch-pound.
    "resistance": Kind(
        name=N_("a thermal resistance"),
        base=_RESISTANCE_SI,
        units={"m^2*K/W": _RESISTANCE_SI, "h*ft^2*degF/Btu": _RESISTANCE_IP},
        ip=Display("h·ft²·°F/Btu", 1),
        si=Display("m²·K/W", 2),
        allowed="h·ft²·°F/Btu, m²·K/W",
        example="R-13",
        labels={"R": _RESISTANCE_IP, "RSI": _RESISTANCE_SI},
    ),
    "conductance": Kind(
        name=N_("a thermal conductance"),
        base="watt/kelvin",
        units={"W/K": "watt/kelvin", "Btu/(h*degF)": "Btu_it/(hour*delta_degF)"},
        ip=Display("Btu/(h·°F)", 1),
        si=Display("W/K", 1),
        allowed="Btu/(h·°F), W/K",
        example="410 Btu/(h·°F)",
    ),
    "flow": Kind(
        name=N_("an air flow"),
        base="meter**3/second",
        units={
            "m^3/s": "meter**3/second",
            "m^3/h": "meter**3/hour",
            "L/s": "liter/second",
            "ft^3/min": "foot**3/minute",
            "cfm": "foot**3/minute",
        },
        ip=Display("cfm", 0),
        si=Display("L/s", 1),
        allowed="cfm, ft³/minute, L/s, m³/s, m³/h",
        example="60 cfm",
    ),
    # The base is per hour, not per second.
    "count_per_area": Kind(
        name=N_("a number per area"),
        base="1/meter**2",
        units={"1/m^2": "1/meter**2", "1/ft^2": "1/foot**2"},
        ip=Display("per ft²", 2),
        si=Display("per m²", 1),
        allowed="per ft², 1/ft², per m², 1/m²",
        example="0.56 per ft²",
    ),
    "cross_section": Kind(
        name=N_("a cross-section"),
        base="meter**2",
        units={
            "mm^2": "millimeter**2",
            "cm^2": "centimeter**2",
            "in^2": "inch**2",
        },
        ip=Display("in²", 3),
        si=Display("mm²", 1),
        allowed="in², mm², cm²",
        example="0.028 in²",
    ),
    "air_change_rate": Kind(
        name=N_("an air change rate"),
        base="1/hour",
        units={
            "1/h": "1/hour",
            "ach": "1/hour",
            "change/h": "1/hour",
            "air change/h": "1/hour",
        },
        ip=Display("per hour", 2),
        si=Display("per hour", 2),
        allowed="per hour, 1/hour, /h, ach",
        example="0.5 per hour",
    ),
    "speed": Kind(
        name=N_("a speed"),
        base="meter/second",
        units={
            "m/s": "meter/second",
            "km/h": "kilometer/hour",
            "kph": "kilometer/hour",
            "mph": "mile/hour",
            "mi/h": "mile/hour",
            "ft/s": "foot/second",
            "ft/min": "foot/minute",
            "fpm": "foot/minute",
            "knot": "knot",
        },
        ip=Display("mph", 1),
        si=Display("m/s", 1),
        allowed="mph, ft/s, m/s, km/h, knot",
        example="7.5 mph",
    ),
    # The sum of a mean day.
    "irradiation": Kind(
        name=N_("a daily irradiation"),
        base="joule/meter**2",
        units=_DAILY | {f"{unit}/day": expression for unit, expression in _DAILY.items()},
        ip=Display("Btu/(ft²·day)", 0),
        si=Display("MJ/(m²·day)", 1),
        allowed="Btu/ft², MJ/m², kWh/m², Wh/m²",
        example="14 MJ/m²",
    ),
    "angle": Kind(
        name=N_("an angle"),
        base="degree",
        units={"deg": "degree"},
        ip=Display("°", 0),
        si=Display("°", 0),
        allowed="°, deg",
        example="35 deg",
    ),
    "price_of_energy": Kind(
        name=N_("a price of energy"),
        base="USD/kilowatt_hour",
        units=_ratios({"USD": "USD", "cent": "US_cent"}, _ENERGIES),
        ip=Display("$/kWh", 3),
        si=Display("$/kWh", 3),
        allowed="$/kWh, USD/kWh, ¢/kWh, $/therm, $/MMBtu, $/MJ, $/GJ",
        example="0.14 USD/kWh",
    ),
    # Mass of carbon dioxide.
    "carbon_of_energy": Kind(
        name=N_("a carbon intensity of energy"),
        base="kilogram/kilowatt_hour",
        units=_ratios(_CARBON_MASSES, _ENERGIES),
        ip=Display("lb/kWh", 3),
        si=Display("kg/kWh", 3),
        allowed="kg/kWh, g/kWh, lb/kWh, lb/MMBtu, lb/therm, kg/therm, kg/MJ, kg/GJ",
        example="0.39 kg/kWh",
    ),
    "density": Kind(
        name=N_("a density"),
        base="kilogram/meter**3",
        units={
            "kg/m^3": "kilogram/meter**3",
            "lb/ft^3": "pound/foot**3",
            "pcf": "pound/foot**3",
        },
        ip=Display("lb/ft³", 1),
        si=Display("kg/m³", 0),
        allowed="lb/ft³, pcf, kg/m³",
        example="3.5 lb/ft³",
    ),
    "specific_heat": Kind(
        name=N_("a specific heat"),
        base="joule/(kilogram*kelvin)",
        units={
            "J/(kg*K)": "joule/(kilogram*kelvin)",
            "kJ/(kg*K)": "kilojoule/(kilogram*kelvin)",
            "Btu/(lb*degF)": "Btu_it/(pound*delta_degF)",
        },
        ip=Display("Btu/(lb·°F)", 2),
        si=Display("J/(kg·K)", 0),
        allowed="Btu/(lb·°F), J/(kg·K), kJ/(kg·K)",
        example="0.24 Btu/(lb·°F)",
    ),
    # Water to dry air.
    "humidity_ratio": Kind(
        name=N_("a humidity ratio"),
        base="kilogram/kilogram",
        units={
            "kg/kg": "kilogram/kilogram",
            "g/kg": "gram/kilogram",
            "gr/lb": "grain/pound",
            "lb/lb": "pound/pound",
        },
        ip=Display("gr/lb", 1),
        si=Display("g/kg", 1),
        allowed="gr/lb, lb/lb, g/kg, kg/kg",
        example="9.3 g/kg",
    ),
    "pressure": Kind(
        name=N_("a pressure"),
        base="pascal",
        units={
            "Pa": "pascal",
            "kPa": "kilopascal",
            "psi": "force_pound/inch**2",
            "psf": "force_pound/foot**2",
        },
        ip=Display("psi", 1),
        si=Display("kPa", 1),
        allowed="psi, psf, kPa, Pa",
        example="25 psi",
    ),
    # Small, and in Pa whatever the system's other pressures are in.
    "vapour_pressure": Kind(
        name=N_("a vapour pressure"),
        base="pascal",
        units={"Pa": "pascal", "kPa": "kilopascal", "inHg": "inch_Hg"},
        ip=Display("inHg", 3),
        si=Display("Pa", 0),
        allowed="inHg, Pa, kPa",
        example="1200 Pa",
    ),
    # Of a layer to water vapour. The perm of the trade is a grain an hour, ft² and inch of mercury.
    "permeance": Kind(
        name=N_("a vapour permeance"),
        base="kilogram/(second*meter**2*pascal)",
        units={
            "perm": "grain/(hour*foot**2*inch_Hg)",
            "ng/(s*m^2*Pa)": "nanogram/(second*meter**2*pascal)",
        },
        ip=Display("perm", 1),
        si=Display("ng/(s·m²·Pa)", 0),
        allowed="perm, ng/(s·m²·Pa)",
        example="1 perm",
    ),
    "mass_per_area": Kind(
        name=N_("a mass per area"),
        base="kilogram/meter**2",
        units={"kg/m^2": "kilogram/meter**2", "lb/ft^2": "pound/foot**2"},
        ip=Display("lb/ft²", 2),
        si=Display("kg/m²", 2),
        allowed="lb/ft², kg/m²",
        example="2 lb/ft²",
    ),
    "mass": Kind(
        name=N_("a mass"),
        base="kilogram",
        units=_MASSES,
        ip=Display("lb", 1),
        si=Display("kg", 1),
        allowed="lb, kg, g",
        example="25 lb",
    ),
    # Gas is sold by the therm where feet are used, by the kWh elsewhere.
    "gas_energy": Kind(
        name=N_("an energy"),
        base="joule",
        units=_ENERGIES,
        ip=Display("therm", 0),
        si=Display("kWh", 0),
        allowed="therm, kWh, MMBtu, MJ, GJ",
        example="850 therm",
    ),
    # Carbon dioxide of a year.
    "carbon_mass": Kind(
        name=N_("a mass"),
        base="kilogram",
        units=_MASSES,
        ip=Display("lb", 0),
        si=Display("kg", 0),
        allowed="lb, kg, g",
        example="2500 lb",
    ),
    "money": Kind(
        name=N_("a sum of money"),
        base="USD",
        units={"USD": "USD"},
        ip=Display("USD", 0),
        si=Display("USD", 0),
        allowed="USD, $",
        example="120 USD",
    ),
    "share": Kind(
        name=N_("a share"),
        base="dimensionless",
        units={"%": "percent"},
        ip=Display("%", 0),
        si=Display("%", 0),
        allowed="%",
        example="75 %",
    ),
}


# --------------------------------------------------------------------------------------------
# Conversion


@functools.cache
def _registry() -> "pint.UnitRegistry[float]":
    """Pint's units and the dollar, loaded at the first conversion.

    Importing Pint and building its registry takes some tenths of a second, once. Pint's cache on
    disk is left off: reading a quantity writes no file.
    """
    import pint

    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    registry.define("USD = [currency]")
    registry.define("US_cent = 0.01 USD")
    return registry


@functools.cache
def _line(expression: str, base: str) -> tuple[float, float]:
    """Slope and offset of the straight line that takes a unit to the base unit."""
    convert = _registry().convert
    # Far from zero the offset of °F takes no digits from the slope; a power of two adds no error.
    far = 2.0**20
    offset = float(convert(0.0, expression, base))
    return (float(convert(far, expression, base)) - offset) / far, offset


def _to_base(number: float, expression: str, base: str) -> float:
    slope, offset = _line(expression, base)
    return number * slope + offset


# --------------------------------------------------------------------------------------------
# Reading

_TEXT_SIGNS: Final = str.maketrans(
    dict.fromkeys("\u2010\u2011\u2012\u2013\u2212", "-")  # hyphens, en dash, minus sign
    | dict.fromkeys("\u2018\u2019\u2032\u00b4", "'")
    | dict.fromkeys("\u201c\u201d\u2033", '"')
    | dict.fromkeys("\u00a0\u2007\u2009\u202f\t", " ")
    | {"\u2044": "/"}  # fraction slash
)
_GROUPED: Final = re.compile(r"(?<=[0-9])[\u2009\u202f](?=[0-9]{3}(?!/?[0-9]))")  # as printed

_VULGAR: Final = {
    "½": (1, 2),
    "¼": (1, 4),
    "¾": (3, 4),
    "⅛": (1, 8),
    "⅜": (3, 8),
    "⅝": (5, 8),
    "⅞": (7, 8),
    "⅓": (1, 3),
    "⅔": (2, 3),
}
_VULGAR_SIGNS: Final = "".join(_VULGAR)
_UNSIGNED: Final = (
    rf"(?:[0-9]+(?: +|-)[0-9]+/[0-9]+|[0-9]+/[0-9]+|(?:[0-9]+[ -]?)?[{_VULGAR_SIGNS}]"
    r"|(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][-+]?[0-9]+)?)"
)
_NUMBER: Final = re.compile(rf"[-+]?{_UNSIGNED}")
_PARTS: Final = re.compile(
    rf"(?:([0-9]+)(?:[ -]+|(?=[{_VULGAR_SIGNS}])))?(?:([0-9]+)/([0-9]+)|([{_VULGAR_SIGNS}]))"
)
_FEET_AND_INCHES: Final = re.compile(
    rf"([-+]?)([0-9]+) *(?:feet|foot|ft\.?|') *-? *({_UNSIGNED}) *(?:inches|inch|in\.?|\")",
    re.IGNORECASE | re.ASCII,
)
_LABEL: Final = re.compile(r"(RSI|R|USI|U)(?: *- *| *)(?![-+a-z])", re.IGNORECASE | re.ASCII)
_DOLLAR: Final = re.compile(rf"^([-+]?)(?:US)?\$ *({_UNSIGNED})")


class _Refused(Exception):
    """Code and further facts of a refusal, on the way to the place that knows text and kind."""

    def __init__(self, code: str, **facts: str) -> None:
        super().__init__(code)
        self.code = code
        self.facts = facts


def _value(number: str) -> float:
    """The value of a number that `_NUMBER` matched."""
    sign = -1.0 if number.startswith("-") else 1.0
    digits = number.lstrip("+-")
    parts = _PARTS.fullmatch(digits)
    if parts is None:
        value = float(digits)
        if not math.isfinite(value):
            raise _Refused("not_finite")
        return sign * value
    whole, above, below, vulgar = parts.groups()
    top, bottom = _VULGAR[vulgar] if vulgar else (int(above), int(below))
    if bottom == 0:
        raise _Refused("zero_denominator")
    if whole and top >= bottom:
        raise _Refused("improper_fraction")
    return sign * (int(whole or 0) + top / bottom)


def _cleaned(text: str) -> str:
    """The text with one spelling for each sign; refuses what no quantity contains."""
    if len(text) > LONGEST_TEXT:
        raise _Refused("too_long")
    clean = _GROUPED.sub("", text).translate(_TEXT_SIGNS).strip().replace("''", '"')
    if not clean:
        raise _Refused("empty")
    if not clean.isprintable():
        raise _Refused("unprintable")
    if "," in clean:
        raise _Refused("comma")
    if "**" in clean:
        raise _Refused("power")
    return _DOLLAR.sub(r"\1\2 $", clean)


def _split(clean: str) -> tuple[float, str]:
    """The number at the beginning and the text after it."""
    match = _NUMBER.match(clean)
    if match is None:
        letters = clean.lstrip("+-").lower()
        raise _Refused("not_finite" if letters.startswith(("nan", "inf")) else "bad_number")
    rest = clean[match.end() :]
    if re.match(r"[xX_.][0-9]", rest):  # 0x10, 1_000, 1.2.3
        raise _Refused("bad_number")
    return _value(match[0]), rest.strip()


def _refuse_unit(unit: str, key: str | None, kind: str) -> NoReturn:
    """Say what is wrong with a unit that the kind does not know."""
    if key is None and re.search(r"(?<![A-Za-z^0-9])[0-9]", unit):
        raise _Refused("two_numbers")
    other = next((slug for slug, entry in KINDS.items() if key in entry.by_key), None)
    match kind, other:
        case _, None:
            raise _Refused("unknown_unit", unit=unit)
        case "temperature", "temperature_difference":
            raise _Refused("difference_not_temperature", unit=unit)
        case "temperature_difference", "temperature":
            raise _Refused("temperature_not_difference", unit=unit)
        case _, str():
            raise _Refused("wrong_unit", unit=unit, other=other)


def _unit_expression(unit: str, kind: str) -> str:
    """The Pint expression of a typed unit."""
    if not unit:
        raise _Refused("missing_unit")
    key = _unit_key(unit)
    expression = KINDS[kind].by_key.get(key or "")
    return expression or _refuse_unit(unit, key, kind)


def _label_expression(label: str, kind: str) -> str:
    """The Pint expression of the R in R-13."""
    if label in KINDS[kind].labels:
        return KINDS[kind].labels[label]
    other = next(slug for slug, entry in KINDS.items() if label in entry.labels)
    raise _Refused("wrong_unit", unit=label, other=other)


def _read(text: str, kind: str) -> float:
    """The value in base units; the three forms a quantity is written in."""
    clean = _cleaned(text)
    base = KINDS[kind].base
    if label := _LABEL.match(clean):
        expression = _label_expression(label[1].upper(), kind)
        number, rest = _split(clean[label.end() :])
        if rest:
            raise _Refused("after_label")
        return _to_base(number, expression, base)
    if base == "meter" and (compound := _FEET_AND_INCHES.fullmatch(clean)):
        sign, feet, inches = compound.groups()
        if _value(inches) >= 12:
            raise _Refused("inches")
        return _to_base(float(f"{sign}1") * (12 * int(feet) + _value(inches)), "inch", base)
    number, unit = _split(clean)
    return _to_base(number, _unit_expression(unit, kind), base)


def _on_one_line(text: str) -> str:
    """A text as it can stand in a sentence."""
    return "".join(
        sign if sign.isprintable() else " " if sign.isspace() else "\ufffd" for sign in text
    )


def read_quantity(text: str, kind: str) -> float:
    """Read a typed quantity into the base unit of its kind.

    Args:
        text: number and unit, at most 40 characters: decimal (`3.5`), fraction (`3/4`, `¾`), mixed
            (`3 1/2`, `3-1/2`, `3½`), feet and inches (`8' 6"`) for a length, a label (`R-13`,
            `RSI-2.3`, `U-0.35`), a leading dollar sign (`$0.14/kWh`).
        kind: a key of `KINDS`, where the base unit stands beside each; SI, but `temperature` in °C
            (not K), `air_change_rate` per hour (not per second), `angle` in degrees,
            `price_of_energy` in USD/kWh, `carbon_of_energy` in kg/kWh, `irradiation` in J/m² a day.

    Returns:
        A finite number. Whether it is possible for the thing it belongs to (a negative length) is
        for the thing to judge.

    Raises:
        UnitError: the text is not a quantity of this kind.
        KeyError: there is no such kind.
    """
    entry = KINDS[kind]
    try:
        value = _read(text, kind)
        if not math.isfinite(value):
            raise _Refused("not_finite")
    except _Refused as refused:
        shown = text if len(text) <= LONGEST_TEXT else text[:LONGEST_TEXT] + "…"
        facts = {
            "text": _on_one_line(shown),
            "kind": kind,
            "allowed": entry.allowed,
            "example": entry.example,
        }
        raise UnitError(refused.code, facts | refused.facts) from None
    return value


# --------------------------------------------------------------------------------------------
# Printing


def to_display(value: float, kind: str, system: System) -> float:
    """A value in the base unit of its kind, as a number in the unit it is printed in.

    Raises:
        ValueError: the value is not finite.
        KeyError: there is no such kind.
    """
    if not math.isfinite(value):
        raise ValueError(f"{value} cannot be printed as {kind}")
    entry = KINDS[kind]
    key = _unit_key(entry.display(system).label)
    slope, offset = _line(entry.by_key[key or ""], entry.base)
    return (value - offset) / slope


def unit_label(kind: str, system: System) -> str:
    """The unit a kind is printed in, as printed; `read_quantity` understands it."""
    return KINDS[kind].display(system).label


def format_quantity(
    value: float, kind: str, system: System, digits: int | None = None, unit: bool = True
) -> str:
    """A value in the base unit of its kind, printed: `430 ft²`, `−3.5 °C`, `$0.140/kWh`.

    Args:
        value: finite, in the base unit of `kind` (see `read_quantity`).
        kind: a key of `KINDS`.
        system: inch-pound or SI.
        digits: decimals; those usual for the kind when left out.
        unit: whether the unit is printed too.

    A number of five or more digits before the point is grouped by narrow no-break spaces
    (12 000), a negative one has the minus sign U+2212, and zero has no sign.

    Raises:
        ValueError: the value is not finite.
        KeyError: there is no such kind.
    """
    display = KINDS[kind].display(system)
    decimals = display.digits if digits is None else digits
    grouped = f"{to_display(value, kind, system):z,.{decimals}f}"
    separator = "\u202f" if len(grouped.partition(".")[0].lstrip("-")) > len("9,999") else ""
    number = grouped.replace(",", separator).replace("-", "\u2212")
    if not unit:
        return number
    label = display.label
    if label.startswith("$"):
        minus = number[: number.startswith("\u2212")]
        return f"{minus}${number.removeprefix(minus)}{label[1:]}"
    return f"{number}{label}" if label == "°" else f"{number}\u00a0{label}"
