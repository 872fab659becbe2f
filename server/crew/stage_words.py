"""The words of the stages of the job: a title for each, and what a crew must not miss in it."""

from __future__ import annotations

from gettext import gettext as _


def stage_title(code: str) -> str:
    """The title of a stage. Raises KeyError for a code that is none."""
    return _titles()[code]


def stage_note(code: str, attics_inside: bool = False, has_openings: bool = True) -> str | None:
    """What matters in a stage whatever is done in it; None where the lines say it all.

    attics_inside: whether no attic stays cold. has_openings: whether windows or doors stand in
    what is wrapped, or come new.
    """
    if code == "air barrier" and has_openings:
        return f"{_notes()[code]} {_sills()}"
    if code == "attic" and attics_inside:
        return _(
            "The attic belongs to the rooms: join the air layer of wall and roof at the eave "
            "first; flues kept clear."
        )
    return _notes().get(code)


def fan_words() -> str:
    """What goes before every test with a fan in the door. Common practice."""
    return _("First fires out and appliances with an open flue off; on again afterwards.")


def _sills() -> str:
    return _(
        "Sill pans and flashing of windows and doors are sealed to it now, before board covers it."
    )


def _titles() -> dict[str, str]:
    return {
        "before": _("Before anything: tests and repairs"),
        "protect": _("Protect and set up"),
        "hazards": _("Hazardous material out, by those licensed"),
        "take off": _("Take off"),
        "repair": _("Look and repair"),
        "build anew": _("Build anew"),
        "opened bays": _("Fill the opened bays, before the wrap"),
        "wrapped bays": _("Blow the closed bays, before the wrap"),
        "air barrier": _("Air barrier"),
        "boards": _("Insulation boards"),
        "strips": _("Strips"),
        "openings": _("Windows and doors"),
        "skin": _("Cladding and roofing"),
        "framing": _("New framing"),
        "air sealing": _("Air sealing from inside"),
        "ground cover": _("Cover the ground of the crawlspace"),
        "closed bays": _("Blow the closed bays"),
        "batts": _("Batts"),
        "test while open": _("Blower-door test while leaks can be reached"),
        "attic": _("Attic"),
        "basement": _("Basement and crawlspace"),
        "edge": _("Edge insulation of the slab"),
        "in the ground": _("Outside walls in the ground"),
        "linings": _("Linings and rooms"),
        "ventilation": _("Ventilation"),
        "equipment": _("Heating and cooling"),
        "test out": _("Test out"),
    }


def _notes() -> dict[str, str]:
    return {
        "protect": _("Cover floors and plants, close doors with sheets, keep a dry way out."),
        "hazards": _("Nobody else is in the area until it is cleared in writing."),
        "take off": _(
            "No more than can be made watertight the same day; outermost layer first; nails pulled."
        ),
        "repair": _(
            "Probe what is bare now: sheathing, sills, framing. Replace what is soft, let what is "
            "wet dry. Stop and call where structure is touched."
        ),
        "opened bays": _(
            "The sheathing is bare: fill through it or before it closes, plug the holes, then the "
            "air barrier covers them. Check every bay for voids by probe or infrared camera."
        ),
        "wrapped bays": _(
            "The old skin stays: holes through it are plugged, then the air barrier covers them. "
            "Check every bay for voids by probe or infrared camera."
        ),
        "air barrier": _(
            "Before any board: continuous over sheathing, laps rolled, holes and edges sealed, "
            "tied to foundation and roof. Photographs before it is covered."
        ),
        "boards": _(
            "Tight joints, offset between layers; gaps over 1/8 in filled, none left open."
        ),
        "strips": _(
            "Over studs or rafters, screws into the framing; insect screen at the open ends. A "
            "screw that misses comes out and its hole is sealed."
        ),
        "openings": _("Level, shimmed, fastened through; drain to the outside kept open."),
        "skin": _("Clear of soil and roofs; gap left open at top and bottom."),
        "framing": _("Blocked against fire at floors and ceilings; it carries no load."),
        "air sealing": _(
            "Top and bottom of the house first: ceiling holes, chases, top plates, rim, then the "
            "rest. Before fill hides them."
        ),
        "ground cover": _(
            "Before the floor over it or its walls are insulated: damp rises into both."
        ),
        "closed bays": _(
            "These bays stay closed: filled through holes that are plugged, at the density the "
            "maker gives."
        ),
        "batts": _(
            "Tight up against the subfloor (or the deck or sheathing they belong to), full width "
            "and length of the bay, held up with wires or netting; split round wires, not pressed."
        ),
        "test while open": _(
            "Depressurize, walk the house, seal what is felt, test again; linings and attic fill "
            "only then."
        ),
        "attic": _(
            "Seal first; dams and baffles, depth markers, hatch insulated and gasketed; lights and "
            "flues kept clear."
        ),
        "basement": _("Dry walls only; boards tight and sealed to the wall; foam covered."),
        "edge": _("Have lines in the ground marked before anybody digs; never below the footing."),
        "in the ground": _(
            "This wall is dug free first: lines in the ground marked, never below the footing, old "
            "brick or stone in short lengths and an engineer asked; sides of 5 ft and more made "
            "safe. Then drain and waterproof, then board; filled in again the same way."
        ),
        "linings": _("After the test; boxes and edges sealed."),
        "ventilation": _("Measure the flow at each grille and write it down; show how it is run."),
        "equipment": _(
            "By those licensed; sized by a load calculation of the house after the work."
        ),
    }
