"""What is said where the insulation moves to the roof."""

from __future__ import annotations

from server.finding_words.base import RuleWords
from server.units import N_

WORDS = {
    "cellar": RuleWords(
        title=N_("Cellar or crawlspace, inside or out"),
        source=N_("IRC R408.3 for crawlspaces (from memory); common practice."),
        told={
            "left colder": (
                N_(
                    "With the floor above it insulated, {space} gets colder and damper: pipes can "
                    "freeze, what is stored can mould."
                ),
                N_(
                    "Insulate pipes and ducts there, keep its rim and doors tight, and look at it "
                    "in the first winter."
                ),
            ),
            "walls left bare": (
                N_(
                    "It now stands between the warm cellar and outdoors or soil, and is not "
                    "insulated."
                ),
                N_("Insulate it too once it is dry, or leave the cellar outside."),
            ),
            "crawlspace closed": (
                N_("{space} comes inside: its vents close and its ground dampens the house."),
                N_(
                    "Cover the ground with a sealed sheet, insulate the walls, and give the space"
                    " air from the house or a fan, as the code asks of unvented crawlspaces."
                ),
            ),
            "crawlspace closed, covered": (
                N_("{space} comes inside over ground that is covered: it needs air of its own."),
                N_(
                    "Give it air from the house or a fan, as the code asks of unvented "
                    "crawlspaces, and seal the sheet at seams and walls."
                ),
            ),
        },
    ),
    "insulation moved to the roof": RuleWords(
        title=N_("Moving the insulation from the attic floor to the roof"),
        source=N_("Common practice; clearances of flues by makers and IRC R1003.18 (from memory)."),
        told={
            "left bare": (
                N_("It now stands between the warm attic and outdoors, and is not insulated."),
                N_(
                    "Insulate it too: gables, knee walls and every slope of the attic, or leave "
                    "the attic outside."
                ),
            ),
            "no air layer": (
                N_("Nothing new on it stops air, so indoor air reaches the cold deck."),
                N_(
                    "Lay an unbroken air barrier on the deck before the board, joined to that of "
                    "the walls."
                ),
            ),
            "old fill kept": (
                N_(
                    "Old fill lies in a floor that is now indoors: it does no harm and little good."
                ),
                N_(
                    "Take it out if it smells, is dirty, or hides wiring; otherwise it may stay "
                    "and dampens sound."
                ),
            ),
            "old fill keeps it cold": (
                N_(
                    "Old fill stays in a floor that is now indoors and keeps {space} cold above "
                    "it: in the coldest month colder than the dew point of the rooms."
                ),
                N_(
                    "Take the old fill out, once it is known to be no vermiculite, or insulate "
                    "roof and gables much more than the floor."
                ),
            ),
            "old fill not to be stirred": (
                N_(
                    "Old fill lies in a floor that is now indoors, and nobody has said that it is "
                    "no vermiculite."
                ),
                N_("Do not touch it before it is tested; then it may stay."),
            ),
            "close the vents": (
                N_("The vents of {spaces} are closed for good."),
                N_(
                    "Close ridge, soffit and gable vents airtight from inside and outside; one "
                    "open vent undoes the work."
                ),
            ),
            "ducts inside": (
                N_("Ducts and pipes now run in the warm."),
                "",
            ),
            "flues": (
                N_("Flues or a chimney pass the attic that is now inside."),
                N_(
                    "Keep the clearance their listing asks, 2 in at a masonry chimney, seal with "
                    "metal and fire-rated sealant, and let no insulation touch them."
                ),
            ),
            "flues not looked at": (
                N_("Nobody has said whether flues pass through the attic."),
                N_("Look, and note it in the survey."),
            ),
            "no flues": (
                N_("No flue passes through the attic."),
                "",
            ),
        },
    ),
}
