"""What is said of the materials that are put in: fire, noise, water, and taking them out again."""

from __future__ import annotations

from server.finding_words.base import RuleWords
from server.units import N_

_KEEP_AWAY = N_(
    "Keep it 2 in (51 mm) from a masonry chimney, as far from a metal flue as its label says, and "
    "3 in (75 mm) from recessed lights that are not rated for contact with insulation; cover it "
    "toward rooms with board or plaster."
)
_KEEP_OFF_LIGHTS = N_(
    "Nothing to do for itself. A paper or plastic facing on it burns: keep that covered. Keep "
    "any insulation 3 in (75 mm) from recessed lights that are not rated for contact."
)

_FOAM_COVER = RuleWords(
    title=N_("Foam covered against fire"),
    source=N_(
        "IRC R316.4 (2015, quoted text read), R316.5.3 and R316.5.11 (2018, read in part), "
        "R316.5.1 and R316.5.4 (from memory). Taken as a cover: gypsum board, plaster and boards "
        "of class A1 or A2 from 1/2 in (12 mm), masonry or concrete from 1 in (25 mm); in attics "
        "and crawlspaces also 3/8 in (9 mm) of gypsum board, 1/4 in (6 mm) of wood or 1 1/2 in (38"
        " mm) of mineral wool."
    ),
    told={
        "covered": (
            N_("{foam} is covered toward {space} by {thickness} of {cover}, as the code asks."),
            "",
        ),
        "covered by wood": (
            N_(
                "{foam} is covered toward {space} by {thickness} of {cover}. The code takes wood "
                "panels with tight joints from 23/32 in (18 mm); fire finds its way through the "
                "joints of loose boards."
            ),
            N_(
                "Tight panels are enough. Where they are single boards, ask the building "
                "official, or add 1/2 in gypsum board."
            ),
        ),
        "ignition barrier": (
            N_(
                "{foam} is covered toward {space} by {thickness} of {cover}: enough for a space "
                "that is entered for repairs only."
            ),
            "",
        ),
        "above the deck": (
            N_("{foam} lies above the roof deck, whose panels keep it from {space}."),
            "",
        ),
        "rim joist": (
            N_(
                "{foam} at the rim joist toward {space} may stay bare: the code allows up to "
                "3 1/4 in (83 mm) of sprayed foam there."
            ),
            "",
        ),
        "bare toward a room": (
            N_(
                "{foam} stands bare toward {space}. In a fire bare foam burns fast and gives "
                "thick, poisonous smoke."
            ),
            N_("Cover it with 1/2 in (12.7 mm) gypsum board, screwed on, before the room is used."),
        ),
        "thin toward a room": (
            N_(
                "{foam} is covered toward {space} by only {thickness} of {cover}. The code asks "
                "for as much as 1/2 in (12.7 mm) of gypsum board."
            ),
            N_("Add 1/2 in (12.7 mm) gypsum board over it."),
        ),
        "wrong cover toward a room": (
            N_(
                "{foam} is covered toward {space} by {cover} only, which the code does not count "
                "as a cover toward rooms."
            ),
            N_("Add 1/2 in (12.7 mm) gypsum board over it."),
        ),
        "bare in a buffer": (
            N_("{foam} stands bare toward {space}, or under less than the code counts as a cover."),
            N_(
                "Cover it with 3/8 in (9.5 mm) gypsum board, 1/4 in (6.4 mm) wood panel or "
                "1 1/2 in (38 mm) of mineral wool, or choose a foam or coating tested to stay bare "
                "there; where people spend time or store things, 1/2 in (12.7 mm) gypsum board."
            ),
        ),
    },
)

