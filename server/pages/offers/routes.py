"""The offers of a house: sending one, what became of it, taking its link back."""

from __future__ import annotations

from dataclasses import dataclass
from gettext import gettext as _
from typing import Annotated

from fastapi import APIRouter, Depends, Request
from fastapi.responses import HTMLResponse, Response
from sqlalchemy.orm import Session

from server.accounts.person import Person
from server.actions.send_offer import AlreadySent, NothingToOffer, send_offer
from server.clock import Clock
from server.files.keyed import Gone
from server.pages.access import DatabaseSession, SignedIn, TheClock, TheHouses
from server.pages.form_texts import Posted
from server.pages.house.adding import adding_context
from server.pages.house.context import OpenHouse
from server.pages.house.fields import BASIS_CHOICES
from server.pages.house.showing import back_to
from server.pages.offers.context import NewLink, offers_context, stopped_strategies
from server.pages.offers.forms import OfferForm, refused, wish_of
from server.pricing.book import PriceBook
from server.rendering import page
from server.storage.houses import Houses
from server.storage.offers import NoSuchOffer, Offers
from server.storage.price_books import PriceBooks

router = APIRouter(prefix="/houses/{key:key}/offers")


def _offers(session: DatabaseSession, person: SignedIn, clock: TheClock) -> Offers:
    return Offers(session, person.firm_key, clock)


TheOffers = Annotated[Offers, Depends(_offers)]
"""The offers of the firm of who asks."""


def current_price_book(session: Session, firm_key: str, clock: Clock) -> PriceBook:
    """The prices that an offer is made with."""
    return PriceBooks(session, firm_key, clock).current()


@dataclass(frozen=True, slots=True)
class Desk:
    """Who looks at the offers of which house."""

    key: str
    houses: Houses
    offers: Offers
    person: Person
    clock: Clock

    def page(
        self, request: Request, form: OfferForm, new_link: NewLink | None = None
    ) -> HTMLResponse:
        """What was sent, what was said to it, and the form. Raises: NoSuchHouse."""
        opened = OpenHouse(self.houses.load(self.key), self.person)
        context = (
            opened.common("offers")
            | adding_context(opened, "offers")
            | {"basis_choices": BASIS_CHOICES, "stopped": stopped_strategies(opened)}
            | offers_context(self.offers, self.key, self.clock(), form, new_link)
        )
        status = 422 if form.faults else 200
        return page(request, "offers/page.html", context, status=status)


def _desk(
    key: str, houses: TheHouses, offers: TheOffers, person: SignedIn, clock: TheClock
) -> Desk:
    return Desk(key, houses, offers, person, clock)


TheDesk = Annotated[Desk, Depends(_desk)]
"""The offers page of one house."""


@router.get("")
def listed(request: Request, desk: TheDesk) -> HTMLResponse:
    """What was sent, and what was said to it."""
    return desk.page(request, OfferForm())


@router.post("")
def send(request: Request, form: Posted, session: DatabaseSession, desk: TheDesk) -> HTMLResponse:
    """Send an offer; its link is shown once."""
    wish = wish_of(form)
    if isinstance(wish, OfferForm):
        return desk.page(request, wish)
    book = current_price_book(session, desk.person.firm_key, desk.clock)
    try:
        line, token = send_offer(desk.key, desk.person, wish, book, desk.houses, desk.offers)
    except NothingToOffer:
        words = _("No strategy fits this house yet, so there is nothing to offer.")
        return desk.page(request, refused(wish, words))
    except AlreadySent:
        words = _("An offer was sent since this page was opened. Look at it, then send again.")
        return desk.page(request, refused(wish, words))
    link = NewLink(line.number, f"{request.base_url}offer/{token}")
    return desk.page(request, OfferForm(), link)


@router.post("/{offer:key}/revoke")
def revoke(offer: str, desk: TheDesk) -> Response:
    """Take a link back. Raises: Gone."""
    try:
        desk.offers.revoke(desk.key, offer)
    except NoSuchOffer:
        raise Gone(offer) from None
    return back_to(desk.key, "offers", f"offer-{offer}")
