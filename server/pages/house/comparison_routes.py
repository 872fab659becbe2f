"""A stored house compared with its strategies, priced; what one of them costs, line by line."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Depends, Request
from fastapi.responses import HTMLResponse, Response

from server.core.comparison import Comparison
from server.core.evaluate import METHOD_VERSION
from server.drawn_once import Drawing
from server.files.building import Survey, build_survey
from server.files.comparison_file import comparison_json
from server.files.csv_table import csv_table
from server.files.keyed import Gone
from server.pages.access import SignedIn, TheDrawings, TheHouses
from server.pages.comparison.context import comparison_context
from server.pages.house.context import OpenHouse
from server.pages.house.costing import built_section, cost_section, costing, costings
from server.pages.house.fitting import not_fitting
from server.pages.house.strategy_context import result_of, strategy_entry
from server.pages.prices.routes import ThePriceBooks
from server.pricing.book import PriceBook
from server.rendering import drawn, page
from server.sheet import Section, sheet

router = APIRouter()


def _survey(key: str, houses: TheHouses) -> Survey:
    return build_survey(houses.load(key).house)


TheSurvey = Annotated[Survey, Depends(_survey)]


@router.get("/comparison")
def comparison(
    request: Request,
    key: str,
    houses: TheHouses,
    person: SignedIn,
    books: ThePriceBooks,
    drawings: TheDrawings,
    base: str = "0",
) -> HTMLResponse:
    """As found and the strategies that fit, side by side."""
    column = int(base) if base.isdecimal() and len(base) < 3 else 0
    packed, written = houses.packed(key), books.written()
    inputs = (
        METHOD_VERSION,
        key,
        packed.fingerprint,
        written.fingerprint,
        column,
        person.units,
    )

    def draw() -> Drawing:
        # out of the very bytes that the fingerprints are of: somebody may save meanwhile
        survey = build_survey(packed.house())
        book = written.book()
        context = comparison_context(
            survey.project,
            None,
            person.units,
            base=column,
            further=lambda compared: _further(survey, compared, book),
        )
        here = f"/houses/{key}/comparison"
        links = {
            "back": f"/houses/{key}/strategies",
            "here": here,
            "seen_link": f"/houses/{key}/seen",
            "base_path": f"/houses/{key}",
            "not_fitting": not_fitting(survey),
        }
        middle = drawn("comparison/_comparison.html", context | links)
        return Drawing(survey.file.name, middle)

    return page(request, "house/comparison.html", {"drawing": drawings.get(inputs, draw)})


def _further(survey: Survey, compared: Comparison, book: PriceBook) -> list[Section]:
    priced = costings(survey, compared, book)
    return [cost_section(priced), built_section(compared, priced)] if priced else []


@router.get("/comparison/file")
def comparison_file(survey: TheSurvey, _person: SignedIn) -> Response:
    """The comparison as a comparison file."""
    return Response(
        comparison_json(survey.project),
        media_type="application/json",
        headers={"Content-Disposition": 'attachment; filename="comparison.json"'},
    )


@router.get("/comparison/csv")
def comparison_csv(survey: TheSurvey, person: SignedIn, books: ThePriceBooks) -> Response:
    """The comparison as a table for a spreadsheet."""
    compared = survey.project.compare()
    sections = [*_further(survey, compared, books.current()), *sheet(compared).sections]
    return Response(
        csv_table(sheet(compared).columns, sections, person.units),
        media_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": 'attachment; filename="comparison.csv"'},
    )


@router.get("/strategies/{part:key}/cost")
def cost(
    request: Request,
    key: str,
    part: str,
    houses: TheHouses,
    person: SignedIn,
    books: ThePriceBooks,
) -> HTMLResponse:
    """What one strategy costs, as lines that anyone can check. Raises: Gone."""
    opened = OpenHouse(houses.load(key), person)
    entry = strategy_entry(opened, part)
    result = result_of(opened, entry.name)
    if result is None:
        raise Gone(part)
    book = books.current()
    context = {
        "entry": entry,
        "costing": costing(opened.survey, entry, opened.result, result, book),
        "book": book,
        "strategy_path": f"/houses/{key}/strategies/{part}",
        "house": opened.house,
    }
    return page(request, "house/cost.html", context)
