"""How long all findings of a comparison take beside the comparison itself.

Run by hand: python -m benchmarks.findings. As found and three strategies of the demo house, whole
and with every other component; least and median of several runs in one process, and the
plain loop beside them tells how fast the machine was meanwhile.
"""

from __future__ import annotations

import json

from benchmarks.comparison import plain_loop, timed
from server.files.building import Project, read_project
from server.files.seeds import DEMO_HOUSE

EVERY = 2  # of the demo house's components, so that some thirty are left


def thinned() -> Project:
    """The demo house with every other component, and what of its strategies still fits."""
    document = json.loads(DEMO_HOUSE.read_text(encoding="utf-8"))
    document["components"] = document["components"][::EVERY]
    names = {part["name"] for part in document["components"]}
    for strategy in document["strategies"]:
        changes = strategy["changes"]
        kinds = {p["kind"] for p in document["components"] if p["name"] not in changes}
        for sort in ("changes", "openings", "edge_insulation"):
            kept = {n: c for n, c in strategy.get(sort, {}).items() if n in names or n in kinds}
            strategy[sort] = kept
    return read_project(json.dumps(document))


def main() -> None:
    """Print the table."""
    yardstick, _ = timed(plain_loop, 5)
    print(f"a million additions in a plain loop      {yardstick * 1e3:7.1f} ms (least of 5)")
    for project in (read_project(DEMO_HOUSE.read_bytes()), thinned()):
        comparison = project.compare()
        count = len(project.house.components)
        whole, _ = timed(project.compare, 20)
        least, median = timed(lambda: project.judge(comparison), 20)  # noqa: B023
        print(f"as found + {len(project.strategies)}, {count} components")
        print(f"  comparison                             {whole * 1e3:7.1f} ms (least of 20)")
        print(
            f"  all findings                           {least * 1e3:7.1f} ms (least of 20)", end=""
        )
        print(f", {median * 1e3:.1f} ms (median)")
        print(f"  findings over comparison               {least / whole:7.2f}")


if __name__ == "__main__":
    main()
