"""What is said of water vapour in walls and roofs."""

from __future__ import annotations

from server.finding_words.base import RuleWords
from server.units import N_

WORDS = {
    "interstitial": RuleWords(
        title=N_("Damp in walls and roofs from the air of the rooms"),
        source=N_(
            "ISO 13788:2012 clause 6, diffusion only, indoor humidity by its Annex A (from "
            "memory), paint as surveyed or latex of 10 perm; at most 5 % of the mass of boards, 3 "
            "% of panels, 0.5 kg/m² elsewhere, after DIN 4108-3 (from memory). Rain, sun, wind and"
            " air leaks are not in it."
        ),
        told={
            "dry": (
                N_("No month of a usual year condenses water inside."),
                "",
            ),
            "too much, closed outside": (
                N_(
                    "In winter {water} of water gathers at the inner face of {where}, behind a "
                    "skin that lets hardly any vapour out. It dries in summer, but that is more "
                    "than it should take up.{why}"
                ),
                N_(
                    "Take a skin that lets vapour out or a vented gap behind it, or put "
                    "insulation outside of {where}. A tight layer inside would close it on both "
                    "sides."
                ),
            ),
            "sweats in summer": (
                N_(
                    "In summer outdoor vapour condenses at the outer face of {where}, up to "
                    "{water}; it dries when cooling stops."
                ),
                N_(
                    "Leave out tight layers on the room side and set cooling no lower than "
                    "comfort asks."
                ),
            ),
            "sweats in summer, too much": (
                N_(
                    "In summer outdoor vapour condenses at the outer face of {where}, up to "
                    "{water}: more than it should take up."
                ),
                N_(
                    "Leave out the tight layer on the room side, keep rain and ground vapour off "
                    "the other side, or put the tight layer there."
                ),
            ),
            "gains a little from summer": (
                N_(
                    "In summer outdoor vapour condenses at the outer face of {where}, up to "
                    "{water}, and {remaining} of it is left after a year: it adds up over the "
                    "years."
                ),
                N_(
                    "Leave out the tight layer on the room side, or put one on the other side; "
                    "set cooling no lower than comfort asks."
                ),
            ),
            "stays wet from summer": (
                N_(
                    "In summer outdoor vapour condenses at the outer face of {where}, up to "
                    "{water}, and {remaining} of it is still there after a year: this rots."
                ),
                N_(
                    "Do not build it so: leave out the tight layer on the room side, keep rain "
                    "and ground vapour off the other side, or put the tight layer there."
                ),
            ),
            "dries": (
                N_(
                    "In winter up to {water} of water gathers at the inner face of {where}; it "
                    "dries again in summer.{why}"
                ),
                N_(
                    "Keep indoor air out of the construction and the rooms at a usual humidity; "
                    "insulation outside of {where} would keep it warm and dry."
                ),
            ),
            "dries, too much": (
                N_(
                    "In winter {water} of water gathers at the inner face of {where}. It dries in"
                    " summer, but that is more than it should take up.{why}"
                ),
                N_(
                    "Put a class II vapour retarder (1 perm or less, such as a retarder paint) on "
                    "the room side, or insulation outside of {where}."
                ),
            ),
            "soaks behind a closed skin": (
                N_(
                    "In winter {water} of water gathers at the inner face of {where}, behind a "
                    "skin that lets hardly any vapour out. It dries in summer only by the sums; "
                    "boards and studs rot on the way.{why}"
                ),
                N_(
                    "Do not build it so: take a skin that lets vapour out or a vented gap behind "
                    "it, or put enough insulation outside of {where}. A tight layer inside would "
                    "close it on both sides."
                ),
            ),
            "gains a little": (
                N_(
                    "A little water gathers at the inner face of {where}, up to {water}, and "
                    "{remaining} of it is left after a year: it adds up over the years.{why}"
                ),
                N_(
                    "Put a class II vapour retarder (1 perm or less, such as a retarder paint) on "
                    "the room side."
                ),
            ),
            "gains a little, closed outside": (
                N_(
                    "A little water gathers at the inner face of {where}, up to {water}, behind a "
                    "skin that lets hardly any vapour out, and {remaining} of it is left after a "
                    "year: it adds up over the years.{why}"
                ),
                N_(
                    "Take a skin that lets vapour out or a vented gap behind it, or put "
                    "insulation outside of {where}."
                ),
            ),
            "stays wet": (
                N_(
                    "Water gathers at the inner face of {where}, up to {water}, and {remaining} "
                    "of it is still there after a year: this rots.{why}"
                ),
                N_(
                    "Do not build it so: put a class II vapour retarder (1 perm or less) on the "
                    "room side, or enough insulation outside of {where}."
                ),
            ),
            "stays wet, closed outside": (
                N_(
                    "Water gathers at the inner face of {where}, up to {water}, behind a skin that "
                    "lets hardly any vapour out, and {remaining} of it is still there after a "
                    "year: this rots.{why}"
                ),
                N_(
                    "Do not build it so: take a skin that lets vapour out or a vented gap behind "
                    "it, or put enough insulation outside of {where}. A tight layer inside would "
                    "close it on both sides."
                ),
            ),
            "humidity not known": (
                N_("The climate tells no humidity of the air, so this cannot be judged."),
                N_("Choose a climate with humidity."),
            ),
            "layers not known": (
                N_("Only its U is known, not its layers, so this cannot be judged."),
                N_("Describe its layers."),
            ),
            "vapour not known": (
                N_("No vapour figure is known of {layers}, so this cannot be judged."),
                N_("Give the material a vapour resistance factor, or choose a known one."),
            ),
        },
    ),
    "sheathing in winter": RuleWords(
        title=N_("Sheathing warm enough in winter"),
        source=N_(
            "Mean of the three coldest months, straight fall of temperature through the fill, "
            "indoor air by ISO 13788:2012 Annex A (from memory); holding the sheathing above the "
            "dew point is common practice."
        ),
        told={
            "warm": (
                N_(
                    "In the three coldest months the inner face of the sheathing stays above the "
                    "dew point of the indoor air, {dew_point}: air that leaks in leaves it dry."
                ),
                "",
            ),
            "warm masonry": (
                N_(
                    "In the three coldest months what lies outside of the fill stays above the "
                    "dew point of the indoor air, {dew_point}: air that leaks in leaves the "
                    "masonry dry."
                ),
                "",
            ),
            "cold masonry": (
                N_(
                    "In the three coldest months the masonry behind the fill is colder than the "
                    "dew point of the indoor air, {dew_point}: air that leaks in wets it.{why}"
                ),
                N_(
                    "Put foam board or foam without gaps against the masonry, or seal the lining "
                    "against air at every edge and outlet."
                ),
            ),
            "cold, open": (
                N_(
                    "In the three coldest months the inner face of the sheathing is colder than "
                    "the dew point of the indoor air, {dew_point}. What condenses there can dry "
                    "outward.{why}"
                ),
                N_(
                    "Seal the room side against air. To keep it above the dew point make the "
                    "outer layers together at least {board}, {needed} in all."
                ),
            ),
            "cold, closed": (
                N_(
                    "In the three coldest months the inner face of the sheathing is colder than "
                    "the dew point of the indoor air, {dew_point}, and the layers outside of it "
                    "let hardly any vapour out.{why}"
                ),
                N_(
                    "Make the outer layers together at least {board}, {needed} in all, and seal "
                    "the room side against air."
                ),
            ),
            "cold, open, behind masonry": (
                N_(
                    "In the three coldest months the inner face of the sheathing is colder than "
                    "the dew point of the indoor air, {dew_point}. What condenses there can dry "
                    "outward.{why}"
                ),
                N_(
                    "Seal the room side against air and keep the rooms at a usual humidity: the "
                    "masonry leaves no room for insulation outside."
                ),
            ),
            "cold, closed, behind masonry": (
                N_(
                    "In the three coldest months the inner face of the sheathing is colder than "
                    "the dew point of the indoor air, {dew_point}, and the layers outside of it "
                    "let hardly any vapour out.{why}"
                ),
                N_(
                    "Seal the room side against air and keep the rooms dry: the masonry leaves no "
                    "room for insulation outside. Have the wall designed before more goes between "
                    "the studs."
                ),
            ),
            "vapour not known": (
                N_("A layer without vapour figure lies outside, so this cannot be judged."),
                N_("Give its material a vapour resistance factor."),
            ),
            "humidity not known": (
                N_("The climate tells no humidity of the air, so this cannot be judged."),
                N_("Choose a climate with humidity."),
            ),
        },
    ),
    "retarder by zone": RuleWords(
        title=N_("Vapour retarder and outside insulation by zone"),
        source=N_(
            "IRC 2021 Tables R702.7(2), (3) and (4) (from memory); a guide, your code official "
            "decides."
        ),
        told={
            "none asked": (
                N_(
                    "Zone {zone} asks for no vapour retarder tighter than painted plaster or "
                    "gypsum board."
                ),
                "",
            ),
            "retarder inside": (
                N_(
                    "A vapour retarder of class I or II lies on the room side, as zone {zone} asks."
                ),
                "",
            ),
            "retarder inside, foam outside": (
                N_(
                    "A tight film lies on the room side and foam outside: zone {zone} asks for a "
                    "retarder, but between the two nothing dries."
                ),
                N_(
                    "Take a retarder that opens in summer (kraft, variable membrane or paint) in "
                    "place of the film, or have the wall designed."
                ),
            ),
            "enough outside": (
                N_(
                    "Outside insulation of {has} is enough for what lies on the room side in zone"
                    " {zone}, which asks {needed}."
                ),
                "",
            ),
            "vented cladding": (
                N_(
                    "Cladding over a vented gap lets painted plaster or gypsum board do inside in"
                    " zone {zone}."
                ),
                "",
            ),
            "too little outside": (
                N_(
                    "With what lies on the room side, zone {zone} asks {needed} of insulation "
                    "outside of the framing; there is {has}."
                ),
                N_(
                    "Make the outer layer at least {board}, or put a class II vapour retarder (1 "
                    "perm or less, such as a retarder paint) on the room side."
                ),
            ),
            "too little outside, closed": (
                N_(
                    "With what lies on the room side, zone {zone} asks {needed} of insulation "
                    "outside of the framing; there is {has}, under a skin that lets hardly any "
                    "vapour out."
                ),
                N_(
                    "Make the outer layer at least {board}. A tight layer inside would close the "
                    "wall on both sides."
                ),
            ),
            "too little foam outside": (
                N_(
                    "With what lies on the room side, zone {zone} asks {needed} of insulation "
                    "outside of the framing; there is {has}, of foam that keeps the wall from "
                    "drying outward."
                ),
                N_(
                    "Make the outer layer at least {board}: with so thin a foam a retarder inside "
                    "is not enough."
                ),
            ),
            "too little outside, behind brick": (
                N_(
                    "With what lies on the room side, zone {zone} asks {needed} of insulation "
                    "outside of the framing; there is {has}, and the brick leaves no room for more."
                ),
                N_(
                    "Put a class II vapour retarder (1 perm or less, such as a retarder paint) on "
                    "the room side and seal it against air."
                ),
            ),
            "too little outside, closed, behind brick": (
                N_(
                    "With what lies on the room side, zone {zone} asks {needed} of insulation "
                    "outside of the framing; there is {has}, under a skin that lets hardly any "
                    "vapour out, and the brick leaves no room for more."
                ),
                N_("Have the wall designed before more goes between the studs."),
            ),
            "too little foam outside, behind brick": (
                N_(
                    "With what lies on the room side, zone {zone} asks {needed} of insulation "
                    "outside of the framing; there is {has}, of foam that keeps the wall from "
                    "drying outward, and the brick leaves no room for more."
                ),
                N_("Have the wall designed before more goes between the studs."),
            ),
            "found with too little outside": (
                N_(
                    "With what lies on the room side, zone {zone} asks new walls for {needed} of "
                    "insulation outside of the framing; there is {has}. It was built so and stays."
                ),
                N_(
                    "Seal the room side against air and keep the rooms at a usual humidity; look "
                    "whether a facing of the batts is a retarder, and describe it."
                ),
            ),
            "class I on both sides": (
                N_(
                    "A layer that lets hardly any vapour through lies on the room side and "
                    "another outside: between the two nothing dries. Zone {zone} allows it only "
                    "where the wall is designed for it."
                ),
                N_(
                    "Take a retarder that opens in summer (kraft, variable membrane or paint) in "
                    "place of the tight layer inside."
                ),
            ),
            "opens when damp": (
                N_(
                    "A sheet of less than 1 perm lies on the room side. Zone {zone} allows it "
                    "where it lets more through when damp, as kraft and variable membranes do."
                ),
                "",
            ),
            "tight for the zone": (
                N_(
                    "A retarder of less than 1 perm lies on the room side; zone {zone} wants one "
                    "that opens when damp, as kraft and variable membranes do."
                ),
                N_(
                    "Leave it out or take one of those; painted plaster or gypsum board is enough"
                    " here."
                ),
            ),
            "vapour not known": (
                N_(
                    "A layer without vapour figure lies on the room side, so this cannot be judged."
                ),
                N_("Give its material a vapour resistance factor."),
            ),
            "too tight": (
                N_(
                    "A layer on the room side lets hardly any vapour through; zone {zone} does "
                    "not allow that, since in summer water comes from outside."
                ),
                N_("Leave the tight layer out: painted plaster or gypsum board is enough here."),
            ),
            "zone not known": (
                N_("The climate zone of the energy code is not known, so this cannot be judged."),
                N_("Choose a region or a weather station, or give the zone."),
            ),
        },
    ),
    "unvented roof": RuleWords(
        title=N_("Insulated roof without a vented gap under its deck"),
        source=N_(
            "IRC 2021 R806.5 and its table (from memory; R-5 in zone 1 as published by a national "
            "building-science programme), R806.3 for the gap. The table is for air-impermeable "
            "insulation, that is foam; a guide, your code official decides."
        ),
        told={
            "vented": (
                N_("Outdoor air passes between the insulation and the deck."),
                "",
            ),
            "vented, too narrow": (
                N_("A gap narrower than 1 in is to vent the underside of the deck."),
                N_("Make it 1 in clear from eave to ridge."),
            ),
            "all above the deck": (
                N_("All insulation of the roof lies above the deck, which it keeps warm."),
                "",
            ),
            "foam alone": (
                N_("Foam alone insulates the roof and touches its deck: no air gets there."),
                "",
            ),
            "thin foam, no retarder": (
                N_(
                    "So thin a layer of closed-cell foam lies against the deck that, by the "
                    "figures of tables, it lets more than 1 perm of vapour through; zone {zone} "
                    "asks for 1 perm or less."
                ),
                N_("Make it at least {board}, or show the maker's figure to the code official."),
            ),
            "open-cell foam, no retarder": (
                N_(
                    "Open-cell foam lies against the deck; zone {zone} asks for a retarder of 1 "
                    "perm or less on it, since it lets vapour through."
                ),
                N_(
                    "Spray or paint a class II retarder on the foam, or take closed-cell foam at "
                    "the deck."
                ),
            ),
            "tight ceiling": (
                N_(
                    "A film that lets no vapour through lies under rafters that are not vented: "
                    "the code allows none there, since a leak cannot dry."
                ),
                N_("Leave the film out."),
            ),
            "foam, enough": (
                N_(
                    "Air-impermeable insulation of {has} lies at the deck; zone {zone} asks "
                    "{needed}."
                ),
                "",
            ),
            "foam, too thin": (
                N_(
                    "Air-impermeable insulation of {has} lies at the deck; zone {zone} asks "
                    "{needed}, so that the deck stays warm."
                ),
                N_("Make it at least {board}."),
            ),
            "open board, as much": (
                N_(
                    "The rafters are not vented. Vapour-open board of {has} lies above the deck, "
                    "as much as the {needed} that zone {zone} asks of foam, but the table does "
                    "not know board that lets air through."
                ),
                N_(
                    "It works with an unbroken air layer on the deck and a vented gap above the "
                    "board; show both to the code official before the work."
                ),
            ),
            "open board, less": (
                N_(
                    "The rafters are not vented. Vapour-open board of {has} lies above the deck; "
                    "zone {zone} asks {needed} even of foam."
                ),
                N_(
                    "Make the board above the deck at least {board}, with an unbroken air layer "
                    "on the deck and a vented gap above the board, and ask the code official."
                ),
            ),
            "found without air-impermeable insulation": (
                N_(
                    "The roof was found insulated between its rafters without a vented gap: of a "
                    "new one zone {zone} asks {needed} of insulation at the deck that stops air."
                ),
                N_(
                    "Look at the deck from inside when it is next open; when the roof is renewed, "
                    "put board above the deck or make a vented gap."
                ),
            ),
            "no air-impermeable insulation": (
                N_(
                    "The roof is insulated between its rafters, without a vented gap under the "
                    "deck and without insulation at the deck that stops air: zone {zone} asks "
                    "{needed} there."
                ),
                N_(
                    "Leave a gap of at least 1 in vented from eave to ridge, or put {board} of "
                    "closed-cell foam or its equal against the deck, or board above the deck."
                ),
            ),
            "zone not known": (
                N_("The climate zone of the energy code is not known, so this cannot be judged."),
                N_("Choose a region or a weather station, or give the zone."),
            ),
        },
    ),
    "mould at surface": RuleWords(
        title=N_("Mould at inside surfaces"),
        source=N_(
            "ISO 13788:2012 clause 5, no more than 80 % humidity at the surface, for windows and "
            "doors no condensation (from memory), in means of months: on single cold nights glass "
            "may sweat all the same. Corners, junctions and screws are colder than what is "
            "computed here."
        ),
        told={
            "warm": (
                N_(
                    "Inside surfaces stay warm enough all year that no mould grows on them at a "
                    "usual humidity."
                ),
                "",
            ),
            "cold": (
                N_(
                    "In {month} the inside surface is so cold that the air at it is above 80 % "
                    "humid: mould can grow, most of all behind furniture."
                ),
                N_("Bring it to at least {resistance} in all, and keep the rooms dry until then."),
            ),
            "cold over the framing": (
                N_(
                    "In {month} the inside surface over the framing is so cold that the air at it"
                    " is above 80 % humid: mould can grow in stripes there. More fill between the"
                    " framing does not change that."
                ),
                N_(
                    "Put insulation over the framing, inside or outside, {resistance} in all "
                    "there, and keep the rooms dry until then."
                ),
            ),
            "cold, below grade": (
                N_(
                    "In {month} the inside surface is so cold that the air at it is above 80 % "
                    "humid: musty smell and mould."
                ),
                N_(
                    "Insulate it from inside only once it is dry, or hold the air there below 50 "
                    "% with a dehumidifier."
                ),
            ),
            "window sweats": (
                N_(
                    "In {month} the glass gets colder than the dew point of the room, so it sweats."
                ),
                N_(
                    "A storm window or a better window warms it; wipe the sill and keep the rooms"
                    " dry until then."
                ),
            ),
            "door sweats": (
                N_(
                    "In {month} the inside of the door gets colder than the dew point of the "
                    "room, so it sweats."
                ),
                N_("A storm door or an insulated door warms it; keep the rooms dry until then."),
            ),
            "humidity not known": (
                N_("The climate tells no humidity of the air, so this cannot be judged."),
                N_("Choose a climate with humidity."),
            ),
        },
    ),
    "below grade": RuleWords(
        title=N_("Insulation inside of walls and floors in the ground"),
        source=N_(
            "ISO 13788:2012 clause 5, no more than 80 % humidity in the mean of a month, and ISO "
            "13370:2007 for the ground (from memory), as a mean over the whole part. Air behind "
            "the insulation is taken to be as moist as the rooms'; water from the soil comes on "
            "top. IRC 2021 R702.7 asks for no vapour retarder on basement walls and below grade "
            "(from memory). Foam against the masonry first is common practice."
        ),
        told={
            "foam": (
                N_(
                    "Foam keeps the air of the rooms, and water from the soil, off what could get "
                    "mouldy."
                ),
                "",
            ),
            "warm": (
                N_(
                    "The inner face of the foam behind {fill} stays so warm that the air of the "
                    "rooms is at most 80 % humid there."
                ),
                "",
            ),
            "warm, no foam": (
                N_(
                    "The face behind {fill} stays so warm that the air of the rooms is at most 80 "
                    "% humid there; water from the soil is not in this, and {fill} does not keep "
                    "it back."
                ),
                N_(
                    "Put foam board against the concrete or masonry first, joints taped, and no "
                    "plastic film inside."
                ),
            ),
            "humid": (
                N_(
                    "In {month} the face behind {fill} is so cold that the air of the rooms is "
                    "above 80 % humid there: mould can grow, and water from the soil comes on "
                    "top.{why}"
                ),
                N_(
                    "Put foam board against the concrete or masonry first, joints taped, then "
                    "framing with nothing between, or with {fill} if the foam is at least {board} "
                    "({needed}). No plastic film inside."
                ),
            ),
            "humid behind a film": (
                N_(
                    "In {month} the face behind {fill} is so cold that the air of the rooms is "
                    "above 80 % humid there; and with {film} inside of it neither what leaks in "
                    "nor water from the soil can dry.{why}"
                ),
                N_(
                    "Leave {film} out. Put foam board against the concrete or masonry first, "
                    "joints taped, then framing with nothing between, or with {fill} if the foam "
                    "is at least {board} ({needed})."
                ),
            ),
            "humid inside of foam": (
                N_(
                    "In {month} the inner face of the foam behind {fill} is so cold that the air "
                    "of the rooms is above 80 % humid there: mould can grow in the framing.{why}"
                ),
                N_(
                    "Make the foam at least {board} ({needed}), or leave out some of what is "
                    "inside of it. No plastic film inside."
                ),
            ),
            "humid rooms": (
                N_(
                    "In {month} the air of the rooms is above 80 % humid behind {fill}, and no "
                    "foam keeps it below, since in some month the rooms themselves are as humid "
                    "as that.{why}"
                ),
                N_(
                    "Air the rooms or dry their air first, and put foam board against the concrete "
                    "or masonry in place of what lets air through. No plastic film inside."
                ),
            ),
            "film": (
                N_(
                    "{film} lies inside of {fill}: water that comes from the soil, or leaks in "
                    "from the rooms, cannot dry there."
                ),
                N_(
                    "Leave {film} out: painted gypsum board is enough, and foam board against the "
                    "concrete or masonry keeps the water of the soil back."
                ),
            ),
            "film, foam outside": (
                N_(
                    "{film} lies inside of {fill} and foam outside of it: between the two nothing "
                    "dries."
                ),
                N_("Leave {film} out: the foam already keeps the water of the soil back."),
            ),
            "layers not known": (
                N_(
                    "Only its U or R is known: it may be insulated inside, and with what decides, "
                    "so this cannot be judged."
                ),
                N_("Describe its layers."),
            ),
            "vapour not known": (
                N_("A layer without vapour figure lies inside, so this cannot be judged."),
                N_("Give its material a vapour resistance factor."),
            ),
            "humidity not known": (
                N_("The climate tells no humidity of the air, so this cannot be judged."),
                N_("Choose a climate with humidity."),
            ),
        },
    ),
    "closed on both sides": RuleWords(
        title=N_("To which side it can dry"),
        source=N_(
            "Permeance of all layers and paint on each side, figures of the material table; 1 "
            "perm and less dries slowly (IRC class II), 0.1 perm hardly at all (class I); as a "
            "sum our judgement."
        ),
        told={
            "dries both ways": (
                N_("What gets wet in it can dry to both sides."),
                "",
            ),
            "dries inward": (
                N_(
                    "It can dry to the rooms, hardly outward ({outward}). Keep the room side "
                    "open: no vinyl wallpaper, no foil."
                ),
                "",
            ),
            "dries outward": (
                N_("It can dry outward, hardly to the rooms ({inward})."),
                "",
            ),
            "slow on both sides": (
                N_("It dries slowly to both sides ({inward} inward, {outward} outward)."),
                N_("Keep rain and leaks out of it, and add no tighter layer on either side."),
            ),
            "closed on both sides": (
                N_(
                    "Neither side lets vapour out ({inward} inward, {outward} outward): a leak or"
                    " wet lumber stays wet in it."
                ),
                N_(
                    "Open one side: leave out the inner film or facing, or use board and membrane"
                    " outside that let vapour through."
                ),
            ),
            "vapour not known": (
                N_("A layer without vapour figure is in it, so this cannot be judged."),
                N_("Give its material a vapour resistance factor."),
            ),
        },
    ),
}
