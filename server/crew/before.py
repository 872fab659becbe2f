"""What is tested, mended or decided before anybody begins, by what was found.

Common practice. To add one: a row in `_RULES`, its words in `_words`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from gettext import gettext as _

from server.core.findings.old_wiring import REPLACED
from server.core.findings.said import says
from server.files import house_file as hf

Condition = tuple[str, str | None]
"""Words of the survey, and the component they are about; None for the whole house."""


@dataclass(frozen=True, slots=True)
class Seen:
    """Words of the survey and the parts of which it says them; none for the whole house."""

    words: str
    components: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FirstThing:
    """One thing to do before anything else. found: why; nothing where that is said already.

    code: of its rule; empty where it has none.
    """

    words: str
    found: tuple[Seen, ...] = ()
    code: str = ""


@dataclass(frozen=True, slots=True)
class Reach:
    """What a strategy has to do with. touched: parts worked on, None for all. inside: spaces that
    it brings in.
    """

    touched: frozenset[str] | None = None
    inside: frozenset[str] = frozenset()

    def touches(self, component: str | None) -> bool:
        """Whether a part is worked on; what is said of the whole house always counts."""
        return component is None or self.touched is None or component in self.touched


EVERYWHERE = Reach()


def _pattern(words: str) -> re.Pattern[str]:
    return re.compile(rf"\b({words})", re.IGNORECASE)


# What leaks air, not water.
_AIRY = (
    r"((old|wood|wooden|storm|attic|cellar|basement|front|back|side) )?"
    r"(windows?|sash(es)?|doors?|hatch(es)?|ducts?|ductwork|outlets?)\b"
)
_LEAKS = (
    r"(?<!air )(?<!air-)(?<!windows )(?<!windows are )(?<!doors )(?<!doors are )"
    rf"leak(?!y {_AIRY}|\w* air\b)"
)
# The paint, not the verb or the metal of flashing.
LEAD_PAINT = _pattern(r"lead([ -]based)?[ -]paint|lead likely")
_GUESSED = _pattern(r"likely|probabl[ey]|possibl[ey]|perhaps|maybe|may be|presumed|suspected")
# In the order in which they are seen to. A condition is said with the first that it asks for.
_RULES = (
    ("asbestos", _pattern("asbestos|vermiculite")),
    ("lead", LEAD_PAINT),
    ("wiring", _pattern("knob.and.tube")),
    (
        "water",
        _pattern(
            rf"wet|damp|{_LEAKS}|stain|drip|seep|flood|mould|mold|efflorescence|"
            r"no gutters?\b(?! (leak|problem|damage|overflow))|gutter|slopes"
        ),
    ),
    # a stain at the chimney is water, not the flue
    ("flue", _pattern("open flue|unlined|(?<!at the )(?<!near the )(?<!round the )chimney")),
    ("flashing", _pattern("flashing|roofing near its end|worn roof")),
    (
        "structure",
        _pattern(
            "rot|rotten|decay|termite|insect|sag|joists? ends?|beams?|"
            "cracked (rafter|joist|stud|post|sill|plate|header)|"
            "(rafter|joist|stud|post|sill|plate|header)s? (is |are )?cracked"
        ),
    ),
    ("plaster", _pattern("loose plaster|plaster loose|plaster cracked|cracked plaster")),
    ("cracks", _pattern("cracks?|cracked|hairline")),
    ("masonry", _pattern("mortar|spall")),
    ("veneer", _pattern("weep")),
    ("radon", _pattern("radon")),
    ("open bays", _pattern("balloon|bays open|open bays")),
    ("leaks", _pattern(r"draft|rattle|patchy|brittle|air[ -]leak|leak\w* air\b|leaky")),
)
# Asked for whatever else the same words ask for.
_ALWAYS = frozenset({"asbestos", "lead", "wiring", "water", "flue", "structure"})
# No reason to do anything where the work does not reach.
_ONLY_TOUCHED = frozenset({"lead", "leaks"})
_CLAUSE = re.compile(r"[,;:()–—]|\.\s|\s-\s")  # each may say something of its own
_WELL_WORD = "sound|good|fair|as new|intact|dry"
# "dry rot" and "a fair amount" are something; what is sound may be named.
_WELL = re.compile(
    rf"((still|all|very|quite)\s+)?({_WELL_WORD})\b(?!\s+(rot|amount|bit|deal|number|many)\b)"
    rf"(\s+and\s+({_WELL_WORD})\b)?"
    r"(\s+(brick|stone|old|wood))?"
    r"(\s+(beams?|joist ends?|gutters?|mortar|flashing|chimney|weep holes)\b)?",
    re.IGNORECASE,
)
_MENDED_SINCE = re.compile(
    r"\b(since|after|now that)\b.*?\b(mended|repaired|renewed|replaced|fixed|cleared)\b",
    re.IGNORECASE,
)
_LIMITED = _pattern(r"(but|except|apart from|though|however)\b")
# What the work itself mends, or what is as it should be.
_USUAL = re.compile(
    r"((very|a bit|somewhat)\s+)?(drafty|draughty|louvers?)"
    r"|(old\s+)?fill\s+(thin|patchy|settled)",
    re.IGNORECASE,
)


def seen_conditions(seen: hf.SeenEntry | None) -> tuple[str, ...]:
    """What was looked at in the house as words like those of components; what is well is not."""
    if seen is None:
        return ()
    adverse = {
        "gutters": {"leaking": _("gutters leaking"), "missing": _("gutters missing")},
        "ground_slope": {
            "level": _("ground slopes too little to carry water away"),
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
        "lead_paint": {"found": _("lead paint found")},
        "framing": {"balloon": _("balloon framing")},
        "plaster": {"loose": _("plaster loose")},
        "veneer_weeps": {"blocked or none": _("weep holes of the veneer blocked or missing")},
    }
    words = [of_value.get(getattr(seen, name) or "") for name, of_value in adverse.items()]
    if seen.beams_in_masonry:
        words.append(_("beams or joists end in masonry"))
    return tuple(each for each in words if each is not None)


def is_wiring_settled(seen: hf.SeenEntry | None) -> bool:
    """Whether old wiring is replaced or dead, whatever notes still tell of it."""
    return seen is not None and seen.wiring == REPLACED


def is_paint_cleared(seen: hf.SeenEntry | None) -> bool:
    """Whether the paint of the house was tested and holds no lead: nothing else clears it."""
    return seen is not None and seen.lead_paint == "tested, none"


def guesses_lead(condition: str) -> bool:
    """Whether words take paint for lead paint without having found it: a test answers them."""
    return LEAD_PAINT.search(condition) is not None and _GUESSED.search(condition) is not None


def remarkable(components: Iterable[hf.ComponentEntry]) -> list[str]:
    """What was found of components and has to be seen to, each thing once; what is sound is not."""
    said = dict.fromkeys(words for each in components for words in each.condition or ())
    return [words for words in said if is_remarkable(words)]


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


def first_things(file: hf.HouseFile, reach: Reach = EVERYWHERE) -> tuple[FirstThing, ...]:
    """Tests and repairs that come first, each with what was found and where."""
    conditions = [each for each in conditions_of(file) if is_remarkable(each[0])]
    conditions += _vermiculite(file)
    return (
        *_by_rule(file, conditions, reach),
        *_unruled(conditions),
        *_not_looked_at(file.seen),
    )


def _vermiculite(file: hf.HouseFile) -> Iterator[Condition]:
    """Fill that the survey calls so among the layers: whatever moves air through it stirs it up."""
    for component in file.components:
        found = file.assemblies[component.assembly].layers if component.assembly else None
        names = (
            layer.framed.fill if isinstance(layer, hf.FramedEntry) else layer.material
            for layer in found or ()
            if isinstance(layer, hf.FramedEntry | hf.SolidEntry)
        )
        yield from ((name, component.name) for name in names if "vermiculite" in name.lower())


def is_remarkable(condition: str) -> bool:
    """Whether words of the survey tell of more than that something is well."""
    clauses = _clauses(condition)
    return not _is_well(clauses[0]) or not all(
        _is_well(each) or _is_denial(each) for each in clauses[1:]
    )


def _clauses(condition: str) -> list[str]:
    return [each.strip() for each in _CLAUSE.split(condition) if each.strip()] or [""]


def _is_well(clause: str) -> bool:
    """Whether part of a note says that something is well, and goes on to nothing else."""
    if _USUAL.fullmatch(clause):
        return True
    begun = _WELL.match(clause)
    if begun is None:
        return False
    further = _MENDED_SINCE.sub("", clause[begun.end() :], count=1)
    return not _LIMITED.search(further) and not _is_said(further)


def _is_denial(clause: str) -> bool:
    """Whether part of a note only says that something known to a rule is not there."""
    is_known = any(pattern.search(clause) for _code, pattern in _RULES)
    return is_known and not _is_said(clause)


def _is_said(words: str) -> bool:
    """Whether a rule asks for something because of words."""
    return any(says(pattern, words) for _code, pattern in _RULES)


def _by_rule(file: hf.HouseFile, conditions: list[Condition], reach: Reach) -> Iterator[FirstThing]:
    words = _words()
    sides = {each.name: {each.from_, each.to} for each in file.components}
    said: set[str] = set()
    for code, pattern in _RULES:
        matching = [each for each in conditions if says(pattern, each[0])]
        if code in _ONLY_TOUCHED:
            matching = [each for each in matching if reach.touches(each[1])]
        if code == "open bays":  # between rooms and rooms nothing is closed
            matching = [
                each for each in matching if reach.inside.isdisjoint(sides.get(each[1] or "", ()))
            ]
        fresh = [each for each in matching if each[0] not in said]
        if code == "wiring" and is_wiring_settled(file.seen):
            fresh, matching = [], []
        if code == "lead" and is_paint_cleared(file.seen):
            fresh = matching = [each for each in fresh if not guesses_lead(each[0])]
        if fresh or (matching and code in _ALWAYS):
            yield FirstThing(words[code], _seen(fresh), code)
        said.update(each for each, _name in matching)


def _unruled(conditions: list[Condition]) -> Iterator[FirstThing]:
    """What is no more than words: somebody decides on the spot."""
    rest = [each for each in conditions if _is_for_no_rule(each[0])]
    if rest:
        yield FirstThing(_("See to what else was found, and decide on the spot."), _seen(rest))


def _is_for_no_rule(condition: str) -> bool:
    """Whether no rule says words, and some of them are not even denied."""
    return not _is_said(condition) and not all(
        _is_well(each) or _is_denial(each) for each in _clauses(condition)
    )


def _seen(conditions: list[Condition]) -> tuple[Seen, ...]:
    """The same words once; those of the whole house not beside a part of which they are said."""
    places: dict[str, list[str]] = {}
    for words, name in conditions:
        is_said = name is None and any(words in each for each, part in conditions if part)
        if not is_said:
            of_words = places.setdefault(words, [])
            of_words += [name] if name is not None and name not in of_words else []
    return tuple(Seen(words, tuple(names)) for words, names in places.items())


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
            "Test for asbestos before anybody disturbs it; nobody works near it, and no fan test "
            "is made, until it is cleared."
        ),
        "lead": _(
            "Treat the paint as lead paint: containment and certified practice from the start."
        ),
        "wiring": _("A licensed electrician takes old wiring out of use before any fill."),
        "flue": _(
            "See to the flue: what still vents into it, lining, clearance; test draft and carbon "
            "monoxide before the house gets tighter."
        ),
        "water": _(
            "Stop the water first: gutters, ground, flashing, leaks. Let wood dry, under 19 % by "
            "meter, and masonry to the touch, before anything covers it."
        ),
        "flashing": _("Mend or renew roofing and flashing before or with the work, not after it."),
        "structure": _(
            "Structure first: probe wood, mend or replace what is soft, treat insects; what is "
            "broken or sags goes to licensed practice."
        ),
        "cracks": _(
            "Mark the ends of cracks and look whether they move; seal what is still; what is wide, "
            "stepped or moving goes to licensed practice."
        ),
        "masonry": _("Mend the masonry; old soft brick gets lime mortar."),
        "veneer": _("Clear the weep holes of the veneer and keep them open."),
        "plaster": _("Secure or take down loose plaster before bays are filled under pressure."),
        "radon": _(
            "Put in, or plan for, radon mitigation before the floor and the rim are closed."
        ),
        "open bays": _(
            "Block and seal bays that are open at top or bottom before they are filled."
        ),
        "leaks": _("Mend what leaks air or is worn."),
    }
