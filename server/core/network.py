"""The steady heat balance of the graph, seen from indoors."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from server.core.arrays import Array, Real
from server.core.errors import NegativeConductance

INDOORS = "(indoors)"  # all spaces inside the boundary, at one temperature


@dataclass(frozen=True, slots=True, eq=False)
class Edge:
    """A conductance between two nodes, W/K. A node is INDOORS, a buffer, outdoors or ground."""

    first: str
    second: str
    conductance: Real


@dataclass(frozen=True, slots=True, eq=False)
class BufferWeights:
    """How a buffer's temperature is made of outdoor and ground temperature, and its sources.

    T = outdoors T_out + ground T_g + (1 - outdoors - ground) T_in + sources; each (...,).
    source_share: how much of a source of 1 W at the buffer's edge indoors receives.
    """

    outdoors: Real
    ground: Real
    source_share: Real


@dataclass(frozen=True, slots=True, eq=False)
class Balance:
    """What indoors feels of the whole graph. Conductances W/K."""

    to_outdoors: Real
    to_ground: Real
    buffers: dict[str, BufferWeights]


def balance(edges: Sequence[Edge], buffers: Sequence[str], outdoors: str, ground: str) -> Balance:
    """Solve the buffers' steady balance and fold them into two conductances from indoors.

    For every buffer b: sum over its edges of K (T_other - T_b) + S_b = 0. The loss from indoors is
    then to_outdoors (T_in - T_out) + to_ground (T_in - T_g) - sum of source_share S.
    Shapes: conductances that broadcast; results the broadcast shape.
    Range: every buffer tied, directly or not, to indoors, outdoors or ground.
    Raises: NegativeConductance (House has refused loose buffers).
    Source: Kirchhoff's rule; ISO 13789:2007 for one unheated space, here for any number.
    """
    direct: dict[str, Real] = {outdoors: 0.0, ground: 0.0}
    position = {name: index for index, name in enumerate(buffers)}
    ties: list[dict[str, Real]] = [{} for _ in buffers]
    for edge in edges:
        for node, other in ((edge.first, edge.second), (edge.second, edge.first)):
            if node == INDOORS and other in direct:
                direct[other] = direct[other] + edge.conductance
            elif node in position:
                mine = ties[position[node]]
                mine[other] = mine.get(other, 0.0) + edge.conductance
    _refuse_negative(direct, "indoors")
    for name, tie in zip(buffers, ties, strict=True):
        _refuse_negative(tie, name)
    if not buffers:
        return Balance(direct[outdoors], direct[ground], {})

    to_indoors = _stack([tie.get(INDOORS, 0.0) for tie in ties])
    to_outdoors = _stack([tie.get(outdoors, 0.0) for tie in ties])
    to_ground = _stack([tie.get(ground, 0.0) for tie in ties])
    matrix = _matrix(ties, position)
    sides = np.stack(np.broadcast_arrays(to_outdoors, to_ground, to_indoors), axis=-1)
    # the matrix is symmetric, so one solve against the ties to indoors gives every source's share
    solution = np.linalg.solve(matrix, sides)
    weights = {
        name: BufferWeights(
            outdoors=_plain(solution[..., index, 0]),
            ground=_plain(solution[..., index, 1]),
            source_share=_plain(solution[..., index, 2]),
        )
        for name, index in position.items()
    }
    through = np.einsum("...b,...bs->...s", to_indoors, solution)
    return Balance(
        to_outdoors=direct[outdoors] + _plain(through[..., 0]),
        to_ground=direct[ground] + _plain(through[..., 1]),
        buffers=weights,
    )


def _refuse_negative(ties: Mapping[str, Real], space: str) -> None:
    for other, conductance in ties.items():
        if bool(np.any(np.asarray(conductance) < 0.0)):
            raise NegativeConductance("junctions", space=space, other=other)


def _matrix(ties: Sequence[dict[str, Real]], position: dict[str, int]) -> Array:
    rows = []
    for index, tie in enumerate(ties):
        row: list[Real] = [0.0] * len(ties)
        total: Real = 0.0
        for other, conductance in tie.items():
            total = total + conductance
            if other in position:
                row[position[other]] = -conductance
        row[index] = total
        rows.append(row)
    flat = _stack([entry for row in rows for entry in row])
    return flat.reshape(*flat.shape[:-1], len(ties), len(ties))


def _stack(values: Sequence[Real]) -> Array:
    """Values on a new last axis."""
    return np.stack(np.broadcast_arrays(*values), axis=-1).astype(float)


def _plain(value: Array) -> Real:
    return float(value) if np.ndim(value) == 0 else value
