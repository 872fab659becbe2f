"""What is tested, mended or decided before anybody begins, by what was found.

Common practice. To add one: a row in `_RULES`, its words in `_words`.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from gettext import gettext as _

from server.core.findings.said import says
from server.files import house_file as hf

Condition = tuple[str, str | None]
"""Words of the survey, and the component they are about; None for the whole house."""


@dataclass(frozen=True, slots=True)
class FirstThing:
    """One thing to do before anything else. found: the survey's words. components: where."""

    words: str
    found: tuple[str, ...] = ()
    components: tuple[str, ...] = ()


def _pattern(words: str) -> re.Pattern[str]:
    return re.compile(rf"\b({words})", re.IGNORECASE)


# In the order in which they are seen to; a condition may ask for several things.
_RULES = (
    ("asbestos", _pattern("asbestos|vermiculite")),
    ("lead", _pattern("lead paint")),
    ("wiring", _pattern("knob.and.tube")),
    ("flue", _pattern("open flue|unlined|chimney")),
    (
        "water",
        _pattern("wet|damp|leak|stain|drip|seep|flood|mould|mold|efflorescence|gutter|slopes"),
    ),
    ("flashing", _pattern("flashing|roofing near its end|chimney|worn roof")),
    ("structure", _pattern("rot|rotten|decay|termite|insect|crack|sag|joists? ends?|beams?")),
    ("masonry", _pattern("mortar|weep|spall")),
    ("plaster", _pattern("loose plaster|plaster loose|plaster cracked")),
    ("radon", _pattern("radon")),
    ("open bays", _pattern("balloon|bays open|open bays")),
    ("leaks", _pattern("draft|rattle|patchy|brittle|louver")),
)
# "dry rot", and "sound but for one corner", are something.
_UNREMARKABLE = re.compile(
    r"^\s*(sound|good|fair|as new|intact|dry(?!\s+rot))\b(?!.*\b(but|except|rot|rotten)\b)",
    re.IGNORECASE,
)


def seen_conditions(seen: hf.SeenEntry | None) -> tuple[str, ...]:
    """What was looked at in the house as words like those of components; what is well is not."""
    if seen is None:
        return ()
    adverse = {
        "gutters": {"leaking": _("gutters leaking"), "missing": _("gutters missing")},
        "ground_slope": {
            "level": _("ground slopes too little to lead water away"),
            "toward the house": _("ground slopes toward the house"),
        },
        "flashing": {"doubtful": _("flashing doubtful")},
        "below_grade": {"damp": _("damp below grade"), "wet": _("wet below grade")},
        "crawl_ground_cover": {"bare": _("damp: bare ground in the crawlspace")},
        "termites": {"signs": _("signs of termites")},
        "radon": {"4 pCi/L or more": _("radon 4 pCi/L or more")},
        "combustion": {"open flue": _("open flue")},
        "chimney": {"unlined": _("chimney unlined")},
        "wiring": {"knob-and-tube": _("knob-and-tube wiring")},
        "loose_fill": {"vermiculite": _("vermiculite")},
        "asbestos": {"suspected": _("asbestos suspected"), "found": _("asbestos found")},
        "lead_paint": {
            "found": _("lead paint found"),
            "tested, none": _("lead paint tested, none"),
        },
        "framing": {"balloon": _("balloon framing")},
        "plaster": {"loose": _("plaster loose")},
        "veneer_weeps": {"blocked or none": _("weep holes of the veneer blocked or missing")},
    }
    words = [of_value.get(getattr(seen, name) or "") for name, of_value in adverse.items()]
    if seen.beams_in_masonry:
        words.append(_("beams or joists end in masonry"))
    return tuple(each for each in words if each is not None)


