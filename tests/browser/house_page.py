"""What stands on a page of a house, and how a value on it is edited."""

from __future__ import annotations

from typing import Any

AREA = "Area, openings taken off"


def figure(place: Any) -> float:
    """The number that stands at a place of a page."""
    return float(place.inner_text().replace(",", ""))


def heat_loss(page: Any) -> float:
    """The heat loss of the whole house."""
    return figure(page.locator("#totals strong").first)


def version(page: Any) -> int:
    """The house's version."""
    return int(page.locator("#totals dd").last.inner_text())


def real_r(page: Any) -> float:
    """The real R that the page is about."""
    return figure(page.locator("#figures strong"))


def fits(page: Any) -> None:
    """Nothing of the page is wider than the window."""
    width = page.viewport_size["width"]
    assert page.evaluate("document.documentElement.scrollWidth") <= width, page.url


def commit(page: Any, field: Any, text: str) -> None:
    """Type a value, leave the field, and wait until it is saved in place."""
    before = version(page)
    field.fill(text)
    field.press("Tab")
    page.wait_for_function(
        "before => +document.querySelector('#totals div:last-child dd').textContent > before",
        arg=before,
    )
