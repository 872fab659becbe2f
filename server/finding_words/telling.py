"""A finding of the core as texts for a page, in the units of its reader."""

from __future__ import annotations

from dataclasses import dataclass
from gettext import gettext as _

from server.core.findings.base import Fact, Finding, Measured, Quantity, Severity
from server.finding_words.words import ALL_WORDS
from server.formatting import MONTHS, thickness_text
from server.units import KINDS, N_, System, format_quantity

NAMES = {  # answers of the survey, as they stand in a sentence
    "gutters": N_("gutters"),
    "ground_slope": N_("the slope of the ground"),
    "flashing": N_("flashing"),
    "too little fresh air": N_(
        " The rooms are reckoned humid here, since fan and leaks bring too little fresh air: mend "
        "that first (see “Fresh air”)."
    ),
}
MOST_DIGITS = 2  # beyond those usual for a kind, where a figure reads like its limit
SEVERITY_NAMES = {
    Severity.STOP: _("stop"),
    Severity.MEND: _("mend"),
    Severity.OPEN: _("not known"),
    Severity.WATCH: _("watch"),
    Severity.GOOD: _("good"),
}


@dataclass(frozen=True, slots=True)
class Told:
    """One finding in texts. mend, figure and limit are empty where there is nothing to say."""

    finding: Finding
    title: str
    text: str
    mend: str
    figure: str
    limit: str
    source: str
    aside: bool

    @property
    def severity(self) -> str:
        """Its severity as one word of the data: stop, mend, open, watch, good."""
        return self.finding.severity.value

    @property
    def severity_name(self) -> str:
        """Its severity as people read it."""
        return SEVERITY_NAMES[self.finding.severity]


def told(finding: Finding, system: System) -> Told:
    """A finding in texts."""
    words = ALL_WORDS[finding.code]
    text, mend = words.told[finding.outcome]
    facts = {name: fact_text(fact, system) for name, fact in finding.facts.items()}
    figure, limit = _figures(finding.measured, system)
    return Told(
        finding,
        _(words.title),
        _capital(_(text).format_map(facts)),
        _capital(_(mend).format_map(facts)),
        figure,
        limit,
        _(words.source),
        words.aside,
    )


def fact_text(fact: Fact, system: System) -> str:
    """A fact as it stands in a sentence."""
    if isinstance(fact, Quantity):
        return quantity_text(fact, system)
    if isinstance(fact, tuple):
        return ", ".join(_(NAMES.get(each, each)) for each in fact)
    return str(fact)


def quantity_text(quantity: Quantity, system: System, more: int = 0) -> str:
    """A figure with its unit; thicknesses as the trade writes them, resistances as R-13.

    more: digits beyond those usual for the kind.
    """
    if quantity.kind == "month":
        return _(MONTHS[int(quantity.value)])
    if quantity.kind == "factor":
        return f"{quantity.value:.{2 + more}f}"
    if quantity.kind == "thickness":
        return thickness_text(quantity.value, system)
    digits = KINDS[quantity.kind].display(system).digits + more
    if quantity.kind == "resistance" and system == "ip":
        return f"R-{format_quantity(quantity.value, 'resistance', 'ip', digits, unit=False)}"
    return format_quantity(quantity.value, quantity.kind, system, digits)


def _figures(measured: Measured | None, system: System) -> tuple[str, str]:
    if measured is None:
        return "", ""
    if measured.limit is None:
        return quantity_text(measured.figure, system), ""
    figure, limit = _told_apart(measured.figure, measured.limit, system)
    words = _("at least {limit}") if measured.at_least else _("at most {limit}")
    return figure, words.format(limit=limit)


def _told_apart(figure: Quantity, limit: Quantity, system: System) -> tuple[str, str]:
    """A figure and its limit, with more digits where two that differ would read alike."""
    texts = quantity_text(figure, system), quantity_text(limit, system)
    for more in range(1, MOST_DIGITS + 1):
        if texts[0] != texts[1] or figure.value == limit.value:
            break
        texts = quantity_text(figure, system, more), quantity_text(limit, system, more)
    return texts


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
