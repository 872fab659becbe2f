"""A small price book with rates that are easy to work with by hand."""

from decimal import Decimal

from server.pricing.book import PriceBook, PriceLine


def line(matches, unit, material="0", labour="0", minimum=0, reason="insulation", **keys):
    """A price line called as what it matches."""
    return PriceLine(
        key=keys.get("key", matches.replace(" ", "-")),
        name=keys.get("name", matches.capitalize()),
        matches=matches,
        unit=unit,
        material_cents=Decimal(material),
        labour_cents=Decimal(labour),
        minimum_cents=minimum,
        reason=reason,
        note=keys.get("note", "invented price"),
    )


def book(*lines):
    """A book of these lines."""
    return PriceBook(1, lines)
