"""Options in the owner's words."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from gettext import gettext as _

from server.files.house_file import HouseFile, StrategyEntry
from server.recipes.words import strategy_in_words

LONGEST_NAME = 200
SAME = 1e-9  # W/(m K): two transitions no further apart are alike

PART_NAMES = {
    "roof": "Roof and ceilings",
    "walls": "Walls",
    "openings": "Windows and doors",
    "floor": "Floors and ground",
    "junctions": "Transitions between parts",
    "air": "Air leaks and ventilation",
}

_NAMES = {
    "cavity-only": "Fill the walls",
    "exterior continuous": "Wrap the outside",
    "hybrid": "Fill and wrap",
}
_LINES = {
    "cavity-only": (
        "Insulation goes into the empty spaces between the framing. The outside of the house "
        "stays as it looks."
    ),
    "exterior continuous": (
        "A thick layer of insulation goes around the outside, over the framing, and new siding "
        "over it. The spaces between the framing stay as they are."
    ),
    "hybrid": (
        "Insulation goes between the framing, and a thinner layer around the outside, with new "
        "siding over it."
    ),
    "own": "Put together for this house by your contractor.",
}


def as_found_name() -> str:
    """What the house without any work is called."""
    return _("As it is now")


def as_found_line() -> str:
    """The house without any work in one plain line."""
    return _("Nothing is done. What leaks or rots today goes on doing so.")


def option_names(strategies: Sequence[StrategyEntry]) -> list[str]:
    """A name for each; two of one recipe are told apart by what the contractor called them."""
    counts = Counter(each.recipe for each in strategies)
    names = []
    for each in strategies:
        name = _(_NAMES[each.recipe]) if each.recipe in _NAMES else each.name
        if each.recipe in _NAMES and counts[each.recipe] > 1:
            told_apart = _("{name}: {own_name}").format(name=name, own_name=each.name)
            name = told_apart if len(told_apart) <= LONGEST_NAME else each.name
        names.append(name)
    return names


def option_line(strategy: StrategyEntry) -> str:
    """What is done, in one plain line."""
    return _(_LINES[strategy.recipe])


def whole_work(strategy: StrategyEntry, file: HouseFile) -> list[str]:
    """What is done to the house as a whole, one sentence for each thing."""
    without_junctions = strategy.model_copy(update={"psi": None})
    return [*strategy_in_words(without_junctions, file), *_transitions(strategy, file)]


def _transitions(strategy: StrategyEntry, file: HouseFile) -> list[str]:
    """Better ones and worse ones apart: a transition may lose more after the work."""
    found = {junction.name: junction.psi.value for junction in file.junctions}
    psi = {name: entry.value for name, entry in (strategy.psi or {}).items() if name in found}
    better = [name for name, value in psi.items() if value < found[name] - SAME]
    worse = [name for name, value in psi.items() if value > found[name] + SAME]
    words = []
    if better:
        words.append(_("Transitions that lose less: {names}").format(names=", ".join(better)))
    if worse:
        words.append(_("Transitions that lose more: {names}").format(names=", ".join(worse)))
    return words