_FIRE_BEHAVIOUR = RuleWords(
    aside=True,
    title=N_("What the insulation does in a fire"),
    source=N_(
        "Classes of EN 13501-1 as in the material table. Temperatures: Hidalgo, Torero, Welch, "
        "Fire Technology 53 (2017), abstract read: polystyrene foam melted by 240 °C, "
        "polyisocyanurate decomposing from 300 °C, phenolic foam from 425 °C; all others general "
        "handbooks (from memory). Smouldering: U. Jensen, NTNU (2016), summary read; Wegner and "
        "Holmes, ASTM symposium paper STP29437S (1983), abstract read. Clearances: IRC R1003.18 as"
        " quoted in code change proposal RB458-13; metal flues by their label: common practice; "
        "recessed lights: NREL standard work specification 4.1001.1 (3 in)."
    ),
    told={
        "stone wool": (
            N_(
                "{materials} (class {classes}): does not burn. The fibres melt only above about "
                "1800 °F (1000 °C); the little binder in it smokes off from about 480 °F (250 °C)."
            ),
            _KEEP_OFF_LIGHTS,
        ),
        "glass wool": (
            N_(
                "{materials} (class {classes}): does not burn, but softens and sinks together at "
                "about 1100 to 1300 °F (600 to 700 °C), so it holds a fire back for a short time "
                "only."
            ),
            _KEEP_OFF_LIGHTS,
        ),
        "cellular glass": (
            N_(
                "{materials} (class {classes}): does not burn and gives no smoke; it softens above "
                "about 1300 °F (700 °C)."
            ),
            _KEEP_OFF_LIGHTS,
        ),
        "perlite or vermiculite": (
            N_(
                "{materials} (class {classes}): does not burn; it softens only above about 1800 °F "
                "(1000 °C)."
            ),
            _KEEP_OFF_LIGHTS,
        ),
        "does not burn": (
            N_("{materials} (class {classes}): gives nothing to a fire."),
            _KEEP_OFF_LIGHTS,
        ),
        "cellulose": (
            N_(
                "{materials} (class {classes}): is paper treated with borate; flames die out, but "
                "it can smoulder unseen from about 480 °F (250 °C) where something hot lies in it."
            ),
            _KEEP_AWAY,
        ),
        "wood fibre": (
            N_(
                "{materials} (class {classes}): chars slowly and can smoulder unseen for hours, "
                "from about 480 °F (250 °C)."
            ),
            _KEEP_AWAY,
        ),
        "natural fibre": (
            N_(
                "{materials} (class {classes}): burns where it is not treated, plant fibre from "
                "about 480 °F (250 °C); sheep wool is hard to light, but gives poisonous smoke."
            ),
            _KEEP_AWAY,
        ),
        "cork": (
            N_(
                "{materials} (class {classes}): chars and glows rather than flames, from about "
                "570 °F (300 °C)."
            ),
            _KEEP_AWAY,
        ),
        "wood-wool cement": (
            N_(
                "{materials} (class {classes}): hardly burns: cement coats the wood, which chars "
                "from about 480 °F (250 °C)."
            ),
            _KEEP_AWAY,
        ),
        "polystyrene": (
            N_(
                "{materials} (class {classes}): softens near 175 to 212 °F (80 to 100 °C), has "
                "melted by 465 °F (240 °C), and then drips and burns with dense smoke."
            ),
            _KEEP_AWAY,
        ),
        "urethane foam": (
            N_(
                "{materials} (class {classes}): does not melt; from about 570 °F (300 °C) it "
                "chars, burns and gives poisonous smoke, hydrogen cyanide among it."
            ),
            _KEEP_AWAY,
        ),
        "phenolic foam": (
            N_(
                "{materials} (class {classes}): chars from about 800 °F (425 °C), with little "
                "smoke; it may go on glowing."
            ),
            _KEEP_AWAY,
        ),
        "burns": (
            N_(
                "{materials} (class {classes}): no published figure of how hot it may get, so take "
                "it as something that burns."
            ),
            _KEEP_AWAY,
        ),
    },
)

_FIRE_BLOCKING = RuleWords(
    title=N_("Fire-blocking in the bays of the walls"),
    source=N_(
        "IRC R302.11 (2021) and R302.11.1, quoted texts read: blocking at every ceiling and floor; "
        "mineral wool or glass fibre that stays in place, cellulose as tested (2012 on), loose "
        "fill only where tested. Platform framing usual from 1950: common practice."
    ),
    told={
        "platform": (
            N_(
                "The walls are framed storey by storey: the plates at every floor close the bays, "
                "as the code asks."
            ),
            "",
        ),
        "balloon": (
            N_(
                "The studs run past the floors, so the bays can be open from cellar to attic and "
                "draw a fire up like a chimney. Today's code asks for blocking at every ceiling "
                "and floor."
            ),
            N_(
                "Close every bay at each floor, in the cellar and in the attic with 2x lumber, "
                "1/2 in (12.7 mm) gypsum board or tightly packed mineral wool, before the walls "
                "are closed or filled."
            ),
        ),
        "balloon, packed": (
            N_(
                "The studs run past the floors, so the bays can be open from cellar to attic. "
                "Packed tight with {materials}, they slow a fire. The code takes some fills as "
                "blocking (mineral wool or glass fibre that stays in place, cellulose as it was "
                "tested), and the building official decides whether this one counts."
            ),
            N_(
                "Ask the official before the work. Block the bays at every floor first or "
                "together with the packing, at least at the cellar and at the attic; it also "
                "keeps the fill from running out."
            ),
        ),
        "not known, no year": (
            N_(
                "Neither the year nor the framing is known: in an old house studs may run past the "
                "floors, with bays open from cellar to attic that draw a fire up."
            ),
            N_(
                "Look in the attic or cellar whether the bays of the outside walls are open, and "
                "note it in the survey, before anything is blown in."
            ),
        ),
        "not known": (
            N_(
                "A house of {year} may have studs that run past the floors, with bays open from "
                "cellar to attic that draw a fire up."
            ),
            N_(
                "Look in the attic or cellar whether the bays of the outside walls are open, and "
                "note it in the survey, before anything is blown in."
            ),
        ),
    },
)

