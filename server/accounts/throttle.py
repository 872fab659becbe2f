"""How often signing in may fail, counted in memory."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Sequence
from datetime import datetime, timedelta
from threading import Lock

MOST_FAILURES = 10
WINDOW = timedelta(minutes=15)
MOST_NAMES = 10_000


class Throttle:
    """Failed attempts by name, a name being an email or a network address."""

    def __init__(self) -> None:
        self._attempts: OrderedDict[str, list[datetime]] = OrderedDict()
        self._lock = Lock()

    def allows(self, names: Sequence[str], now: datetime) -> bool:
        """Whether one more attempt may be made; it counts as failed until `succeeded`.

        It is counted before the answer is known, or many at once would all be let through.
        """
        with self._lock:
            if any(len(self._recent(name, now)) >= MOST_FAILURES for name in names):
                return False
            for name in names:
                self._attempts[name] = [*self._recent(name, now), now]
                self._attempts.move_to_end(name)
            while len(self._attempts) > MOST_NAMES:
                self._attempts.popitem(last=False)
            return True

    def succeeded(self, names: Sequence[str]) -> None:
        """The attempt just allowed was no failure."""
        with self._lock:
            for name in names:
                if self._attempts.get(name):
                    self._attempts[name].pop()

    def _recent(self, name: str, now: datetime) -> list[datetime]:
        return [at for at in self._attempts.get(name, ()) if at > now - WINDOW]