def conditions_of(file: hf.HouseFile) -> tuple[Condition, ...]:
    """Everything that the survey says was found, component by component, then the house."""
    of_parts = [
        (words, component.name)
        for component in file.components
        for words in component.condition or ()
    ]
    wet = [
        (component.wetness, component.name)
        for component in file.components
        if component.wetness in ("damp", "wet")
    ]
    return (*of_parts, *wet, *((words, None) for words in seen_conditions(file.seen)))


def first_things(file: hf.HouseFile) -> tuple[FirstThing, ...]:
    """Tests and repairs that come first, each with what was found and where."""
    conditions = conditions_of(file)
    return (*_by_rule(conditions), *_unruled(conditions), *_not_looked_at(file.seen))


def is_remarkable(condition: str) -> bool:
    """Whether words of the survey tell of more than that something is well."""
    return not _UNREMARKABLE.search(condition)


def _by_rule(conditions: tuple[Condition, ...]) -> Iterator[FirstThing]:
    words = _words()
    for code, pattern in _RULES:
        matching = [each for each in conditions if _asks(pattern, each[0])]
        if matching:
            yield _thing(words[code], matching)


def _asks(pattern: re.Pattern[str], words: str) -> bool:
    return is_remarkable(words) and says(pattern, words)


def _unruled(conditions: tuple[Condition, ...]) -> Iterator[FirstThing]:
    """What is no more than words: somebody decides on the spot."""
    rest = [
        each
        for each in conditions
        if is_remarkable(each[0]) and not any(pattern.search(each[0]) for _code, pattern in _RULES)
    ]
    if rest:
        yield _thing(_("See to what else was found, and decide on the spot."), rest)


def _thing(words: str, conditions: list[Condition]) -> FirstThing:
    return FirstThing(
        words,
        tuple(dict.fromkeys(each for each, _name in conditions)),
        tuple(dict.fromkeys(name for _each, name in conditions if name is not None)),
    )


def _not_looked_at(seen: hf.SeenEntry | None) -> Iterator[FirstThing]:
    names = {
        "gutters": _("gutters"),
        "flashing": _("flashing"),
        "below_grade": _("walls and floor below grade"),
        "termites": _("signs of termites"),
        "radon": _("radon"),
        "combustion": _("what burns, and its flue"),
        "wiring": _("wiring in attic and walls"),
        "loose_fill": _("what old loose fill is"),
        "framing": _("bays open at top and bottom"),
    }
    missing = [name for key, name in names.items() if seen is None or getattr(seen, key) is None]
    if missing:
        words = _("The survey does not say; look before anything is closed: {things}.")
        yield FirstThing(words.format(things=", ".join(missing)))


def _words() -> dict[str, str]:
    return {
        "asbestos": _(
            "Test for asbestos before anybody disturbs it; nobody works near it till then."
        ),
        "lead": _(
            "Treat the paint as lead paint: containment and certified practice from the start."
        ),
        "wiring": _("A licensed electrician takes old wiring out of use before any fill."),
        "flue": _(
            "See to chimney and flue: what still vents into it, lining, flashing, clearance; test "
            "draft and carbon monoxide before the house gets tighter."
        ),
        "water": _(
            "Stop the water first: gutters, ground, leaks. Let wood dry, under 19 % by meter, and "
            "masonry to the touch, before anything covers it."
        ),
        "flashing": _("Mend or renew roofing and flashing before or with the work, not after it."),
        "structure": _(
            "Structure first: probe wood, mend or replace what is soft, treat insects; cracks and "
            "sagging go to licensed practice."
        ),
        "masonry": _("Mend masonry and keep its weep holes open; old soft brick gets lime mortar."),
        "plaster": _("Secure or take down loose plaster before bays are filled under pressure."),
        "radon": _(
            "Put in, or plan for, radon mitigation before the floor and the rim are closed."
        ),
        "open bays": _(
            "Block and seal bays that are open at top or bottom before they are filled."
        ),
        "leaks": _("Mend what leaks air or is worn where the work reaches it; mark the rest."),
    }
