"""Parts in the ground: how their U and their share in the yearly wave come about."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from server.core import ground
from server.core.arrays import Real
from server.core.evaluate import Result
from server.core.explain.base import Column, Formula
from server.core.ground import EdgeInsulation, GroundContact
from server.core.ground_wave import PERIODIC_FACTOR, penetration_depth
from server.core.house import Component, Kind
from server.core.transmittance import bare_resistance, basement_floor_thickness

ISO_13370 = "ISO 13370:2007"
ANNEX_H = "ISO 13370:2007 Annex H (memory)"

_EXTENT = 2.0  # a vertical strip counts twice its depth

_DIMENSION = Formula("characteristic_dimension", "B", "A/(0.5*P)", "m", f"{ISO_13370} 8.1")
_THICKNESS = Formula(
    "equivalent_thickness",
    "d_t",
    f"w + λ_s*({ground.FILM_DOWN:g} + R_f + {ground.FILM_OUTSIDE:g})",
    "m",
    f"{ISO_13370} 8.1",
)
_WALL_THICKNESS = Formula(
    "equivalent_thickness",
    "d_w",
    f"λ_s*({ground.FILM_LEVEL:g} + R_f + {ground.FILM_OUTSIDE:g})",
    "m",
    f"{ISO_13370} 9.3.3",
)
_SLAB = "2*λ_s/(pi*B + t)*ln(pi*B/t + 1) if t < B else λ_s/(0.457*B + t)"
_SLAB_U = Formula(
    "slab_u", "U", "U_0", "W/(m²·K)", f"{ISO_13370} 9.1", (("t", "d_t"), ("U_0", _SLAB))
)
_FLOOR_U = Formula(
    "slab_u", "U", "U_0", "W/(m²·K)", f"{ISO_13370} 9.3.2", (("t", "d_t + z/2"), ("U_0", _SLAB))
)
_EDGED_U = Formula(
    "edged_slab_u",
    "U",
    "max(U_0 + ψ*P/A, 0)",
    "W/(m²·K)",
    f"{ISO_13370} 9.1 and Annex B",
    (
        ("t", "d_t"),
        ("U_0", _SLAB),
        ("d_n", "max(R_n - d_i/λ_s, 0)*λ_s"),
        ("ψ", "-λ_s/pi*(ln(D/d_t + 1) - ln(D/(d_t + d_n) + 1))"),
    ),
)
_WALL_U = Formula(
    "basement_wall_u",
    "U",
    "2*λ_s/(pi*z)*(1 + 0.5*t/(t + z))*ln(z/d_w + 1)",
    "W/(m²·K)",
    f"{ISO_13370} 9.3.3",
    (("t", "min(d_t, d_w)"),),
)


def _periodic(expression: str, where: tuple[tuple[str, str], ...] = ()) -> Formula:
    return Formula("periodic", "H_pe", f"{PERIODIC_FACTOR}*{expression}", "W/K", ANNEX_H, where)


_SLAB_WAVE = _periodic("P*λ_s*ln(δ/d_t + 1)")
_EDGED_WAVE = _periodic(
    "P*λ_s*((1 - b)*ln(δ/(d_t + d_n) + 1) + b*ln(δ/d_t + 1))",
    (("d_n", "max(R_n - d_i/λ_s, 0)*λ_s"), ("b", "exp(-D/δ)")),
)
_FLOOR_WAVE = _periodic("P*λ_s*exp(-z/δ)*ln(δ/d_t + 1)")
_WALL_WAVE = _periodic("A/z*λ_s*2*(1 - exp(-z/δ))*ln(δ/d_w + 1)")


def sort_of(part: Component) -> str:
    """How a part in the ground is worked out; a code for its table.

    Shapes: one part. Range: a layered part in the ground. Raises: nothing.
    Source: definition.
    """
    if part.kind is Kind.BASEMENT_WALL:
        return "soil_wall"
    if part.kind is Kind.BASEMENT_FLOOR:
        return "soil_floor"
    has_edge = part.ground is not None and part.ground.edge_insulation is not None
    return "soil_edged_slab" if has_edge else "soil_slab"


def soil_columns(result: Result, sort: str, indices: Sequence[int]) -> tuple[Column, ...]:
    """What makes U and H_pe of parts in the ground of one sort, up to both.

    Shapes: one house without draws; SI. Range: parts of that sort. Raises: nothing.
    Source: ISO 13370:2007 clauses 8 and 9, Annexes B and H.
    """
    house = result.house
    parts = [house.components[index] for index in indices]
    contacts = [_contact(part) for part in parts]
    soil = [contact.soil_conductivity for contact in contacts]
    bare = [bare_resistance(house, part) for part in parts]
    area = _column("A", "area", "m²", [part.area for part in parts])
    conducts = _column("λ_s", "soil_conductivity", "W/(m·K)", soil)
    resists = _column("R_f", "bare_resistance", "m²·K/W", bare)
    reach = _column(
        "δ",
        "penetration_depth",
        "m",
        [penetration_depth(each.soil_conductivity, each.soil_heat_capacity) for each in contacts],
    )
    u_value = [result.components[index].u_value for index in indices]
    wave = [result.working.periodic[index] for index in indices]
    depth = _column("z", "depth_below_grade", "m", [_known(c.depth_below_grade) for c in contacts])
    if sort == "soil_wall":
        floors = [basement_floor_thickness(house, part.from_space) for part in parts]
        walls = [
            ground.basement_wall_thickness(resistance, conductivity)
            for resistance, conductivity in zip(bare, soil, strict=True)
        ]
        return (
            *(area, conducts, resists, depth, reach),
            _column("d_t", "floor_thickness", "m", floors),
            _column("d_w", "wall_equivalent", "m", walls, _WALL_THICKNESS),
            _column("H_pe", "periodic", "W/K", wave, _WALL_WAVE),
            _column("U", "u_value", "W/(m²·K)", u_value, _WALL_U),
        )
    perimeter = [_known(contact.exposed_perimeter) for contact in contacts]
    thick = [contact.wall_thickness for contact in contacts]
    equivalent = [
        ground.equivalent_thickness(*each) for each in zip(thick, soil, bare, strict=True)
    ]
    dimension = [
        ground.characteristic_dimension(part.area, length)
        for part, length in zip(parts, perimeter, strict=True)
    ]
    formula, swing = {
        "soil_floor": (_FLOOR_U, _FLOOR_WAVE),
        "soil_edged_slab": (_EDGED_U, _EDGED_WAVE),
    }.get(sort, (_SLAB_U, _SLAB_WAVE))
    return (
        area,
        _column("P", "exposed_perimeter", "m", perimeter),
        *(conducts, resists, reach),
        _column("w", "wall_thickness", "m", thick),
        *([depth] if sort == "soil_floor" else []),
        *(_edge_columns(contacts) if sort == "soil_edged_slab" else []),
        _column("B", "characteristic_dimension", "m", dimension, _DIMENSION),
        _column("d_t", "floor_thickness", "m", equivalent, _THICKNESS),
        _column("H_pe", "periodic", "W/K", wave, swing),
        _column("U", "u_value", "W/(m²·K)", u_value, formula),
    )


def _edge_columns(contacts: Sequence[GroundContact]) -> list[Column]:
    edges = [contact.edge_insulation for contact in contacts]

    def column(symbol: str, name: str, unit: str, read: Callable[[EdgeInsulation], Real]) -> Column:
        return _column(symbol, name, unit, [read(edge) for edge in edges if edge is not None])

    return [
        column("R_n", "edge_resistance", "m²·K/W", lambda edge: edge.resistance),
        column("d_i", "edge_thickness", "m", lambda edge: edge.thickness),
        column(
            "D", "edge_extent", "m", lambda edge: edge.extent * (_EXTENT if edge.vertical else 1.0)
        ),
    ]


def _column(
    symbol: str, name: str, unit: str, values: Sequence[Real], formula: Formula | None = None
) -> Column:
    return Column(symbol, name, unit, tuple(values), formula)


def _contact(part: Component) -> GroundContact:
    assert part.ground is not None  # House has seen to it
    return part.ground


def _known(value: Real | None) -> Real:
    return 0.0 if value is None else value
