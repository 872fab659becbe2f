"""Figures of a sheet as text."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal
from fractions import Fraction

from server.sheet import Figure
from server.units import N_, System, format_quantity, unit_label

NOT_KNOWN = "–"
MONTHS = (
    N_("January"),
    N_("February"),
    N_("March"),
    N_("April"),
    N_("May"),
    N_("June"),
    N_("July"),
    N_("August"),
    N_("September"),
    N_("October"),
    N_("November"),
    N_("December"),
)
INCH = 0.0254  # m
_LEAST_SIXTEENTH = INCH / 16.0  # m


def figure_text(figure: Figure, kind: str, system: System) -> str:
    """A figure without its unit, its label R beside it in brackets."""
    if figure.note is not None:
        return figure.note
    text = number_text(figure.value, kind, system)
    if figure.label is None:
        return text
    return f"{text} ({number_text(figure.label, kind, system)})"


def number_text(value: float | None, kind: str, system: System, digits: int | None = None) -> str:
    """A number of a kind without its unit; a dash where it is not known."""
    if value is None or kind == "words":
        return NOT_KNOWN
    return format_quantity(value, kind, system, digits, unit=False)


def unit_text(kind: str, system: System) -> str:
    """The unit of a kind, as a heading shows it; words have none."""
    return "" if kind == "words" else unit_label(kind, system)


def time_text(time: datetime) -> str:
    """A time as a person reads it, in UTC."""
    return time.strftime("%Y-%m-%d %H:%M UTC")


def dollars_text(cents: Decimal | int) -> str:
    """Cents as dollars: two decimals, or as many as the rate has."""
    dollars = Decimal(cents) / 100
    shown = f"{dollars.normalize():f}"
    return f"{dollars:.2f}" if len(shown.partition(".")[2]) < 3 else shown


def signed_text(change: float) -> str:
    """A change in per cent with its sign, a true minus; nothing is no change."""
    text = f"{change:+.1f}"
    return "0" if float(text) == 0.0 else text.replace("-", "−")


def inches_text(thickness_in: float) -> str:
    """A thickness to 1/16 in as the trade writes it: 3 5/8 in."""
    whole, rest = divmod(round(thickness_in * 16), 16)
    if not rest:
        return f"{whole} in"
    fraction = Fraction(rest, 16)
    return f"{whole} {fraction} in" if whole else f"{fraction} in"


def thickness_text(thickness: float, system: System) -> str:
    """A thickness as the trade writes it, m: to 1/16 in, or in mm."""
    if system == "ip" and thickness >= _LEAST_SIXTEENTH:
        return inches_text(thickness / INCH)
    if thickness >= _LEAST_SIXTEENTH:
        return format_quantity(thickness, "thickness", system)
    return format_quantity(thickness, "thickness", system, 3 if system == "ip" else 2)
