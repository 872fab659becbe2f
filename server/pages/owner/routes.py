"""The page that a link opens: an offer for the owner of a house, without an account."""

from __future__ import annotations

from gettext import gettext as _
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from server.accounts.throttle import Throttle
from server.accounts.tokens import token_hash
from server.drawn_once import Drawing, DrawnOnce
from server.pages.access import DatabaseSession, MaybeSignedIn, TheClock, database
from server.pages.form_texts import Posted
from server.pages.owner.context import owner_context
from server.pages.owner.forms import AnswerForm, answer_of, choices
from server.rendering import drawn, page
from server.storage.offers import (
    NoSuchOffer,
    OfferDamaged,
    OfferExpired,
    OfferRevoked,
    OpenOffer,
    OwnerOffers,
    TooManyAnswers,
)

router = APIRouter(prefix="/offer")

HEADERS = {
    "X-Robots-Tag": "noindex",
    "Referrer-Policy": "no-referrer",
    "Cache-Control": "private",
}

# an offer keeps the page of the format it was sent in
PAGES = {
    1: ("owner/_offer.html", owner_context),
    2: ("owner/_offer.html", owner_context),
    3: ("owner/_offer.html", owner_context),
}


@router.get("/{token}")
def offer_page(
    request: Request,
    token: str,
    session: DatabaseSession,
    clock: TheClock,
    person: MaybeSignedIn,
    findings: str = "",
) -> HTMLResponse:
    """The offer, or with `?findings=all` everything that was found, as it was sent.

    Opened by its own firm, it does not count as opened.
    """
    try:
        offer = OwnerOffers(session, clock).by_token(token)
    except (NoSuchOffer, OfferRevoked, OfferExpired, OfferDamaged) as refusal:
        return _no_offer(request, refusal)
    if offer.opened_at is None and (person is None or person.firm_key != offer.firm_key):
        with database(request).session(writing=True) as writing:
            OwnerOffers(writing, clock).opened(offer)
    if findings == "all" and "findings" in offer.content:
        return _all_findings(request, offer)
    return _offer(request, offer, AnswerForm())


@router.post("/{token}")
def answer(
    request: Request, token: str, form: Posted, session: DatabaseSession, clock: TheClock
) -> HTMLResponse:
    """Keep what the owner says, and thank for it."""
    offers = OwnerOffers(session, clock)
    try:
        offer = offers.by_token(token)
    except (NoSuchOffer, OfferRevoked, OfferExpired, OfferDamaged) as refusal:
        return _no_offer(request, refusal)
    said = answer_of(form, offer.content)
    if not said.is_good:
        return _offer(request, offer, said, status=422)
    throttle: Throttle = request.app.state.throttle
    address = request.client.host if request.client else ""
    names = [f"offer {token_hash(token)}", f"offers from {address}"]
    if not throttle.allows(names, clock()):
        return _too_many(request)
    choice = dict(choices(offer.content))[said.choice]
    try:
        offers.answer(offer, said.name, choice, said.question)
    except TooManyAnswers:
        return _too_many(request)
    context = {"offer": offer, "content": offer.content, "said": said, "choice": choice}
    return _shown(request, "owner/thanks.html", context)


def _offer(
    request: Request, offer: OpenOffer, form: AnswerForm, *, status: int = 200
) -> HTMLResponse:
    template, context = PAGES[offer.content["offer_format"]]

    def draw() -> Drawing:
        title = _("Offer {number} for {house}").format(
            number=offer.number, house=offer.content["house"]["name"]
        )
        return Drawing(title, drawn(template, context(offer, form)))

    # what somebody typed is not kept
    if form == AnswerForm():
        drawings: DrawnOnce = request.app.state.drawn_once
        drawing = drawings.get(("offer", offer.sha256, offer.number, offer.is_newest), draw)
    else:
        drawing = draw()
    return _shown(request, "owner/page.html", {"drawing": drawing}, status=status)


def _all_findings(request: Request, offer: OpenOffer) -> HTMLResponse:
    context = {"offer": offer, "content": offer.content, "units": offer.content["units"]}
    title = _("What was found in offer {number}").format(number=offer.number)
    drawing = Drawing(title, drawn("owner/_findings.html", context))
    return _shown(request, "owner/page.html", {"drawing": drawing})


def _no_offer(request: Request, refusal: Exception) -> HTMLResponse:
    why = {
        NoSuchOffer: "unknown",
        OfferRevoked: "revoked",
        OfferExpired: "expired",
        OfferDamaged: "damaged",
    }[type(refusal)]
    status = 404 if why == "unknown" else 410
    return _shown(request, "owner/no_offer.html", {"why": why}, status=status)


def _too_many(request: Request) -> HTMLResponse:
    return _shown(request, "owner/no_offer.html", {"why": "too many"}, status=429)


def _shown(
    request: Request, template: str, context: dict[str, Any], *, status: int = 200
) -> HTMLResponse:
    response = page(request, template, context, status=status)
    response.headers.update(HEADERS)
    return response
