"""What may hurt those who do the work or live in it, by what is handled and what was found.

Common practice, and the rules that everyone in the trade in the United States has heard of; the
words name them without replacing them. To add a caution: a row in `_RULES`, its words in
`caution_words`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from gettext import gettext as _

from server.core.findings.said import any_says
from server.crew.before import LEAD_PAINT

LEAD_PAINT_BANNED = 1978  # for dwellings in the United States

_FIBRES = frozenset(
    {"batt", "dense-pack", "loose-fill", "rigid-mineral-wool", "rigid-natural", "plaster"}
)
_BLOWN = frozenset({"dense-pack", "loose-fill"})
_DRILLED_OR_SPRAYED = frozenset({"dense-pack", "sprayed-foam"})
_CUT_WITH_SILICA = frozenset({"masonry-old", "masonry-new", "concrete"})
_AT_HEIGHT = frozenset({"cladding", "roofing"})
_IN_ATTICS = frozenset({"loose-fill", "roofing"})
_PAINTED = frozenset({"cladding", "plaster", "board", "sheathing", "structure"})

_ASBESTOS = re.compile(r"asbestos|vermiculite", re.IGNORECASE)
_OLD_WIRING = re.compile(r"knob.and.tube", re.IGNORECASE)
_CEMENT_BOARD = re.compile(r"fib(re|er).cement|cement board|cement.bonded", re.IGNORECASE)
_SEALANT_FOAM = re.compile(r"sealant foam", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Setting:
    """In what the work is done.

    paint_cleared: all paint was tested and holds no lead. digs: the ground beside the house is dug
    up. crawls: somebody works in a crawlspace.
    """

    paint_cleared: bool = False
    digs: bool = False
    crawls: bool = False


ANYWHERE = Setting()


@dataclass(frozen=True, slots=True)
class _Job:
    """What is handled, what was found and where it is done."""

    materials: frozenset[str]
    groups: frozenset[str]
    year_built: int | None
    conditions: tuple[str, ...]
    setting: Setting

    def of(self, groups: frozenset[str]) -> bool:
        return not self.groups.isdisjoint(groups)

    def named(self, pattern: re.Pattern[str]) -> bool:
        return any(pattern.search(material) for material in self.materials)


def _has_lead(job: _Job) -> bool:
    """As the rule has it: old paint is lead paint until it is tested, and so is paint of no age.

    What is said of one part does not clear the others.
    """
    if any_says(LEAD_PAINT, job.conditions):
        return True
    is_old = job.year_built is None or job.year_built < LEAD_PAINT_BANNED
    return is_old and not job.setting.paint_cleared and job.of(_PAINTED)


def _has_asbestos(job: _Job) -> bool:
    return job.named(_ASBESTOS) or any_says(_ASBESTOS, job.conditions)


def _has_silica(job: _Job) -> bool:
    return job.of(_CUT_WITH_SILICA) or job.named(_CEMENT_BOARD)


# In the order in which they are read: what stops the work first.
_RULES: tuple[tuple[str, Callable[[_Job], bool]], ...] = (
    ("asbestos", _has_asbestos),
    ("lead", _has_lead),
    ("old wiring", lambda job: any_says(_OLD_WIRING, job.conditions)),
    ("excavation", lambda job: job.setting.digs),
    ("crawlspace", lambda job: job.setting.crawls),
    ("lines in bays", lambda job: job.of(_DRILLED_OR_SPRAYED)),
    ("fibre", lambda job: job.of(_FIBRES)),
    ("blowing", lambda job: job.of(_BLOWN)),
    ("sprayed foam", lambda job: job.of(frozenset({"sprayed-foam"}))),
    ("sealant foam", lambda job: job.named(_SEALANT_FOAM)),
    ("foam board", lambda job: job.of(frozenset({"rigid-foam"}))),
    ("silica", _has_silica),
    ("heights", lambda job: job.of(_AT_HEIGHT)),
    ("attic heat", lambda job: job.of(_IN_ATTICS)),
)
CODES = tuple(code for code, _fires in _RULES)


def working_cautions(
    materials: Iterable[str],
    groups: Iterable[str],
    year_built: int | None,
    conditions: Iterable[str],
    setting: Setting = ANYWHERE,
) -> tuple[str, ...]:
    """Codes of what to beware of, the gravest first.

    materials, groups: of all that is taken off, drilled through or put in. year_built: None where
    nobody knows, which is no reason to think a house new. conditions: as the survey words them.
    """
    job = _Job(frozenset(materials), frozenset(groups), year_built, tuple(conditions), setting)
    return tuple(code for code, fires in _RULES if fires(job))


def caution_words(code: str) -> str:
    """A caution as a crew reads it. Raises KeyError for a code that is none."""
    return _words()[code]


def _words() -> dict[str, str]:
    return {
        "asbestos": _(
            "Asbestos may be in asbestos cement and in vermiculite fill: stop, do not break, drill "
            "or sweep it, keep others out, have it tested. Only those licensed for it take it out."
        ),
        "lead": _(
            "Lead paint, likely before 1978 unless a test says not: a certified firm and a "
            "certified renovator, the pamphlet handed over before work begins, the area contained, "
            "no open flame, no dry sanding or power tools without a HEPA vacuum, cleaning verified "
            "at the end, records kept. The rule binds once more than 6 ft² of paint in a room, or "
            "20 ft² outdoors, is disturbed, and whenever windows are replaced."
        ),
        "old wiring": _(
            "Knob-and-tube wiring: nothing is blown or laid over it while it is live. A licensed "
            "electrician traces it and takes it out of use, in writing, before any fill."
        ),
        "excavation": _(
            "Digging beside the house: lines in the ground marked first; never below the footing; "
            "along old brick or stone in short lengths, an engineer asked first. From 5 ft deep, "
            "or where sides may cave in: sloped, shored or shielded, inspected by a competent "
            "person daily and after rain; spoil 2 ft back (29 CFR 1926 subpart P, from memory)."
        ),
        "crawlspace": _(
            "Crawlspaces: the air may be bad, so open and blow it through first, no engine or "
            "flame in there; look for live or bare wires and switch them off before crawling in; "
            "dust mask or respirator, gloves, cover; stay out of standing water. Somebody outside "
            "knows who is in there and keeps in touch."
        ),
        "lines in bays": _(
            "Electrical lines, pipes and ducts may run in the bays: find them, switch the circuits "
            "off and prove them dead before drilling; stop the drill at the depth of the skin."
        ),
        "fibre": _(
            "Fibre and dust: a fitted respirator (N95 or better), gloves, eye protection, long "
            "sleeves; vacuum, never sweep dry; hang sheets between the work and the rooms."
        ),
        "blowing": _(
            "Blowing loose fill: earth the hose, keep in touch between machine and nozzle, watch "
            "old plaster and thin linings for bulging, keep fill clear of flues, chimneys and "
            "lights that are not made to be covered."
        ),
        "sprayed foam": _(
            "Sprayed foam holds isocyanates: supplied air, full cover, the house empty and vented "
            "while it is sprayed and until the maker's re-occupancy time has passed (24 hours "
            "where the maker says none). No passes thicker than the maker allows: it heats itself."
        ),
        "sealant foam": _(
            "Polyurethane sealant foam from a can: gloves and eye protection, air the room, no "
            "flame or pilot light near; no such foam against a flue or chimney."
        ),
        "foam board": _(
            "Foam board burns: no flame, torch or hot work near it; store it away from the house; "
            "indoors it is covered with 1/2 in gypsum board, or what the code asks, the same day "
            "if possible."
        ),
        "silica": _(
            "Cutting fibre-cement, brick or concrete sets silica free: score and snap or shears, "
            "otherwise wet cutting or a saw with a HEPA vacuum, outdoors and downwind, with a "
            "respirator."
        ),
        "heights": _(
            "Ladders, scaffold and roofs: ladders tied, on firm ground, clear of power lines; "
            "fall protection from 6 ft up; no work on wet or icy roofs or in high wind with boards."
        ),
        "attic heat": _(
            "Attics and roofs get hot: work early, drink, rest in turns, never alone; boards to "
            "kneel on, eyes on nails above and on the ceiling below."
        ),
    }
