"""Figures of a sheet as text. Quantities come from `units`; money and shares are written here."""

from __future__ import annotations

from gettext import gettext as _

from server.sheet import Figure
from server.units import System, format_quantity, unit_label

NOT_KNOWN = "–"


def figure_text(figure: Figure, kind: str, system: System) -> str:
    """A figure without its unit, its label R beside it in brackets."""
    if figure.note is not None:
        return figure.note
    if figure.value is None:
        return NOT_KNOWN
    text = number_text(figure.value, kind, system)
    if figure.label is None:
        return text
    return f"{text} ({number_text(figure.label, kind, system)})"


def number_text(value: float, kind: str, system: System) -> str:
    """A number of a kind, without its unit."""
    if kind == "money":
        return f"{value:z,.0f}".replace("-", "\u2212")
    if kind == "share":
        return f"{value * 100:z.0f}".replace("-", "\u2212")
    return format_quantity(value, kind, system, unit=False)


def unit_text(kind: str, system: System) -> str:
    """The unit of a kind, as a heading shows it."""
    if kind == "money":
        return _("USD")
    if kind == "share":
        return "%"
    return unit_label(kind, system)
