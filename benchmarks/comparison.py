"""How fast the core compares the demo house, and how an array of houses stands to a loop.

Run by hand: python -m benchmarks.comparison [draws]. Figures are the least and median of several
runs in one process; the plain loop beside them tells how fast the machine was meanwhile.
"""

from __future__ import annotations

import resource
import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from server.core.air import BlowerDoor
from server.core.assembly import Assembly, FramedLayer, SolidLayer
from server.core.comparison import compare
from server.core.draws import evaluate_draws
from server.core.evaluate import evaluate
from server.core.gains import planes_of
from server.core.house import Component, House
from server.core.solar import sun_geometry
from server.files.building import read_project
from server.files.seeds import DEMO_HOUSE

LOOPED = 200  # houses that the loop computes one by one


def timed(work: Callable[[], object], runs: int) -> tuple[float, float]:
    """Least and median seconds of some runs."""
    seconds = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        seconds.append(time.perf_counter() - start)
    return min(seconds), statistics.median(seconds)


def plain_loop() -> int:
    """A million additions: the yardstick for the machine's speed."""
    total = 0
    for number in range(1_000_000):
        total += number
    return total


def vary(house: House, draws: int, generator: np.random.Generator) -> House:
    """The house with its areas, conductivities, framing and leakage drawn around the survey."""

    def around(spread: float) -> np.ndarray:
        return generator.normal(1.0, spread, draws).clip(0.5, 1.5)

    built: dict[int, Assembly] = {}

    def layers(assembly: Assembly) -> Assembly:
        if id(assembly) not in built:
            changed = []
            for layer in assembly.layers:
                if isinstance(layer, SolidLayer):
                    conductivity = layer.material.conductivity * around(0.05)
                    material = replace(layer.material, conductivity=conductivity)
                    layer = replace(layer, material=material)
                elif isinstance(layer, FramedLayer):
                    layer = replace(layer, fraction=layer.fraction * around(0.1))
                changed.append(layer)
            built[id(assembly)] = replace(assembly, layers=tuple(changed))
        return built[id(assembly)]

    def part(component: Component) -> Component:
        construction = component.construction
        if isinstance(construction, Assembly):
            construction = layers(construction)
        return replace(component, area=component.area * around(0.02), construction=construction)

    leakage = house.leakage
    assert isinstance(leakage, BlowerDoor)
    return replace(
        house,
        components=tuple(part(component) for component in house.components),
        leakage=replace(leakage, flow_at_50_pa=leakage.flow_at_50_pa * around(0.15)),
    )


def one_of(house: House, draw: int) -> House:
    """One draw of a varied house as a house of plain numbers."""

    def pick(value: object) -> object:
        return float(value[draw]) if isinstance(value, np.ndarray) else value

    def layer(each: object) -> object:
        if isinstance(each, SolidLayer):
            material = replace(each.material, conductivity=pick(each.material.conductivity))
            return replace(each, material=material)
        if isinstance(each, FramedLayer):
            return replace(each, fraction=pick(each.fraction))
        return each

    def part(component: Component) -> Component:
        construction = component.construction
        if isinstance(construction, Assembly):
            layers = tuple(layer(each) for each in construction.layers)
            construction = replace(construction, layers=layers)
        return replace(component, area=pick(component.area), construction=construction)

    leakage = house.leakage
    assert isinstance(leakage, BlowerDoor)
    return replace(
        house,
        components=tuple(part(component) for component in house.components),
        leakage=replace(leakage, flow_at_50_pa=pick(leakage.flow_at_50_pa)),
    )


def main() -> None:
    """Print the table."""
    draws = int(sys.argv[1]) if len(sys.argv) > 1 else 100_000
    project = read_project(DEMO_HOUSE.read_bytes())
    house = project.house
    geometry = sun_geometry(float(house.climate.latitude), planes_of([house]))
    varied = vary(house, draws, np.random.default_rng(1938))
    singles = [one_of(varied, draw) for draw in range(LOOPED)]

    yardstick, _ = timed(plain_loop, 5)
    least, median = timed(lambda: compare(house, project.strategies), 40)
    print(f"a million additions in a plain loop      {yardstick * 1e3:9.1f} ms (least of 5)")
    print(f"as found + {len(project.strategies)}, {len(house.components)} components", end="")
    print(f"             {least * 1e3:9.1f} ms (least of 40), {median * 1e3:.1f} ms (median)")
    read = {"heating": lambda result: result.heating_load_kwh}
    together, _ = timed(lambda: evaluate_draws(varied, draws, read), 3)
    print(f"{draws} houses in one array call        {together:9.2f} s (least of 3)")
    alone, _ = timed(lambda: [evaluate(single, geometry) for single in singles], 3)
    per_house = alone / LOOPED
    print(f"the same in a loop, from {LOOPED} of them     {per_house * draws:9.1f} s")
    print(f"array over loop                          {together / (per_house * draws):9.4f}")
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0
    print(f"peak memory                              {peak:9.0f} MB")


if __name__ == "__main__":
    main()
