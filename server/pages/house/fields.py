"""Fields that are edited in place: what they are called, what stands in them, what was wrong."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from gettext import gettext as _
from typing import Any

from server.files.house_file import BASES
from server.files.keyed import Document, place_of, value_at
from server.files.schema import Input, input_at
from server.files.seeds import regions
from server.pages.house.labels import HINTS, HUMIDITY_CLASSES, LABELS
from server.pages.house.typed import basis_of, seen_text, typed_text
from server.units import KINDS, System, UnitError, format_quantity, read_quantity

FUELS = ("natural gas", "propane", "heating oil", "electricity", "wood")


@dataclass(frozen=True, slots=True)
class Problem:
    """What was wrong with one field: what was typed stays.

    seen: what stands there by somebody else's hand, as the next attempt has seen it.
    """

    place: str
    text: str
    basis: str
    words: tuple[str, ...]
    seen: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Field:
    """One field. seen: the value it was made with, to tell a change by someone else."""

    place: str
    label: str
    input: Input
    text: str
    basis: str
    seen: tuple[str, ...]
    choices: tuple[tuple[str, str], ...] = ()
    suggestions: str | None = None
    hint: str | None = None
    example: str | None = None
    shown: str | None = None
    problem: Problem | None = None

    @property
    def id(self) -> str:
        """The field's id on the page."""
        return "f" + hashlib.blake2s(self.place.encode(), digest_size=6).hexdigest()


@dataclass(frozen=True, slots=True)
class Fields:
    """Makes the fields of one house's pages."""

    document: Document
    units: System
    problem: Problem | None = None
    made: list[Field] = field(default_factory=list)

    def of(
        self, *steps: str, names: Iterable[str], examples: Mapping[str, str] | None = None
    ) -> list[Field]:
        """The fields of a part of the house. examples: by name, in place of the usual ones."""
        return [self.one(*steps, name, example=(examples or {}).get(name)) for name in names]

    def one(self, *steps: str, label: str | None = None, example: str | None = None) -> Field:
        """One field. The name of a part that stands under its name is a field too."""
        place = place_of(*steps)
        taken = input_at(self.document, place)
        raw = self._raw(steps, place)
        problem = self.problem if self.problem and self.problem.place == place else None
        name = steps[-1]
        made = Field(
            place=place,
            label=label or LABELS.get(place) or LABELS.get(name) or _from_name(name),
            input=taken,
            text=problem.text if problem else typed_text(raw),
            basis=problem.basis if problem else basis_of(raw),
            seen=(seen_text(raw),),
            choices=self._choices(steps, taken),
            suggestions="materials" if name in ("material", "fill", "framing") else None,
            hint=HINTS.get(place) or HINTS.get(name),
            example=example or (KINDS[taken.kind].example if taken.kind else None),
            shown=self._shown(raw, taken),
            problem=problem,
        )
        self.made.append(made)
        return made

    def _raw(self, steps: Sequence[str], place: str) -> Any:
        if len(steps) == 3 and steps[-1] == "name" and steps[0] in ("spaces", "assemblies"):
            for name, part in self.document.get(steps[0], {}).items():
                if part["key"] == steps[1]:
                    return name
        try:
            return value_at(self.document, place)
        except LookupError:
            return None

    def _choices(self, steps: Sequence[str], taken: Input) -> tuple[tuple[str, str], ...]:
        name = steps[-1]
        spaces = tuple(self.document["spaces"])
        ends = {"from": spaces, "to": (*spaces, "outdoors", "ground"), "ducts_in": spaces}
        names: Sequence[str] = taken.choices
        if name in ends:
            names = ends[name]
        elif name == "assembly":
            names = tuple(self.document.get("assemblies", {}))
        elif name == "fuel":
            names = tuple(dict.fromkeys([*FUELS, *self.document.get("prices", {})]))
        elif name == "region":
            return tuple((key, region.name) for key, region in regions().items())
        elif name == "humidity_class":
            return HUMIDITY_CLASSES
        elif taken.sort == "yes or no":
            return (("yes", _("yes")), ("no", _("no")))
        return tuple((each, each) for each in names)

    def _shown(self, raw: Any, taken: Input) -> str | None:
        """The quantity in the units of the page, where it was typed in others."""
        text = typed_text(raw)
        if not taken.kind or not text:
            return None
        try:
            value = read_quantity(text, taken.kind)
        except UnitError:
            return None
        shown = format_quantity(value, taken.kind, self.units)
        return None if _system(text) == self.units else shown


def _from_name(name: str) -> str:
    return name.replace("_", " ").capitalize()


_INCH_POUND = re.compile(
    r"in|inch(es)?|ft2?3?|feet|foot|sf|cf|yd|F|degF|Btu.*|cfm|lb|U|R|therms?|mph|gal|['\"]"
)


def _system(text: str) -> System:
    """The system a quantity was typed in."""
    words = re.findall(r"[A-Za-z]+[23]?|['\"]", text.replace("²", "2").replace("³", "3"))
    return "ip" if any(_INCH_POUND.fullmatch(word) for word in words) else "si"


BASIS_CHOICES: tuple[tuple[str, str], ...] = (
    ("", _("not said")),
    *((each, _(each)) for each in BASES),
)


def counted_by_basis(document: Mapping[str, Any]) -> dict[str, int]:
    """How many values of a house are known how; those with no word on it under an empty text."""
    counts = dict.fromkeys(["", *BASES], 0)

    def walk(here: Any) -> None:
        if isinstance(here, dict):
            if set(here) == {"value", "basis"}:
                counts[here["basis"]] += 1
            else:
                for each in here.values():
                    walk(each)
        elif isinstance(here, list):
            for each in here:
                walk(each)

    walk({key: value for key, value in document.items() if key not in ("strategies", "climate")})
    return counts
