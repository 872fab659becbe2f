"""What is said of loads, fasteners and thicknesses."""

from __future__ import annotations

from server.finding_words.base import RuleWords
from server.units import N_

WORDS = {
    "load on board": RuleWords(
        title=N_("Load on board under a slab"),
        source=N_(
            "Sustained pressure of slab, 40 lb/ft² (IRC 2021 Table R301.5, from memory) and a "
            "partition of 64 lb/ft, against one third of the strength at 10 % deformation (common"
            " practice, against creep). A footing may press with what its soil is allowed to "
            "bear, 1500 lb/ft² for the weakest listed (IRC 2021 Table R401.4.1, from memory)."
        ),
        told={
            "carries": (
                N_(
                    "{board} carries the slab, its rooms and a partition for decades. It carries "
                    "no footing: one may press with up to {footing}, on better soil with more."
                ),
                "",
            ),
            "carries a footing too": (
                N_(
                    "{board} carries the slab, its rooms and a partition for decades, and "
                    "{footing}, the most that a footing may press with on weak soil; on better "
                    "soil one may press with more. A footing needs its engineer in any case."
                ),
                "",
            ),
            "too soft": (
                N_(
                    "{board} under the slab is pressed more than it carries for decades: it "
                    "creeps and the slab cracks."
                ),
                N_(
                    "Take board of a higher compressive strength under the slab and under "
                    "partitions, and none under footings."
                ),
            ),
            "weight not known": (
                N_("The density of the slab is not known, so this cannot be judged."),
                N_("Give its density."),
            ),
            "strength not known": (
                N_("The compressive strength of {board} is not known, so this cannot be judged."),
                N_("Give its strength at 10 % deformation, or choose another board."),
            ),
        },
    ),
    "cladding over board": RuleWords(
        title=N_("Fastening through the board"),
        source=N_(
            "Screw length is furring + insulation + sheathing + 1 1/2 in into the framing (common"
            " practice). Tables for cladding over foam end at 4 in and 25 lb/ft², and are for foam "
            "right over sheathing on framing (IRC 2021 R703.15, from memory)."
        ),
        told={
            "within tables": (
                N_(
                    "Strips over {boards} of board need screws of {screw}, one"
                    " every {spacing} both ways; the cladding weighs {weight}. Printed tables "
                    "reach this far for foam, not with every spacing and weight."
                ),
                N_(
                    "Look up the row for your weight and spacing, and have the pattern confirmed "
                    "for this board by its maker or an engineer; every screw must hit framing."
                ),
            ),
            "within tables, no strips": (
                N_(
                    "Cladding straight over {boards} of board: screws through the board need "
                    "{screw}, and as much more as they go through of the cladding; one every "
                    "{spacing} both ways is given, and the cladding weighs {weight}. Printed "
                    "tables reach this far for foam, not with every spacing and weight."
                ),
                N_(
                    "Look up the row for your weight and spacing in the table without strips, and "
                    "have the pattern confirmed for this board by its maker or an engineer; every "
                    "screw must hit framing."
                ),
            ),
            "beyond tables": (
                N_(
                    "Strips over {boards} of board need screws of {screw}. "
                    "Printed fastening tables end at 4 in of foam, and nobody may stretch them."
                ),
                N_(
                    "Get an engineered fastening detail before ordering, or take no more than 4 in."
                ),
            ),
            "beyond tables, no strips": (
                N_(
                    "Cladding straight over {boards} of board: screws through the board need "
                    "{screw}, and as much more as they go through of the cladding. Printed "
                    "fastening tables end at 4 in of foam, and nobody may stretch them."
                ),
                N_(
                    "Get an engineered fastening detail before ordering, or take no more than 4 in."
                ),
            ),
            "beyond tables, not on sheathing": (
                N_(
                    "Screws through {boards} of board would also pass brick or air behind it "
                    "before they reach what carries the wall. Printed fastening tables are for "
                    "foam right over sheathing on framing: none covers this."
                ),
                N_(
                    "Get an engineered fastening detail before ordering, or take off what lies "
                    "between and put the board right on the sheathing."
                ),
            ),
            "too heavy": (
                N_(
                    "The cladding weighs {weight}, more than printed tables let hang on screws "
                    "through board."
                ),
                N_("Stand heavy cladding on a ledge of its own, or get an engineered detail."),
            ),
            "no such screw": (
                N_("{boards} of board would need screws of {needed}, longer than any in stock."),
                N_("Take thinner board, or an engineered system of standing framing outside."),
            ),
            "roof": (
                N_(
                    "{boards} of board above the deck need screws of {screw}, "
                    "one every {spacing} both ways, through the strips into the rafters."
                ),
                N_("Have the pattern checked for wind uplift by a qualified person."),
            ),
            "on masonry": (
                N_("Board is fixed to brick or block, not to framing."),
                N_(
                    "Use anchors made for masonry, set in sound brick and tested for pull-out; "
                    "not in the mortar of old soft walls."
                ),
            ),
            "no screws given": (
                N_("{boards} of board need screws of {screw}; their pattern is not given."),
                N_("Say how many screws go through the board."),
            ),
            "weight not known": (
                N_(
                    "The weight of the cladding is not known; {boards} of board need screws of "
                    "{needed}."
                ),
                N_("Give the cladding, with its density."),
            ),
        },
    ),
    "wall growth": RuleWords(
        title=N_("Walls and roofs get thicker"),
        source=N_("Thickness of layers added less those taken off."),
        told={
            "outward": (
                N_("The wall grows outward by {growth}."),
                N_(
                    "Check what it meets: eaves and rakes must still cover it, window jambs, "
                    "sills and door thresholds are extended, porch roofs and steps fitted, and "
                    "the lot line and setbacks kept."
                ),
            ),
            "roof": (
                N_(
                    "The roof grows by {growth}; its edges change, and while it is open rain gets"
                    " in."
                ),
                N_(
                    "Plan deeper fascias and rakes, longer vent pipes and a new chimney flashing,"
                    " and dry in every day's work."
                ),
            ),
            "inward": (
                N_("The wall grows into the room by {growth}."),
                N_("Outlets, trim, stairs and radiators move; check the width of passages."),
            ),
        },
    ),
    "load on rafters": RuleWords(
        title=N_("Weight on old rafters"),
        source=N_(
            "Density times thickness of the rafters and all that hangs on them, 2 lb/ft² for "
            "rafters that are not described (common practice). Rafter tables reckon with "
            "10 or 20 lb/ft² (IRC 2021 R802.4, from memory); 2.5 lb/ft² is a layer of shingles "
            "(common practice)."
        ),
        told={
            "as before": (
                N_("The roof gets hardly heavier, no more than by a layer of shingles."),
                "",
            ),
            "heavier, still light": (
                N_(
                    "The roof gets heavier than by a layer of shingles, but stays within what the "
                    "lightest rafter tables reckon with."
                ),
                N_("Look at the rafters first: none may sag, be notched or cracked."),
            ),
            "heavier": (
                N_("The roof gets heavier than the lightest rafter tables reckon with."),
                N_(
                    "Have a qualified person check which load the rafters were sized for, most of "
                    "all where they sag, are notched or carry snow."
                ),
            ),
            "heavy": (
                N_(
                    "The roof gets heavier, and with all its layers it weighs more than any "
                    "printed table reckons with."
                ),
                N_(
                    "A licensed engineer checks the rafters, and snow where it falls, before the "
                    "work is sold."
                ),
            ),
            "weight not known": (
                N_("Of a layer of the roof the weight is not known, so this cannot be judged."),
                N_("Describe its layers, each with its material and density."),
            ),
        },
    ),
}
