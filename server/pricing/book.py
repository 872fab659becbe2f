"""A price book: what a contractor charges for each sort of work and material."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from gettext import gettext as _
from typing import Literal, TypeAlias, get_args

from server.pricing.work_item import UNITS, Unit

# Why a line is paid: the house needed it anyway, it insulates, or the insulation makes it needed.
Reason: TypeAlias = Literal["due anyway", "insulation", "only because of insulation"]
REASONS: tuple[Reason, ...] = get_args(Reason)

LONGEST_TEXT = 500
MOST_CENTS = 1_000_000_000
MOST_DECIMALS = 4
INVENTED = "invented price"  # how the note of a line begins until a firm sets its own


class BadPrice(ValueError):
    """A price line or book that cannot be. field: the field that is wrong."""

    def __init__(self, field: str, words: str) -> None:
        self.field = field
        super().__init__(words)


@dataclass(frozen=True, slots=True)
class PriceLine:
    """One price. matches: a step's code, a material's name or a group of materials.

    material_cents and labour_cents: cents for one of the unit, at most four decimals.
    minimum_cents: the least that a job with this line pays for it. Raises: BadPrice.
    """

    key: str
    name: str
    matches: str
    unit: Unit
    material_cents: Decimal
    labour_cents: Decimal
    minimum_cents: int
    reason: Reason
    note: str = ""

    def __post_init__(self) -> None:
        for field in ("key", "name", "matches", "note"):
            _require_text(field, getattr(self, field), may_be_empty=field == "note")
        _require_one_of("unit", self.unit, UNITS)
        _require_one_of("reason", self.reason, REASONS)
        for field in ("material_cents", "labour_cents", "minimum_cents"):
            _require_cents(field, Decimal(getattr(self, field)))

    @property
    def is_invented(self) -> bool:
        """Whether the price is still one of the seed's, as its note says."""
        return self.note.startswith(INVENTED)

    def as_own(self) -> PriceLine:
        """The line without the words that call it invented."""
        return replace(self, note=self.note.removeprefix(INVENTED).removeprefix(";").strip())


@dataclass(frozen=True, slots=True)
class PriceBook:
    """Lines with different keys, each for something else. version: 1 and up. Raises: BadPrice."""

    version: int
    lines: tuple[PriceLine, ...]

    def __post_init__(self) -> None:
        if self.version < 1:
            raise BadPrice("version", _("a whole number, 1 or more"))
        for field in ("key", "matches"):
            values = [getattr(line, field) for line in self.lines]
            twice = next((value for value in values if values.count(value) > 1), None)
            if twice is not None:
                raise BadPrice(field, _("two lines have “{text}”").format(text=twice))

    @property
    def invented(self) -> int:
        """How many lines still have an invented price."""
        return sum(line.is_invented for line in self.lines)

    def line_for(self, matches: str) -> PriceLine | None:
        """The line that prices a step's code, a material's name or a group."""
        return next((line for line in self.lines if line.matches == matches), None)


def _require_text(field: str, text: str, *, may_be_empty: bool) -> None:
    if not text and not may_be_empty:
        raise BadPrice(field, _("something must stand here"))
    if len(text) > LONGEST_TEXT:
        words = _("at most {most} characters").format(most=LONGEST_TEXT)
        raise BadPrice(field, words)
    if text != text.strip() or not text.isprintable():
        words = _("a line break, a space at an end, or a character that cannot be read")
        raise BadPrice(field, words)


def _require_one_of(field: str, text: str, allowed: tuple[str, ...]) -> None:
    if text not in allowed:
        raise BadPrice(field, _("one of {allowed}").format(allowed=", ".join(allowed)))


def _require_cents(field: str, cents: Decimal) -> None:
    if not cents.is_finite() or not 0 <= cents <= MOST_CENTS:
        words = _("0 or more, and at most {most} cents").format(most=MOST_CENTS)
        raise BadPrice(field, words)
    exponent = cents.as_tuple().exponent
    if isinstance(exponent, int) and -exponent > MOST_DECIMALS:
        words = _("at most {most} decimals").format(most=MOST_DECIMALS)
        raise BadPrice(field, words)
