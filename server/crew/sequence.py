"""In which order a crew does what a strategy asks: one table, and what it makes of the take-off.

Common practice: water and structure first, hazards before anyone is near them, the air barrier
before the board that covers it, the test while leaks can still be reached. To add a step of the
order: a row in `SEQUENCE`, its words in `stage_words.py`.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from server.crew.places import Place, PlacedItem
from server.pricing.steps import Step
from server.pricing.work_item import Unit, WorkItem

_ON = frozenset(
    {
        Step.NEW_MEMBRANE,
        Step.NEW_SHEATHING,
        Step.NEW_LINING,
        Step.NEW_LAYER,
        Step.NEW_BOARD,
        Step.NEW_BATTS,
        Step.NEW_FILL,
        Step.NEW_SPRAYED_FOAM,
        Step.NEW_CLADDING,
        Step.NEW_ROOFING,
        Step.FURRING,
    }
)
_FILLS = frozenset({Step.NEW_FILL, Step.NEW_SPRAYED_FOAM})
_OFF = frozenset(
    {
        Step.TAKE_OFF_CLADDING,
        Step.TAKE_OFF_ROOFING,
        Step.TAKE_OFF_MEMBRANE,
        Step.TAKE_OFF_SHEATHING,
        Step.TAKE_OFF_LINING,
        Step.TAKE_OFF_INSULATION,
        Step.TAKE_OFF_LAYER,
        Step.TAKE_OUT_FILL,
        Step.DISPOSAL,
    }
)
_OPENINGS = frozenset(
    {
        Step.NEW_WINDOW,
        Step.NEW_STORM,
        Step.NEW_SKYLIGHT,
        Step.NEW_DOOR,
        Step.SUN_CONTROL,
        Step.JAMB_EXTENSION,
        Step.CURB_EXTENSION,
    }
)
_VENTILATION = frozenset(
    {Step.RECOVERY_VENTILATION, Step.BALANCED_VENTILATION, Step.ONE_WAY_VENTILATION}
)
_VENTS = frozenset({Step.CLOSE_VENTS, Step.CHANGE_VENTS})
GROUND_COVER_STAGE = "ground cover"
_OUTER = frozenset({Place.UNDER, Place.OVER})


@dataclass(frozen=True, slots=True)
class Stage:
    """A stretch of the job. places: where its steps must be done; None for anywhere.

    A stage without steps has no items of its own: what it asks is known in another way.
    """

    code: str
    steps: frozenset[Step] = frozenset()
    places: frozenset[Place] | None = None

    def takes(self, step: Step, place: Place) -> bool:
        """Whether an item belongs here, unless an earlier stage has taken it."""
        return step in self.steps and (self.places is None or place in self.places)


# The order of the job. An item goes into the first stage that takes it.
SEQUENCE = (
    Stage("before"),
    Stage("protect", frozenset({Step.SET_UP, Step.PERMITS, Step.SCAFFOLD})),
    Stage("hazards", frozenset({Step.TAKE_OFF_ASBESTOS, Step.TAKE_OUT_VERMICULITE})),
    Stage("take off", _OFF),
    Stage("repair"),
    Stage("build anew", frozenset({Step.BUILD_ANEW})),
    # while the sheathing is bare: the air barrier covers the holes
    Stage("opened bays", _FILLS | {Step.NEW_BATTS}, frozenset({Place.OPENED_BAYS})),
    # through the old skin, which the air barrier covers with its holes
    Stage(
        "wrapped bays",
        _FILLS | {Step.DRILL_OUTSIDE, Step.DRILL_INSIDE},
        frozenset({Place.WRAPPED_BAYS}),
    ),
    Stage("air barrier", _ON - {Step.NEW_BOARD, Step.FURRING}, frozenset({Place.UNDER})),
    Stage("boards", frozenset({Step.NEW_BOARD, Step.NEW_BATTS}) | _FILLS, _OUTER),
    Stage("strips", frozenset({Step.FURRING}), _OUTER),
    Stage("openings", _OPENINGS),
    Stage("skin", _ON, _OUTER),
    Stage("framing", frozenset({Step.NEW_FRAMING})),
    Stage(
        "air sealing",
        frozenset({Step.AIR_SEALING, Step.AIR_SEALING_BY_AREA}) | _VENTS,
    ),
    # before any of the floor over it is insulated
    Stage(GROUND_COVER_STAGE),
    Stage(
        "closed bays",
        _FILLS | {Step.DRILL_OUTSIDE, Step.DRILL_INSIDE},
        frozenset({Place.BAYS, Place.INSIDE, Place.WHOLE}),
    ),
    Stage("batts", frozenset({Step.NEW_BATTS})),
    # while leaks can still be reached
    Stage("test while open"),
    Stage("attic", _ON | {Step.DRILL_INSIDE, Step.DRILL_OUTSIDE}, frozenset({Place.ATTIC})),
    Stage("basement", _ON | {Step.DRILL_INSIDE, Step.DRILL_OUTSIDE}, frozenset({Place.BASEMENT})),
    Stage("edge", frozenset({Step.EDGE_TRENCH, Step.EDGE_BOARD})),
    Stage("in the ground", _ON, frozenset({Place.OUTSIDE_IN_GROUND})),
    Stage("linings", _ON | {Step.DRILL_INSIDE, Step.DRILL_OUTSIDE}),
    Stage("ventilation", _VENTILATION),
    Stage("equipment", frozenset({Step.NEW_HEATING, Step.NEW_COOLING})),
    Stage("test out", frozenset({Step.BLOWER_DOOR_TEST})),
)
# What hides or buries what was there: nothing of it before water and wiring are settled.
CLOSING_STEPS = _ON | frozenset(
    {Step.NEW_FRAMING, Step.EDGE_BOARD, Step.BUILD_ANEW, Step.DRILL_OUTSIDE, Step.DRILL_INSIDE}
)
OUTSIDE_STAGES = frozenset({"air barrier", "boards", "strips", "skin", "openings", "build anew"})
_COVERING_STAGES = frozenset({"attic", "basement", "linings"})


@dataclass(frozen=True, slots=True)
class Line:
    """One thing to do in all places where it is alike. amount: in base SI of the unit."""

    words: str
    components: tuple[str, ...]
    amount: float
    unit: Unit
    thickness: float | None
    step: Step
    material: str | None = None


@dataclass(frozen=True, slots=True)
class StageLines:
    """A stage with what is done in it; without lines where it is asked in words only."""

    code: str
    lines: tuple[Line, ...] = ()


def stage_of(step: Step, place: Place) -> str:
    """The stage of an item, by its code."""
    return next(stage.code for stage in SEQUENCE if stage.takes(step, place))


def sequence(
    placed: Sequence[PlacedItem], in_words: Collection[str] = ()
) -> tuple[StageLines, ...]:
    """The stages of a strategy that does something, in order; none where it does nothing.

    in_words: codes of stages that are asked even without items of their own.
    """
    if not placed:
        return ()
    by_stage: dict[str, list[WorkItem]] = {}
    for each in placed:
        by_stage.setdefault(stage_of(each.item.step, each.place), []).append(each.item)
    asked = set(by_stage) | {"before", "test out"}
    if asked & ({"take off", "hazards"} | OUTSIDE_STAGES):
        asked.add("repair")
    if "test out" in by_stage and asked & _COVERING_STAGES:
        asked.add("test while open")
    asked.update(in_words)
    return tuple(
        StageLines(stage.code, lines_of(by_stage.get(stage.code, ())))
        for stage in SEQUENCE
        if stage.code in asked
    )


def lines_of(items: Iterable[WorkItem]) -> tuple[Line, ...]:
    """Items that are alike as one line, in the order in which they first come."""
    alike: dict[tuple[Step, str, Unit, float | None, str | None], list[WorkItem]] = {}
    for item in items:
        key = (item.step, item.words, item.unit, item.thickness, item.material)
        alike.setdefault(key, []).append(item)
    return tuple(
        Line(
            words=words,
            components=tuple(dict.fromkeys(each.component for each in found if each.component)),
            amount=sum(each.quantity for each in found),
            unit=unit,
            thickness=thickness,
            step=step,
            material=material,
        )
        for (step, words, unit, thickness, material), found in alike.items()
    )
