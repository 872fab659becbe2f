"""Water at the house, before anything is closed up."""

from __future__ import annotations

import re
from collections.abc import Iterator

from server.core.assembly import Layer, ResistanceLayer, SolidLayer
from server.core.findings.base import Found, Rule, Severity
from server.core.findings.brick_veneer import is_veneer
from server.core.findings.case import Case, Part
from server.core.findings.said import says
from server.core.house import GROUND, OUTDOORS, Kind

WET_WORDS = re.compile(
    r"\b(wet|damp|dampness|rot|rotten|rotted|rotting|leaks?|leaky|leaking|leaked|stains?|stained"
    r"|salts|efflorescence|mou?ldy?|mildew|musty|flood(ed|ing)?|seep(s|age|ing)?|drips?|dripping"
    r"|ice dams?|condensation|water on|standing water|tide marks?|soft (sill|wood|sheathing)"
    r"|decay(ed)?)\b",
    re.IGNORECASE,
)
OTHER_THINGS = re.compile(
    r"\b(stained glass|crown mou?ld|base mou?ld|(air|duct) leak(s|age|ing)?"
    r"|leaky (window|door|duct)s?|leak(s|ing)? air)",
    re.IGNORECASE,
)
_KEEPS_OFF = re.compile(r"\b(gutter|downspout|flashing)", re.IGNORECASE)
_QUESTIONS = ("gutters", "ground_slope", "flashing")
_BAD = {
    "gutters": {"leaking", "missing"},
    "ground_slope": {"level", "toward the house"},
    "flashing": {"doubtful"},
}


def _judge(case: Case) -> Iterator[Found]:
    for part in case.parts:
        yield from _of_part(part)
    yield from _below_grade(case)
    yield from _around(case)


def _of_part(part: Part) -> Iterator[Found]:
    if part.seen.wetness == "wet":
        yield Found("wet part", (part.name,))
    elif part.seen.wetness == "damp":
        yield Found("damp part", (part.name,))
    told = tuple(filter(says_water, part.seen.condition))
    if told and part.seen.wetness is None:
        yield Found("told of water", (part.name,), {"words": told})


def says_water(words: str) -> bool:
    """Whether words of the survey tell of water, and not of its absence.

    Shapes: one text. Range: English. Raises: nothing. Source: our judgement.
    """
    return says(WET_WORDS, OTHER_THINGS.sub("", words))


def _below_grade(case: Case) -> Iterator[Found]:
    in_ground = [part for part in case.parts if part.component.to_space == GROUND]
    spaces = {part.component.from_space for part in in_ground}
    below = {space for space in spaces if _has_walls_below(case, space)}
    if not below:
        return
    asked = tuple(part for part in in_ground if part.component.from_space in below)
    names = tuple(part.name for part in asked)
    answer = case.seen.below_grade
    noted = tuple(dict.fromkeys(words for part in asked for words in _unanswered(part)))
    if answer == "dry" and noted:
        told = tuple(part.name for part in asked if _unanswered(part))
        yield Found("dry below grade, noted otherwise", told, {"words": noted})
        return
    worked_on = tuple(
        part.name
        for part in case.parts
        if part.component.from_space in below
        and not part.is_opening
        and (part.is_changed or part.component.from_space in case.moved_inside)
    )
    if answer == "wet" and worked_on:
        yield Found("wet below grade, worked on", tuple(dict.fromkeys(names + worked_on)))
        return
    outcome = {
        None: "below grade not looked at",
        "dry": "dry below grade",
        "damp": "damp below grade",
        "wet": "wet below grade",
    }[answer]
    yield Found(outcome, names)


def _unanswered(part: Part) -> tuple[str, ...]:
    """What is said of water at a part that nobody found dry."""
    if part.seen.wetness == "dry":
        return ()
    told = tuple(filter(says_water, part.seen.condition))
    return told or ((part.seen.wetness,) if part.seen.wetness is not None else ())


def _has_walls_below(case: Case, space: str) -> bool:
    return any(
        part.kind.value == "basement wall" and part.component.from_space == space
        for part in case.parts
    )


def _around(case: Case) -> Iterator[Found]:
    if not any(part.component.to_space == OUTDOORS for part in case.parts):
        return
    answers = {name: getattr(case.seen, name) for name in _QUESTIONS}
    for name, answer in answers.items():
        if answer in _BAD[name]:
            yield Found(f"{name}: {answer}" + (_with_cladding(case) if name == "flashing" else ""))
    missing = tuple(name for name, answer in answers.items() if answer is None)
    if missing:
        yield Found("not looked at", facts={"questions": missing})
    elif not any(answer in _BAD[name] for name, answer in answers.items()):
        yield _kept_off(case)


def _kept_off(case: Case) -> Found:
    """All is answered as sound; notes of gutters or flashing may say otherwise."""
    noted = [(part, words) for part in case.parts for words in _unanswered(part)]
    noted = [(part, words) for part, words in noted if _KEEPS_OFF.search(words)]
    if not noted:
        return Found("kept off")
    parts = tuple(dict.fromkeys(part.name for part, _words in noted))
    words = tuple(dict.fromkeys(words for _part, words in noted))
    return Found("kept off, noted otherwise", parts, {"words": words})


def _with_cladding(case: Case) -> str:
    """Whether a strategy bares the flashing of walls; nothing as found."""
    if case.strategy is None:
        return ""
    walls = [part for part in case.changed if part.kind is Kind.WALL and part.faces_outdoors]
    is_off = any(_is_cladding(layer) for part in walls for layer in part.removed)
    return ", cladding off" if is_off else ", cladding stays"


def _is_cladding(layer: Layer) -> bool:
    if isinstance(layer, SolidLayer):
        return layer.material.group == "cladding" or is_veneer(layer)
    return isinstance(layer, ResistanceLayer) and "siding" in (layer.name or "").lower()


RULE = Rule(
    "water first",
    {
        "wet part": Severity.STOP,
        "damp part": Severity.MEND,
        "told of water": Severity.MEND,
        "wet below grade, worked on": Severity.STOP,
        "wet below grade": Severity.MEND,
        "damp below grade": Severity.MEND,
        "dry below grade": Severity.GOOD,
        "dry below grade, noted otherwise": Severity.OPEN,
        "below grade not looked at": Severity.OPEN,
        "gutters: leaking": Severity.MEND,
        "gutters: missing": Severity.MEND,
        "ground_slope: level": Severity.WATCH,
        "ground_slope: toward the house": Severity.MEND,
        "flashing: doubtful": Severity.MEND,
        "flashing: doubtful, cladding off": Severity.MEND,
        "flashing: doubtful, cladding stays": Severity.MEND,
        "not looked at": Severity.OPEN,
        "kept off": Severity.GOOD,
        "kept off, noted otherwise": Severity.OPEN,
    },
    _judge,
)
