"""Tapered insulation: the rectangle of ISO 6946, and a numeric mean over its width.

R in m2 K/W.
"""

import json

import numpy as np
import pytest

from server.core.assembly import (
    Assembly,
    FramedLayer,
    SolidLayer,
    tapered_resistance,
    total_resistance,
)
from server.core.errors import ImpossibleValue, TwoTapers
from server.core.films import HeatFlow
from server.core.materials import Material
from server.files.building import read_project
from server.files.faults import BadFile
from tests.conftest import SMALL_HOUSE

BOARD = Material("board", 0.04)
DECK = Material("deck", 0.13)
WOOD, WOOL = Material("wood", 0.13), Material("wool", 0.04)
ANNEX = "ISO 6946:2017 Annex E.2 (2007 Annex C.2), formula from memory, integrated over the shape"


def test_rectangle_of_the_annex():
    """R_0 1, R_1 2: U = ln(1 + 2/1)/2 = 0.549306."""
    assert 1.0 / tapered_resistance(1.0, 2.0) == pytest.approx(0.549306, abs=1e-6), ANNEX
    assert tapered_resistance(1.0, 0.0) == 1.0


def roof(taper):
    return (SolidLayer(DECK, 0.02), taper, SolidLayer(Material("felt", 0.23), 0.005))


def test_a_roof_against_the_mean_of_its_strips():
    """20 mm at the drain, 120 mm at the edge: the mean of U of a thousand strips."""
    tapered = total_resistance(roof(SolidLayer(BOARD, 0.07, thinnest=0.02)), HeatFlow.UP, 0.1, 0.04)
    strips = np.linspace(0.02, 0.12, 2001)
    middles = (strips[1:] + strips[:-1]) / 2
    u_values = [
        1 / total_resistance(roof(SolidLayer(BOARD, float(d))), HeatFlow.UP, 0.1, 0.04).mean
        for d in middles
    ]
    assert 1 / tapered.mean == pytest.approx(np.mean(u_values), rel=1e-6)
    flat = total_resistance(roof(SolidLayer(BOARD, 0.07)), HeatFlow.UP, 0.1, 0.04)
    assert tapered.mean < flat.mean  # the thin strips lose more than the thick ones save


def test_over_framing_both_limits_taper():
    bay = FramedLayer(WOOD, 0.1, 0.14, WOOL)
    layers = (bay, SolidLayer(BOARD, 0.07, thinnest=0.02))
    limits = total_resistance(layers, HeatFlow.UP, 0.1, 0.04)
    thin = total_resistance((bay, SolidLayer(BOARD, 0.02)), HeatFlow.UP, 0.1, 0.04)
    more = 0.10 / 0.04
    assert limits.upper == pytest.approx(more / np.log(1 + more / thin.upper))
    assert limits.lower == pytest.approx(more / np.log(1 + more / thin.lower))
    assert limits.upper >= limits.lower


def test_what_cannot_taper():
    with pytest.raises(ImpossibleValue):
        SolidLayer(BOARD, 0.07, thinnest=0.08)
    tapered = SolidLayer(BOARD, 0.07, thinnest=0.02)
    with pytest.raises(TwoTapers):
        Assembly("roof", (tapered, tapered))


def test_a_house_file_with_a_taper():
    document = json.loads(SMALL_HOUSE.read_text())
    document["assemblies"]["flat roof"] = {
        "layers": [
            {"material": "softwood", "thickness": "20 mm"},
            {"material": "softwood", "thickness": "70 mm", "thinnest": "20 mm"},
        ]
    }
    layers = read_project(json.dumps(document)).file.assemblies["flat roof"].layers
    assert layers[1].thinnest.value == pytest.approx(0.02)
    document["assemblies"]["flat roof"]["layers"][1]["thinnest"] = "90 mm"
    with pytest.raises(BadFile) as refused:
        read_project(json.dumps(document))
    assert "assemblies" in str(refused.value)
    assert "thinnest" in str(refused.value)
