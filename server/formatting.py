"""Figures of a sheet as text."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal

from server.sheet import Figure
from server.units import System, format_quantity, unit_label

NOT_KNOWN = "–"


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
