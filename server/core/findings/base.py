"""What a finding is: something of one house that rots, burns, breaks or breaks the code, or not."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import Enum

from server.core.findings.case import Case
from server.core.findings.vapour_picture import VapourPicture


class Severity(Enum):
    """What a finding asks for. OPEN: it cannot be judged until something is known."""

    STOP = "stop"
    MEND = "mend"
    OPEN = "open"
    WATCH = "watch"
    GOOD = "good"


ORDER = tuple(Severity)  # the worst first


@dataclass(frozen=True, slots=True)
class Quantity:
    """A figure in the base unit of its kind of quantity, such as 0.1 of a thickness in m."""

    value: float
    kind: str


Fact = str | int | Quantity | tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Measured:
    """A figure and what it is held against. at_least: whether the limit is the lower one."""

    figure: Quantity
    limit: Quantity | None = None
    at_least: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Found:
    """What a rule says of some components, none for the whole house. facts fill its sentence."""

    outcome: str
    components: tuple[str, ...] = ()
    facts: Mapping[str, Fact] | None = None
    measured: Measured | None = None
    picture: VapourPicture | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Finding:
    """One finding: code and outcome choose its sentences, facts fill them."""

    code: str
    outcome: str
    severity: Severity
    components: tuple[str, ...]
    facts: Mapping[str, Fact]
    measured: Measured | None
    picture: VapourPicture | None


@dataclass(frozen=True, slots=True, eq=False)
class Rule:
    """One sort of finding. outcomes: everything that can come of it, each with its severity."""

    code: str
    outcomes: Mapping[str, Severity]
    judge: Callable[[Case], Iterable[Found]]

    def findings(self, case: Case) -> Iterator[Finding]:
        """What it says of a case.

        Components of which it says the same stand together; of those that are good, the figure
        that comes nearest to its limit stands for all.
        """
        alike: dict[tuple[object, ...], list[Found]] = {}
        for each in self.judge(case):
            alike.setdefault(self._told_of(each), []).append(each)
        for group in alike.values():
            nearest = min(group, key=lambda found: _margin(found.measured))
            names = dict.fromkeys(name for each in group for name in each.components)
            yield Finding(
                self.code,
                nearest.outcome,
                self.outcomes[nearest.outcome],
                tuple(names),
                nearest.facts or {},
                nearest.measured,
                nearest.picture,
            )

    def _told_of(self, found: Found) -> tuple[object, ...]:
        facts = tuple(sorted((found.facts or {}).items(), key=str))
        is_good = self.outcomes[found.outcome] is Severity.GOOD
        return (found.outcome, facts, None if is_good else found.measured)


def _margin(measured: Measured | None) -> float:
    """How far a figure is from its limit, on the good side."""
    if measured is None or measured.limit is None:
        return 0.0
    over = measured.figure.value - measured.limit.value
    return over if measured.at_least else -over
