"""The form of one line of the price book: dollars as people write them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from gettext import gettext as _
from typing import cast

from starlette.datastructures import FormData

from server.pages.form_texts import text_of
from server.pricing.book import REASONS, BadPrice, PriceLine, Reason

_DOLLARS = re.compile(r"\$?\s?([0-9]{1,7})(\.[0-9]{1,6})?", re.ASCII)
FIELDS = ("material", "labour", "minimum")


@dataclass(frozen=True, slots=True)
class PriceForm:
    """A line as typed, and what was wrong with it, by field."""

    key: str
    values: Mapping[str, str]
    faults: Mapping[str, str] = field(default_factory=dict)


def changed_line(line: PriceLine, form: FormData) -> PriceLine | PriceForm:
    """The line as the form says, or the form back with what was wrong."""
    values = {name: text_of(form, name) for name in (*FIELDS, "reason")}
    faults: dict[str, str] = {}
    cents: dict[str, Decimal] = {}
    for name in FIELDS:
        match = _DOLLARS.fullmatch(values[name])
        if match is None:
            faults[name] = _("Write dollars, like 1.85.")
        else:
            cents[name] = Decimal(match[1] + (match[2] or "")) * 100
    if cents.get("minimum", Decimal(0)) % 1:
        faults["minimum"] = _("Write whole cents.")
    if values["reason"] not in REASONS:
        faults["reason"] = _("Choose one of the three.")
    if faults:
        return PriceForm(line.key, values, faults)
    try:
        priced = replace(
            line,
            material_cents=cents["material"].normalize(),
            labour_cents=cents["labour"].normalize(),
            minimum_cents=int(cents["minimum"]),
        )
        own = line if priced == line else priced.as_own()
        return replace(own, reason=cast("Reason", values["reason"]))
    except BadPrice as refusal:
        name = refusal.field.removesuffix("_cents")
        return PriceForm(line.key, values, {name: str(refusal)})
