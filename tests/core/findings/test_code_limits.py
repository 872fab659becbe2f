"""The tables of the energy code, held to a second copy of their printed rows.

Btu/(h ft2 degF): window, skylight, SHGC, ceiling, frame wall, mass wall, floor, basement wall,
crawlspace wall. IECC 2021 Table R402.1.2 and IECC 2018 Table R402.1.4 (memory, written anew here).
"""

import pytest

from server.core.findings.code_limits import EDITIONS, CodeLimits, Limits

FIELDS = tuple(Limits.__dataclass_fields__)
ONE = 5.678263  # W/(m2 K) in one Btu/(h ft2 degF)
PRINTED = {
    ("IECC 2021", 1): ".50 .75 .25 .035 .084 .197 .064 .360 .477",
    ("IECC 2021", 2): ".40 .65 .25 .026 .084 .165 .064 .360 .477",
    ("IECC 2021", 3): ".30 .55 .25 .026 .060 .098 .047 .091 .136",
    ("IECC 2021", 4): ".30 .55 .40 .024 .045 .098 .047 .059 .065",
    ("IECC 2021", 5): ".30 .55 .40 .024 .045 .082 .033 .050 .055",
    ("IECC 2021", 6): ".30 .55 NR .024 .045 .060 .033 .050 .055",
    ("IECC 2021", 7): ".30 .55 NR .024 .045 .057 .028 .050 .055",
    ("IECC 2021", 8): ".30 .55 NR .024 .045 .057 .028 .050 .055",
    ("IECC 2018", 2): ".40 .65 .25 .030 .084 .165 .064 .360 .477",
    ("IECC 2018", 3): ".32 .55 .25 .030 .060 .098 .047 .091 .136",
    ("IECC 2018", 4): ".32 .55 .40 .026 .060 .098 .047 .059 .065",
    ("IECC 2018", 5): ".30 .55 NR .026 .060 .082 .033 .050 .055",
    ("IECC 2018", 6): ".30 .55 NR .026 .045 .060 .033 .050 .055",
    ("IECC 2018", 7): ".30 .55 NR .026 .045 .057 .028 .050 .055",
    ("IECC 2018", 8): ".30 .55 NR .026 .045 .057 .028 .050 .055",
}


@pytest.mark.parametrize(("edition", "zone"), PRINTED)
def test_rows(edition, zone):
    limits = CodeLimits(edition).limits(zone, marine=False)
    printed = PRINTED[edition, zone].split()
    for name, text in zip(FIELDS, printed, strict=True):
        if text == "NR":
            assert getattr(limits, name) is None
        elif name == "shgc":
            assert getattr(limits, name) == float(text)
        else:
            assert getattr(limits, name) == pytest.approx(float(text) * ONE, rel=1e-5), name


@pytest.mark.parametrize("edition", EDITIONS)
def test_marine_4_stands_in_the_row_of_zone_5(edition):
    code = CodeLimits(edition)
    assert code.limits(4, marine=True) == code.limits(5, marine=False)
    assert code.limits(4, marine=True) != code.limits(4, marine=False)
    assert code.limits(3, marine=True) == code.limits(3, marine=False)


def test_limits_of_ones_own_go_before_the_table():
    code = CodeLimits("IECC 2018", {"frame_wall": 0.3})
    limits = code.limits(4, marine=False)
    assert limits.frame_wall == 0.3
    assert limits.mass_wall == pytest.approx(0.098 * ONE, rel=1e-5)