_SOUND = RuleWords(
    aside=True,
    title=N_("What the insulation does against noise"),
    source=N_(
        "National Building Code of Canada, Table 9.10.3.1.-A, wall W1 (from memory). Warnock and "
        "Quirt, National Research Council Canada, Construction Technology Update 1 (summary read):"
        " fill hardly acts where both faces are fixed to the same studs. Warnock, Construction "
        "Technology Update 35 (summary read): footsteps through floors of joists."
    ),
    told={
        "partition": (
            N_(
                "{materials} in a partition of wood studs and gypsum board: helps little: about "
                "STC {filled} in place of {empty} empty, because the studs carry the sound "
                "across. Loud speech stays audible."
            ),
            N_(
                "If quiet matters, hang one face on resilient channels or add a second layer of "
                "gypsum board, and seal the gaps; the fill then works well."
            ),
        ),
        "partition, other faces": (
            N_(
                "{materials} in a partition with other faces than gypsum board: no published "
                "figure. With gypsum board on both sides it is about STC {filled} in place of "
                "{empty}; expect as little here."
            ),
            N_("If quiet matters, free one face from the studs, add weight and seal the gaps."),
        ),
        "foam in a partition": (
            N_(
                "{materials} in a partition: does not soften sound as fibre does. No published "
                "figure here; take 0 points of STC as gained."
            ),
            N_("If quiet matters, fill the partition with mineral wool, glass fibre or cellulose."),
        ),
        "inner floor": (
            N_(
                "{materials} between joists: takes some of the voices and music, but hardly "
                "any of the footsteps, above all below 100 Hz. No published figure for this floor."
            ),
            N_(
                "Against footsteps lay carpet or a floating floor above, or hang the ceiling below "
                "on resilient channels."
            ),
        ),
        "outside wall": (
            N_(
                "{materials} in the outside walls: makes them somewhat quieter. How much street "
                "noise comes in is decided by windows and leaks: no published figure for this wall."
            ),
            N_("Where the street is loud, seal the leaks first and then look at the windows."),
        ),
    },
)

