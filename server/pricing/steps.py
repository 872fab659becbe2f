"""The steps of the work, by the codes that a price book refers to."""

from __future__ import annotations

from enum import StrEnum


class Step(StrEnum):
    """One sort of work. A value is stable: price books hold it."""

    TAKE_OFF_CLADDING = "take off cladding"
    TAKE_OFF_ROOFING = "take off roofing"
    TAKE_OFF_MEMBRANE = "take off membrane"
    TAKE_OFF_SHEATHING = "take off sheathing"
    TAKE_OFF_LINING = "take off lining"
    TAKE_OFF_INSULATION = "take off insulation"
    TAKE_OFF_ASBESTOS = "take off asbestos"
    TAKE_OFF_LAYER = "take off another layer"
    TAKE_OUT_FILL = "take out old fill"
    TAKE_OUT_VERMICULITE = "take out vermiculite"
    DISPOSAL = "disposal"

    NEW_CLADDING = "new cladding"
    NEW_ROOFING = "new roofing"
    NEW_MEMBRANE = "new membrane"
    NEW_SHEATHING = "new sheathing"
    NEW_LINING = "new lining"
    NEW_BOARD = "fit insulation board"
    NEW_BATTS = "fit batts"
    NEW_FILL = "blow in"
    NEW_SPRAYED_FOAM = "spray foam"
    NEW_FRAMING = "new framing"
    NEW_LAYER = "new layer"
    FURRING = "furring strips"
    EDGE_BOARD = "slab edge board"

    DRILL_OUTSIDE = "drill and plug from outside"
    DRILL_INSIDE = "drill and plug from inside"
    EDGE_TRENCH = "slab edge trench"
    BUILD_ANEW = "build anew"

    NEW_WINDOW = "new window"
    NEW_STORM = "new storm window"
    NEW_SKYLIGHT = "new skylight"
    NEW_DOOR = "new door"
    SUN_CONTROL = "sun control of glass"
    JAMB_EXTENSION = "jamb extension"
    CURB_EXTENSION = "skylight curb extension"

    AIR_SEALING = "air sealing by flow"
    AIR_SEALING_BY_AREA = "air sealing by floor area"
    BLOWER_DOOR_TEST = "blower-door test"
    RECOVERY_VENTILATION = "balanced ventilation with heat recovery"
    BALANCED_VENTILATION = "balanced ventilation"
    ONE_WAY_VENTILATION = "one-way ventilation"
    CLOSE_VENTS = "close vents"
    CHANGE_VENTS = "change vents"
    NEW_HEATING = "heating equipment"
    NEW_COOLING = "cooling equipment"

    SCAFFOLD = "scaffold"
    SET_UP = "set-up"
    PERMITS = "permits"


# Steps that buy the material they name: priced by it or by its group, and with embodied carbon.
MATERIAL_STEPS = frozenset(
    {
        Step.NEW_CLADDING,
        Step.NEW_ROOFING,
        Step.NEW_MEMBRANE,
        Step.NEW_SHEATHING,
        Step.NEW_LINING,
        Step.NEW_BOARD,
        Step.NEW_BATTS,
        Step.NEW_FILL,
        Step.NEW_SPRAYED_FOAM,
        Step.NEW_FRAMING,
        Step.NEW_LAYER,
        Step.EDGE_BOARD,
    }
)
# Steps that bring something of which no table here knows the embodied carbon.
PRODUCT_STEPS = frozenset(
    {
        Step.BUILD_ANEW,
        Step.NEW_WINDOW,
        Step.NEW_STORM,
        Step.NEW_SKYLIGHT,
        Step.NEW_DOOR,
        Step.SUN_CONTROL,
        Step.JAMB_EXTENSION,
        Step.CURB_EXTENSION,
        Step.RECOVERY_VENTILATION,
        Step.BALANCED_VENTILATION,
        Step.ONE_WAY_VENTILATION,
        Step.NEW_HEATING,
        Step.NEW_COOLING,
    }
)
