"""Frozen offers for tests."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from server.files.building import build_survey
from server.files.house_file import HouseFile
from server.offers.offer import Content, Senders, Versions, freeze
from server.pricing.book import PriceBook
from server.pricing.book_file import seed_price_book
from server.pricing.estimate import price
from server.pricing.takeoff import take_off
from tests.conftest import ROOT

FORMAT_1 = ROOT / "tests" / "offers" / "offer-format-1.json"
SENT = datetime(2031, 3, 1, 12, 0, tzinfo=UTC)
SENDERS = Senders("Invented Remodelling", "Cory Invented", "ip")
VERSIONS = Versions(house=1, price_book=1, region=None, invented_prices=True)


def frozen(file: HouseFile, book: PriceBook | None = None, note: str = "A note.") -> Content:
    """An offer of a house."""
    project = build_survey(file).project
    prices = book or seed_price_book()
    estimates = {
        entry.name: price(take_off(project, entry), prices) for entry in project.file.strategies
    }
    versions = replace(VERSIONS, price_book=prices.version)
    return freeze(project, estimates, note, SENDERS, versions, SENT)


def stored_example() -> Content:
    """The offer of format 1 that must look the same for ever."""
    read: Content = json.loads(FORMAT_1.read_text(encoding="utf-8"))
    return read


def option(content: Content, own_name: str | None) -> dict[str, Any]:
    """An option by the contractor's name for it; None is the house as found."""
    return next(each for each in content["options"] if each["own_name"] == own_name)
