"""Send an offer: price every option, freeze it all, and say what changed since the last one."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from server.accounts.person import Person
from server.files.building import build_survey
from server.offers.changes import what_changed
from server.offers.offer import Content, Senders, Versions, freeze
from server.pricing.book import PriceBook
from server.pricing.estimate import price
from server.pricing.takeoff import take_off
from server.storage.houses import Houses, Stored
from server.storage.offers import OfferDamaged, OfferLine, Offers


class NothingToOffer(Exception):
    """No strategy fits the house."""


class AlreadySent(Exception):
    """Another offer was sent since the page was opened."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What the sender says. days: how long the link works, None without end.

    seen: how many offers the sender's page showed.
    """

    note: str
    days: int | None
    seen: int


def send_offer(
    house_key: str,
    person: Person,
    wish: Wish,
    book: PriceBook,
    houses: Houses,
    offers: Offers,
) -> tuple[OfferLine, str]:
    """The offer and the token of its link. Raises: NoSuchHouse, NothingToOffer, AlreadySent."""
    stored = houses.load(house_key, to_change=True)  # so that numbers count on
    earlier = offers.of_house(house_key)
    if len(earlier) != wish.seen:
        raise AlreadySent(house_key)
    now = offers.clock()
    content = _frozen(stored, person, wish.note, book, now)
    if earlier:
        content["changed"] = _changed(offers, earlier[0], content)
    expires = None if wish.days is None else now + timedelta(days=wish.days)
    return offers.send(house_key, content, wish.note, expires, person.name)


def _frozen(
    stored: Stored, person: Person, note: str, book: PriceBook, created: datetime
) -> Content:
    project = build_survey(stored.house).project
    if not project.strategies:
        raise NothingToOffer(stored.key)
    fitting = {strategy.name for strategy in project.strategies}
    estimates = {
        entry.name: price(take_off(project, entry), book)
        for entry in project.file.strategies
        if entry.name in fitting
    }
    region = stored.house.as_written().get("defaults", {}).get("version")
    return freeze(
        project,
        estimates,
        note,
        Senders(person.firm_name, person.name, person.units),
        Versions(stored.version, book.version, region, book.invented > 0),
        created,
    )


def _changed(offers: Offers, last: OfferLine, content: Content) -> Content | None:
    """None where the last one cannot be trusted any more."""
    try:
        before = offers.content(last.key)
    except OfferDamaged:
        return None
    return {
        "number": last.number,
        "sent": last.created_at.isoformat(),
        "lines": what_changed(before, content),
    }
