"""What the page of a house's offers shows."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from server.core.findings.base import Severity
from server.finding_words.telling import told
from server.offers.offer import Content
from server.pages.house.context import OpenHouse
from server.pages.offers.forms import OfferForm
from server.storage.offers import Answer, OfferDamaged, OfferLine, Offers


@dataclass(frozen=True, slots=True)
class NewLink:
    """The link of an offer just sent; its address is shown once."""

    number: int
    address: str


@dataclass(frozen=True, slots=True)
class SentOffer:
    """An offer, whether its link has run out, and what was said to it."""

    line: OfferLine
    expired: bool
    answers: list[Answer]


@dataclass(frozen=True, slots=True)
class Stopped:
    """A strategy that must not be built as it stands, and the titles of what stops it."""

    name: str
    titles: list[str]


def stopped_strategies(opened: OpenHouse) -> list[Stopped]:
    """The strategies that an offer would hold and a finding stops."""
    project = opened.survey.project
    judged = project.judge(project.compare())[1:]
    found = []
    for strategy, findings in zip(project.strategies, judged, strict=True):
        stops = [each for each in findings if each.severity is Severity.STOP]
        titles = list(dict.fromkeys(told(each, opened.units).title for each in stops))
        if titles:
            found.append(Stopped(strategy.name, titles))
    return found


def offers_context(
    offers: Offers, house_key: str, now: datetime, form: OfferForm, new_link: NewLink | None
) -> dict[str, Any]:
    """The offers of a house with their answers, and what changed with the newest."""
    lines = offers.of_house(house_key)
    answers = offers.answers([line.key for line in lines])
    return {
        "sent": [
            SentOffer(
                line,
                expired=line.expires_at is not None and line.expires_at <= now,
                answers=answers[line.key],
            )
            for line in lines
        ],
        "changed": _changed(offers, lines),
        "form": form,
        "new_link": new_link,
    }


def _changed(offers: Offers, lines: list[OfferLine]) -> Content | None:
    if not lines:
        return None
    try:
        changed: Content | None = offers.content(lines[0].key)["changed"]
    except OfferDamaged:
        return None
    return changed
