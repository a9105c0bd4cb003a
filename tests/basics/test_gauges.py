from __future__ import annotations

import pytest

from docgen.basics.findings import Refused
from docgen.basics.gauges import awg_diameter_mm, parse_gauge, takes_gauge

# A published table of solid wire (Floyd, Electric Circuit Fundamentals): AWG, inches; mm² worked out by hand.
TABLE = [
    (10, 0.10189, 5.261),
    (12, 0.0808, 3.309),
    (14, 0.06408, 2.081),
    (16, 0.05082, 1.309),
    (18, 0.0403, 0.823),
    (20, 0.03196, 0.518),
    (22, 0.02535, 0.326),
    (24, 0.0201, 0.205),
    (26, 0.01594, 0.129),
    (28, 0.01264, 0.0810),
    (30, 0.01002, 0.0509),
]


def test_number_36_is_five_thousandths_of_an_inch() -> None:
    assert awg_diameter_mm(36) == pytest.approx(0.0050 * 25.4, rel=1e-12)


def test_four_noughts_are_46_hundredths_of_an_inch() -> None:
    assert awg_diameter_mm(-3) == pytest.approx(0.4600 * 25.4, rel=1e-12)


def test_a_step_is_the_39th_root_of_92() -> None:
    assert awg_diameter_mm(21) / awg_diameter_mm(22) == pytest.approx(1.12293, abs=5e-6)


@pytest.mark.parametrize(("number", "inches", "area"), TABLE)
def test_diameters_are_those_of_the_published_table(number: int, inches: float, area: float) -> None:
    del area
    assert awg_diameter_mm(number) / 25.4 == pytest.approx(inches, abs=5e-5)


@pytest.mark.parametrize(("number", "inches", "area"), TABLE)
def test_areas_are_those_of_the_published_table(number: int, inches: float, area: float) -> None:
    del inches
    assert parse_gauge(f"{number} AWG").area_mm2 == pytest.approx(area, rel=2e-3)


def test_number_22_has_642_circular_mils() -> None:
    assert (awg_diameter_mm(22) / 0.0254) ** 2 == pytest.approx(642.4, abs=0.3)


def test_the_thinnest_gauge_is_number_40() -> None:
    # ASTM B258 goes on to thinner ones that no harness is made of.
    assert parse_gauge("40 AWG").text == "40 AWG"
    with pytest.raises(Refused):
        parse_gauge("41 AWG")


# 22 AWG has 0.326 mm²; for its metric twin of 0.34 mm² it stands by common practice.
@pytest.mark.parametrize("bounds", [("26 AWG", "22 AWG"), ("22 AWG", "26 AWG")])
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("28 AWG", False),
        ("26 AWG", True),
        ("22 AWG", True),
        ("20 AWG", False),
        ("0.12 mm²", False),
        ("0.14 mm²", True),
        ("0.34 mm²", True),
        ("0.35 mm²", False),
    ],
)
def test_a_contact_takes_sizes_from_one_bound_to_the_other(bounds: tuple[str, str], text: str, expected: bool) -> None:
    one, other = (parse_gauge(bound) for bound in bounds)
    assert takes_gauge((one, other), parse_gauge(text)) is expected


def test_a_gauge_goes_into_a_mark_as_its_number() -> None:
    gauge = parse_gauge("22 AWG")
    assert (gauge.text, gauge.mark) == ("22 AWG", "22")


@pytest.mark.parametrize("text", ["0.25 mm²", "0.25 mm2", "0.25mm²", "0.250 mm²"])
def test_a_metric_size_goes_into_a_mark_as_its_area(text: str) -> None:
    gauge = parse_gauge(text)
    assert (gauge.text, gauge.mark, gauge.area_mm2) == ("0.25 mm²", "0.25", 0.25)


@pytest.mark.parametrize("text", ["22", "0.25"])
def test_a_bare_size_is_told_which_unit_is_missing(text: str) -> None:
    with pytest.raises(Refused) as caught:
        parse_gauge(text)
    assert (caught.value.name, "22 AWG" in caught.value.do) == ("unit", True)


@pytest.mark.parametrize("text", ["AWG", "AWG 22", "22.5 AWG", "-1 AWG", "0 mm²", "22 mm", "²² AWG", "9" * 20_000])
def test_what_is_no_wire_size_is_refused(text: str) -> None:
    with pytest.raises(Refused):
        parse_gauge(text)