_AFTER_A_LEAK = RuleWords(
    aside=True,
    title=N_("What the insulation does after a leak"),
    source=N_(
        "C. H. Reichel, Louisiana State University AgCenter, on flooded houses (2016): wet glass "
        "fibre and cellulose in closed walls hold water too long, and mould starts within 2 to 3 "
        "days; FEMA Technical Bulletin 2 (2008, as quoted): of insulation only closed-cell foam "
        "withstands 72 hours of flood water. What each does in a small clean leak: common practice."
    ),
    told={
        "stone wool": (
            N_(
                "{materials}: takes up little water of itself; it drains and dries, and then "
                "insulates as before."
            ),
            N_(
                "Open the place so that it dries within 2 to 3 days; replace what is soiled, sunk "
                "together or was in flood water."
            ),
        ),
        "glass wool board": (
            N_(
                "{materials}: lets water run through, dries, and keeps its shape; it insulates "
                "less while it is wet."
            ),
            N_("Let it dry toward outside; replace what is soiled or was in flood water."),
        ),
        "glass wool batts": (
            N_(
                "{materials}: loses most of its R while wet, grows heavy and slumps; in a closed "
                "wall it stays wet for weeks."
            ),
            N_(
                "Open the bay within 2 to 3 days and take the wet batts out; put back only what "
                "is clean, dry and still thick, else new ones."
            ),
        ),
        "blown glass wool": (
            N_(
                "{materials}: sinks together where water ran through it, insulates less while wet, "
                "and leaves an empty place above."
            ),
            N_(
                "Open the bay within 2 to 3 days, take the wet fill out, dry the wood and fill "
                "anew."
            ),
        ),
        "cellulose": (
            N_(
                "{materials}: holds water like paper: soaked bays settle, stay wet and wet the "
                "wood; a little damp it takes up and gives back."
            ),
            N_(
                "Take the fill out of every soaked bay within 2 to 3 days, dry the wood and fill "
                "anew; slightly damp fill may stay if air gets to it."
            ),
        ),
        "wood fibre fill": (
            N_(
                "{materials}: takes up much water: soaked fill or batts sink, dry slowly and can "
                "mould; a little damp does no harm."
            ),
            N_("Take out what is soaked within 2 to 3 days, dry the wood and put in new."),
        ),
        "wood fibre board": (
            N_(
                "{materials}: stands rain for a short time and dries; wet for weeks it swells, "
                "softens and can mould."
            ),
            N_(
                "Mend the leak and let it dry toward outside; replace boards that are soft or "
                "swollen."
            ),
        ),
        "natural fibre": (
            N_(
                "{materials}: takes up water, sinks while it is wet and dries slowly; it can mould "
                "within 2 to 3 days."
            ),
            N_("Take it out while wet, dry it in the open, put back only what is clean and full."),
        ),
        "closed-cell foam": (
            N_(
                "{materials}: takes up hardly any water and stays as it is, but it hides a leak: "
                "water runs behind it unseen and wets the wood it sticks to."
            ),
            N_(
                "Look at the roof and the flashing once a year; after a leak cut a piece out and "
                "measure how wet the wood is."
            ),
        ),
        "open-cell foam": (
            N_(
                "{materials}: soaks up water like a sponge, holds it against the wood and "
                "insulates little while wet."
            ),
            N_(
                "Mend the leak, cut out the soaked foam within 2 to 3 days, dry the wood, "
                "spray anew."
            ),
        ),
        "polystyrene": (
            N_(
                "{materials}: takes up hardly any water and dries; it keeps its shape and most of "
                "its R."
            ),
            N_("Dry what lies behind it: water can stand between boards and wall."),
        ),
        "faced board": (
            N_(
                "{materials}: takes up little water through its faces, but the faces hide a leak "
                "and cut edges soak slowly."
            ),
            N_(
                "Tape the joints and cover cut edges; after a leak take one board off, look behind "
                "it, and replace boards that are heavy with water."
            ),
        ),
        "cork": (
            N_("{materials}: takes up little water and does not rot soon, but dries slowly."),
            N_("Let it dry toward outside before it is covered again."),
        ),
        "wood-wool cement": (
            N_("{materials}: takes water up, gives it back and keeps its shape."),
            N_("Let it dry, and mend the plaster on it."),
        ),
        "cellular glass": (
            N_("{materials}: takes up no water and keeps its R."),
            N_("Look at the joints: water can stand behind the blocks."),
        ),
        "grains": (
            N_("{materials}: holds water between its grains for weeks and presses on the ceiling."),
            N_("Take out what is wet, dry the place, and put dry fill back."),
        ),
        "gypsum board": (
            N_(
                "{materials}: softens when soaked, and its paper moulds within 2 to 3 days; boards "
                "with mats of glass fibre stand it longer."
            ),
            N_("Dry it within 2 to 3 days; replace what is soft, stained or was in flood water."),
        ),
        "other": (
            N_(
                "{materials}: no published figure of how it behaves when wet, so take it as one "
                "that soaks."
            ),
            N_("Open the place within 2 to 3 days, and dry or replace what is wet."),
        ),
    },
)

_USE_AGAIN = RuleWords(
    aside=True,
    title=N_("Taking the insulation out and using it again"),
    source=N_("Common practice; no published figure of how much is used again."),
    told={
        "fastened board": (
            N_("{materials}: is screwed on, so it comes off whole and can be used again."),
            N_("Do not glue it as well, and keep a note of where the screws are."),
        ),
        "batts": (
            N_("{materials}: comes out by hand and can be used again if it is dry and clean."),
            N_("Hold it by friction or with straps, not with glue."),
        ),
        "board": (
            N_(
                "{materials}: can be used again where it is screwed on or laid loose; a glued or "
                "bonded board breaks when it comes off."
            ),
            N_("Ask for screws in place of glue wherever that holds."),
        ),
        "loose fill": (
            N_(
                "{materials}: lies loose and can be sucked out within a day; it is mostly thrown "
                "away, since dust and dirt come with it."
            ),
            N_("Clean the attic floor before it is blown in: clean dry fill can be blown again."),
        ),
        "packed fill": (
            N_("{materials}: can be sucked out through opened bays, but mostly is not used again."),
            N_("Mend wires, pipes and leaks in the bays first, so that it never has to come out."),
        ),
        "sprayed foam": (
            N_(
                "{materials}: sticks to the wood; it is scraped off in pieces, cannot be used "
                "again, and the wood is hard to get clean."
            ),
            N_("Choose it only where nothing behind it will have to be reached."),
        ),
    },
)

WORDS = {
    "foam cover": _FOAM_COVER,
    "fire behaviour": _FIRE_BEHAVIOUR,
    "fire blocking": _FIRE_BLOCKING,
    "sound": _SOUND,
    "after a leak": _AFTER_A_LEAK,
    "use again": _USE_AGAIN,
}
