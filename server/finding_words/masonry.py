"""What is said of bays, plaster and brick."""

from __future__ import annotations

from server.finding_words.base import RuleWords
from server.units import N_

WORDS = {
    "closed bays": RuleWords(
        title=N_("What goes into closed bays"),
        source=N_("Common practice."),
        told={
            "blown": (
                N_("The bays stay closed and are filled by blowing, which is what they can take."),
                "",
            ),
            "open": (
                N_("The bays are open, so what goes in can be seen."),
                "",
            ),
            "settles": (
                N_(
                    "{fill} blown loosely into closed walls and slopes settles and leaves the top "
                    "of each bay empty."
                ),
                N_("Pack it densely."),
            ),
            "foam": (
                N_(
                    "{fill} would go into closed bays unseen: it can push the plaster off and "
                    "traps water."
                ),
                N_("Open one side, or blow fill into them instead."),
            ),
            "batts": (
                N_("{fill} cannot be put into bays that stay closed on both sides."),
                N_("Blow fill into them, or take off the siding or the lining."),
            ),
            "not looked at": (
                N_("Nobody has said whether the bays that get {fill} are open."),
                N_("Say in the survey whether they can be reached."),
            ),
        },
    ),
    "plaster before dense-pack": RuleWords(
        title=N_("Plaster before bays are packed"),
        source=N_("Common practice: dense-pack presses on lath and keys."),
        told={
            "sound": (
                N_("The plaster was found sound; it takes the pressure of packing."),
                "",
            ),
            "loose": (
                N_("The plaster is loose in places and packing would push it off."),
                N_(
                    "Screw it back with plaster washers or renew it first; or pack from outside "
                    "at a lower pressure and watch the rooms."
                ),
            ),
            "not looked at": (
                N_("Nobody has said whether the plaster is sound."),
                N_(
                    "Knock and press along the lath and note it in the survey; a hollow sound "
                    "means broken keys."
                ),
            ),
        },
    ),
    "brick veneer": RuleWords(
        title=N_("Brick veneer and its gap"),
        source=N_(
            "IRC R703.8 (from memory): a 1 in gap, flashing and weeps stay clear. What lies "
            "outside of a gap counts only in part where outdoor air gets in, and not at all where "
            "much does (ISO 6946, from memory)."
        ),
        told={
            "gap filled": (
                N_(
                    "The gap behind the brick veneer would be filled: rain that comes through the"
                    " brick no longer drains."
                ),
                N_(
                    "Leave the gap and fill the framing; or take the veneer off and put board on "
                    "the sheathing."
                ),
            ),
            "covered": (
                N_(
                    "Insulation lies over a brick veneer. Outdoor air that gets into the gap by "
                    "weeps or at its top washes behind it, so it hardly counts, and hardly "
                    "warms the sheathing."
                ),
                N_(
                    "Take the veneer off and put the board on the sheathing; or have an engineer "
                    "design the fixing, and close the gap to air at top and bottom while its foot "
                    "still drains. Until then do not count on the R of what lies over the brick."
                ),
            ),
            "covered, gap closed": (
                N_(
                    "Insulation lies over a brick veneer. It counts only as far as the gap behind "
                    "the brick is closed to outdoor air, as it is described here."
                ),
                N_(
                    "Have an engineer design the fixing, and see that the gap is closed to air at "
                    "top and bottom while its foot still drains."
                ),
            ),
            "blocked": (
                N_("The weeps of the brick veneer are blocked or missing."),
                N_("Open them, or cut new ones, before anything behind the brick is changed."),
            ),
            "open": (
                N_("The weeps of the brick veneer are open; keep them so."),
                "",
            ),
            "not looked at": (
                N_("Nobody has looked at the weeps of the brick veneer."),
                N_("Look at the lowest course, and note it in the survey."),
            ),
        },
    ),
    "brick insulated": RuleWords(
        title=N_("Brick or stone that is insulated"),
        source=N_(
            "Common practice after guidance for masonry walls insulated from inside; freeze–thaw "
            "from zone 4 on is our judgement."
        ),
        told={
            "beams": (
                N_(
                    "Joists or beams end in a wall that is insulated from inside; their ends get "
                    "colder and wetter."
                ),
                N_(
                    "A qualified person looks at the beam ends first; leave the wall warm around "
                    "them or insulate outside."
                ),
            ),
            "beams not looked at": (
                N_("Nobody has said whether joists or beams end in the wall."),
                N_("Look from the cellar, and note it in the survey."),
            ),
            "no beams": (
                N_("No joists or beams end in the wall."),
                "",
            ),
            "freezes": (
                N_(
                    "Insulated from inside, the masonry stays colder and wetter, and can spall "
                    "when it freezes."
                ),
                N_(
                    "Keep rain off it and let it dry; have old soft brick or stone reviewed for "
                    "freeze–thaw, and use no more insulation than that review allows."
                ),
            ),
            "seldom freezes": (
                N_(
                    "Insulated from inside, the masonry stays colder and wetter; it seldom "
                    "freezes here."
                ),
                N_("Keep rain off it and repoint with lime mortar where that is what it has."),
            ),
            "film inside": (
                N_(
                    "A film that lets no vapour through lies on the room side of fibre before "
                    "masonry: the sun drives the rain that the masonry took up onto it, and it "
                    "cannot dry to the room."
                ),
                N_(
                    "Leave the film out and seal the lining against air instead, or put foam "
                    "board without gaps against the masonry."
                ),
            ),
            "board outside": (
                N_("Board goes over brick or stone: it keeps the wall warm and dry."),
                N_(
                    "Anchors made for masonry, in sound brick; level the wall so that no air "
                    "blows behind the board."
                ),
            ),
            "board outside, concrete": (
                N_("Board goes over concrete or block: it keeps the wall warm and dry."),
                N_(
                    "Anchors made for concrete or hollow block; level the wall so that no air "
                    "blows behind the board."
                ),
            ),
        },
    ),
}
