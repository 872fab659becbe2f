"""The price book of a firm: everybody reads it, its lead changes it."""

from __future__ import annotations

from dataclasses import replace
from gettext import gettext as _
from typing import Annotated

from fastapi import APIRouter, Depends, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from server.accounts.person import Person
from server.files.faults import BadFile
from server.pages.access import DatabaseSession, Lead, SignedIn, TheClock
from server.pages.form_texts import Posted, text_of, whole_number
from server.pages.houses.forms import uploaded
from server.pages.prices.forms import FIELDS, PriceForm, changed_line
from server.pricing.book import REASONS, PriceBook
from server.pricing.book_file import read_price_book, write_price_book
from server.rendering import page
from server.storage.houses import StaleVersion
from server.storage.price_books import PriceBooks

router = APIRouter(prefix="/prices")
Uploaded = Annotated[bytes, Depends(uploaded)]


def _price_books(session: DatabaseSession, person: SignedIn, clock: TheClock) -> PriceBooks:
    return PriceBooks(session, person.firm_key, clock)


ThePriceBooks = Annotated[PriceBooks, Depends(_price_books)]
"""The price books of the firm of who asks."""


@router.get("")
def listed(request: Request, person: SignedIn, books: ThePriceBooks) -> HTMLResponse:
    """The lines."""
    return _page(request, person, books.current())


@router.get("/file")
def file(_person: SignedIn, books: ThePriceBooks) -> Response:
    """The book as CSV."""
    return Response(
        write_price_book(books.current()),
        media_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": 'attachment; filename="price-book.csv"'},
    )


@router.post("")
def change(request: Request, form: Posted, lead: Lead, books: ThePriceBooks) -> Response:
    """Change one line; the whole book gets a new version."""
    book = books.current()
    line = next((each for each in book.lines if each.key == text_of(form, "line")), None)
    if line is None:
        return RedirectResponse("/prices", status_code=303)
    changed = changed_line(line, form)
    if isinstance(changed, PriceForm):
        return _page(request, lead, book, form=changed)
    if whole_number(form, "version") != book.version and changed != line:
        values = {name: text_of(form, name) for name in (*FIELDS, "reason")}
        words = _("The book was changed meanwhile. Look at the line and save again.")
        return _page(request, lead, book, form=PriceForm(line.key, values, {"material": words}))
    lines = tuple(changed if each is line else each for each in book.lines)
    if changed != line:
        books.save(replace(book, lines=lines), lead.name)
    return RedirectResponse(f"/prices#{line.key}", status_code=303)


@router.post("/from-file")
def from_file(request: Request, content: Uploaded, lead: Lead, books: ThePriceBooks) -> Response:
    """Put a book from a CSV file in place of the present one."""
    book = books.current()
    try:
        text = content.decode("utf-8-sig", errors="replace")
        books.save(replace(read_price_book(text), version=book.version), lead.name)
    except (BadFile, StaleVersion) as refusal:
        faults = refusal.faults if isinstance(refusal, BadFile) else [str(refusal)]
        return _page(request, lead, book, file_faults=[str(fault) for fault in faults])
    return RedirectResponse("/prices", status_code=303)


def _page(
    request: Request,
    person: Person,
    book: PriceBook,
    *,
    form: PriceForm | None = None,
    file_faults: list[str] | None = None,
) -> HTMLResponse:
    context = {
        "book": book,
        "may_change": person.is_lead,
        "form": form,
        "file_faults": file_faults or [],
        "reasons": REASONS,
        "groups": [
            (reason, [line for line in book.lines if line.reason == reason]) for reason in REASONS
        ],
    }
    status = 422 if form or file_faults else 200
    return page(request, "prices/page.html", context, status=status)
