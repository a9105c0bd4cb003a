from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from docgen.basics import units
from docgen.basics.findings import Refused
from docgen.basics.units import Quantity, at_least, at_most, parse_quantity

# Exact by definition: inch 25.4 mm, foot 304.8 mm, pound 453.59237 g of 16 ounces; the rest is decimal.
FACTORS: dict[str, tuple[Quantity, dict[str, float]]] = {
    "length": (units.LENGTH_MM, {"mm": 1, "cm": 10, "m": 1000, "in": 25.4, "ft": 304.8}),
    "offset": (units.OFFSET_MM, {"mm": 1, "cm": 10, "m": 1000, "in": 25.4, "ft": 304.8}),
    "spool": (units.SPOOL_MM, {"mm": 1, "cm": 10, "m": 1000, "in": 25.4, "ft": 304.8}),
    "current": (units.CURRENT_A, {"A": 1, "mA": 0.001}),
    "charge": (units.CHARGE_MAH, {"mAh": 1, "Ah": 1000}),
    "voltage": (units.VOLTAGE_V, {"V": 1, "mV": 0.001}),
    "resistance": (units.RESISTANCE_OHM, {"ohm": 1, "mohm": 0.001, "Ω": 1, "mΩ": 0.001}),
    "temperature": (units.TEMPERATURE_C, {"°C": 1, "C": 1}),
    "share": (units.RATIO, {"%": 0.01}),
    "time": (units.TIME_S, {"s": 1, "min": 60, "h": 3600}),
    "mass": (units.MASS_G, {"g": 1, "kg": 1000, "oz": 28.349523125, "lb": 453.59237}),
    "mass by length": (
        units.LINEAR_MASS_G_PER_M,
        {"g/m": 1, "kg/km": 1, "lb/1000ft": 453.59237 / 304.8},
    ),
    "resistance by length": (
        units.LINEAR_RESISTANCE_OHM_PER_M,
        {
            "ohm/1000ft": 1 / 304.8,
            "ohm/km": 0.001,
            "ohm/m": 1,
            "mohm/m": 0.001,
            "Ω/1000ft": 1 / 304.8,
            "Ω/km": 0.001,
            "Ω/m": 1,
            "mΩ/m": 0.001,
        },
    ),
}
EACH = [(quantity, unit, factor) for quantity, of in FACTORS.values() for unit, factor in of.items()]
QUANTITIES = [quantity for quantity, _ in FACTORS.values()]


def refusal(text: str, quantity: Quantity) -> Refused:
    with pytest.raises(Refused) as caught:
        parse_quantity(text, quantity)
    return caught.value


@pytest.mark.parametrize(("quantity", "unit", "factor"), EACH)
def test_each_unit_has_its_exact_factor(quantity: Quantity, unit: str, factor: float) -> None:
    half = parse_quantity(f"0.5 {unit}", quantity)
    assert half == pytest.approx(factor / 2, rel=1e-12)


@pytest.mark.parametrize("name", FACTORS)
def test_no_other_units_are_known(name: str) -> None:
    quantity, factors = FACTORS[name]
    assert set(quantity.units) == set(factors)


@pytest.mark.parametrize(
    ("text", "quantity", "value"),
    [
        ("235 mm", units.LENGTH_MM, 235),
        ("9.25 in", units.LENGTH_MM, 234.95),
        ("2.8 A", units.CURRENT_A, 2.8),
        ("150 mA", units.CURRENT_A, 0.15),
        ("2600 mAh", units.CHARGE_MAH, 2600),
        ("8.4 V", units.VOLTAGE_V, 8.4),
        ("30 mohm", units.RESISTANCE_OHM, 0.03),
        ("120 °C", units.TEMPERATURE_C, 120),
        ("120 C", units.TEMPERATURE_C, 120),
        ("30 %", units.RATIO, 0.3),
        ("9 min", units.TIME_S, 540),
        ("13.4 s", units.TIME_S, 13.4),
        ("180 g", units.MASS_G, 180),
        ("-40 mm", units.OFFSET_MM, -40),
        ("16.20 ohm/1000ft", units.LINEAR_RESISTANCE_OHM_PER_M, 16.2 / 304.8),
    ],
)
def test_quantities_are_read_as_builders_write_them(text: str, quantity: Quantity, value: float) -> None:
    assert parse_quantity(text, quantity) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize("text", ["235mm", "235  mm", "+235 mm", "235. mm", "0235 mm"])
def test_small_freedoms_of_writing_are_taken(text: str) -> None:
    assert parse_quantity(text, units.LENGTH_MM) == 235


@given(st.decimals(0, 300, places=6), st.sampled_from(["mm", "cm", "in", "ft"]))
def test_twice_the_number_is_twice_the_length(number: float, unit: str) -> None:
    once, twice = (parse_quantity(f"{n:f} {unit}", units.SPOOL_MM) for n in (number, 2 * number))
    assert twice == pytest.approx(2 * once, rel=1e-12)


@given(st.integers(0, 8000))
def test_twelve_inches_are_a_foot(feet: int) -> None:
    inches = parse_quantity(f"{12 * feet} in", units.SPOOL_MM)
    assert inches == pytest.approx(parse_quantity(f"{feet} ft", units.SPOOL_MM), rel=1e-12)


@pytest.mark.parametrize(("quantity", "unit"), [(quantity, unit) for quantity, unit, _ in EACH])
def test_nothing_of_anything_is_nothing(quantity: Quantity, unit: str) -> None:
    assert parse_quantity(f"0 {unit}", quantity) == 0


@given(st.text(), st.sampled_from(QUANTITIES))
@pytest.mark.long
def test_any_text_is_refused_or_within_bounds(text: str, quantity: Quantity) -> None:
    try:
        value = parse_quantity(text, quantity)
    except Refused:
        return
    assert math.isfinite(value)
    assert quantity.least <= value <= quantity.most


@pytest.mark.parametrize("name", FACTORS)
def test_a_bare_number_is_told_which_unit_is_missing(name: str) -> None:
    quantity, factors = FACTORS[name]
    refused = refusal("0.5", quantity)
    assert refused.name == "unit"
    assert next(iter(factors)) in refused.do


@pytest.mark.parametrize("text", ["0.5", "1 mile", "one"])
@pytest.mark.parametrize("quantity", QUANTITIES)
def test_what_is_offered_instead_can_be_written(text: str, quantity: Quantity) -> None:
    offered = re.findall("`(.+?)`", refusal(text, quantity).do)
    assert len(offered) == 1
    assert quantity.least <= parse_quantity(offered[0], quantity) <= quantity.most


@pytest.mark.parametrize(
    ("text", "quantity"),
    [
        ("235 V", units.LENGTH_MM),
        ("235 MM", units.LENGTH_MM),
        ('9"', units.LENGTH_MM),
        ("2.8 Ah", units.CURRENT_A),
        ("2.8 A", units.CHARGE_MAH),
        ("30 m", units.TIME_S),
        ("120 F", units.TEMPERATURE_C),
        ("16.2 ohm", units.LINEAR_RESISTANCE_OHM_PER_M),
        ("1e3 mm", units.LENGTH_MM),
        ("235 mm mm", units.LENGTH_MM),
    ],
)
def test_a_foreign_unit_is_refused(text: str, quantity: Quantity) -> None:
    assert refusal(text, quantity).name == "unit"


@pytest.mark.parametrize(
    ("text", "whole"), [("1 200 mm", "1200 mm"), ("2 8.5 mm", "28.5 mm"), ("-1 040mm", "-1040mm"), ("12 34", "1234")]
)
def test_a_blank_in_a_number_has_a_sentence_of_its_own(text: str, whole: str) -> None:
    with pytest.raises(Refused) as refused:
        parse_quantity(text, units.OFFSET_MM)
    assert (refused.value.name, refused.value.sentence) == ("value", f"`{text}` has a blank in its number.")
    assert refused.value.do == f"Leave it out: `{whole}`."


@pytest.mark.parametrize(("text", "length_mm"), [("1200  mm", 1200), ("1.5 m", 1500), ("-40 mm", -40)])
def test_a_blank_before_the_unit_is_none_in_the_number(text: str, length_mm: float) -> None:
    assert parse_quantity(text, units.OFFSET_MM) == length_mm


def test_a_decimal_comma_is_offered_the_point() -> None:
    refused = refusal("2,8 A", units.CURRENT_A)
    assert (refused.name, "2.8 A" in refused.do) == ("value", True)


@pytest.mark.parametrize(
    ("text", "quantity", "readings"),
    [
        ("2,600 mAh", units.CHARGE_MAH, ["2.6 mAh", "2600 mAh"]),
        ("1,140 mm", units.LENGTH_MM, ["1.14 mm", "1140 mm"]),
        ("-1,000mm", units.OFFSET_MM, ["-1mm", "-1000mm"]),
    ],
)
def test_three_figures_after_one_comma_are_offered_both_readings(
    text: str, quantity: Quantity, readings: list[str]
) -> None:
    refused = refusal(text, quantity)
    assert refused.name == "value"
    assert re.findall("`(.*?)`", refused.do) == readings


@pytest.mark.parametrize(
    ("text", "quantity", "reading"),
    [
        ("0,125 in", units.LENGTH_MM, "0.125 in"),
        ("1140,5 mm", units.LENGTH_MM, "1140.5 mm"),
        ("2600,125 mAh", units.CHARGE_MAH, "2600.125 mAh"),
        ("2,8A", units.CURRENT_A, "2.8A"),
        ("1,140,500 mm", units.LENGTH_MM, "1140500 mm"),
    ],
)
def test_a_comma_with_one_reading_is_offered_that_alone(text: str, quantity: Quantity, reading: str) -> None:
    refused = refusal(text, quantity)
    assert (refused.name, re.findall("`(.*?)`", refused.do)) == ("value", [reading])


@pytest.mark.parametrize("text", ["", "mm", "nan mm", "inf mm", "--3 mm", "1.2.3 mm", "one mm", ". mm"])
def test_what_is_no_number_is_refused(text: str) -> None:
    assert refusal(text, units.LENGTH_MM).name in ("value", "unit")


@pytest.mark.parametrize(
    ("text", "quantity"),
    [
        ("-1 mm", units.LENGTH_MM),
        ("-1 A", units.CURRENT_A),
        ("101 %", units.RATIO),
        ("-1 %", units.RATIO),
        ("-300 °C", units.TEMPERATURE_C),
        ("1000 m", units.LENGTH_MM),
    ],
)
def test_what_is_out_of_bounds_is_refused(text: str, quantity: Quantity) -> None:
    assert refusal(text, quantity).name == "value"


@pytest.mark.parametrize("quantity", QUANTITIES)
def test_twenty_thousand_digits_are_refused_in_few_words(quantity: Quantity) -> None:
    refused = refusal("9" * 20_000 + " " + next(iter(quantity.units)), quantity)
    assert refused.name == "value"
    assert len(str(refused)) < 200


def test_twenty_thousand_digits_are_no_whole_number() -> None:
    with pytest.raises(Refused) as caught:
        units.parse_whole("9" * 20_000, 0, 100)
    assert len(str(caught.value)) < 200


@pytest.mark.parametrize(("text", "value"), [("0", 0), ("7", 7), ("10", 10)])
def test_a_whole_number_may_be_its_bounds(text: str, value: int) -> None:
    assert units.parse_whole(text, 0, 10) == value


# What may be typed at all, a choice of ours: far beyond what a model aircraft has, far from what arithmetic can't bear.
@pytest.mark.parametrize(
    ("quantity", "unit", "least", "most"),
    [
        (units.LENGTH_MM, "m", 0, 100),
        (units.OFFSET_MM, "m", -100, 100),
        (units.SPOOL_MM, "m", 0, 10_000),
        (units.CURRENT_A, "A", 0, 1000),
        (units.CHARGE_MAH, "Ah", 0, 1000),
        (units.VOLTAGE_V, "V", 0, 1000),
        (units.RESISTANCE_OHM, "ohm", 0, 10_000),
        (units.TEMPERATURE_C, "°C", -100, 2000),
        (units.RATIO, "%", 0, 100),
        (units.TIME_S, "h", 0, 100),
        (units.MASS_G, "kg", 0, 1000),
        (units.LINEAR_MASS_G_PER_M, "kg/km", 0, 100_000),
    ],
)
def test_a_quantity_may_be_its_bounds_and_no_hundredth_more(
    quantity: Quantity, unit: str, least: int, most: int
) -> None:
    assert parse_quantity(f"{most} {unit}", quantity) == pytest.approx(most * quantity.units[unit])
    assert parse_quantity(f"{least} {unit}", quantity) == pytest.approx(least * quantity.units[unit])
    for beyond in (f"{most * 1.01} {unit}", f"{least * 1.01 or -0.01} {unit}"):
        assert refusal(beyond, quantity).name == "value"


@pytest.mark.parametrize(
    ("length_mm", "text"),
    [(235, "235"), (3.449, "3.4"), (1335.04, "1335"), (99_999.4, "99999.4"), (123_456.7, "123457")],
)
def test_a_length_has_a_decimal_only_where_it_needs_one(length_mm: float, text: str) -> None:
    assert units.millimetres(length_mm) == text


@pytest.mark.parametrize("text", ["-1", "11", "1.0", "1e0", " 1", "٣", "one", "1 mm"])
def test_only_whole_numbers_within_their_bounds_are_taken(text: str) -> None:
    with pytest.raises(Refused):
        units.parse_whole(text, 0, 10)


@pytest.mark.parametrize(
    ("value", "figures", "written"),
    [
        (112.6, 2, "113"),
        (99.6, 2, "100"),
        (12.34, 2, "12"),
        (0.126, 2, "0.13"),
        (1234.5678, 3, "1235"),
        (10_000_000, 6, "10000000"),
        (-2_500_000, 6, "-2500000"),
        (0.00001, 6, "0.00001"),
        (0.000012345678, 6, "0.0000123457"),
        (0.1 + 0.2, 6, "0.3"),
        (0, 6, "0"),
        (235, 6, "235"),
    ],
)
def test_a_number_is_written_to_so_many_figures_and_never_with_a_power_of_ten(
    value: float, figures: int, written: str
) -> None:
    assert units.decimal(value, figures) == written


def test_bounds_are_told_as_plain_numbers() -> None:
    assert "between 0 mm and 10000000 mm" in refusal("99999999 mm", units.SPOOL_MM).do
    assert "between 0 mAh and 1000000 mAh" in refusal("9999999 mAh", units.CHARGE_MAH).do


@pytest.mark.parametrize(("length", "rounded"), [(1333.76, 1335), (1335, 1335), (1335.1, 1340), (0, 0)])
def test_lengths_are_rounded_up_to_the_next_step(length: float, rounded: float) -> None:
    assert units.round_up_to_step(length, 5) == rounded


def test_rounding_noise_makes_no_step() -> None:
    assert units.round_up_to_step(0.1 * 3, 0.1) == pytest.approx(0.3)


@pytest.mark.parametrize(
    ("value", "decimals", "least", "most"),
    [
        (7.24, 1, "7.3", "7.2"),
        (7.2, 1, "7.2", "7.2"),
        (3, 2, "3", "3"),
        (396.43, 0, "397", "396"),
        (0.1 + 0.2, 1, "0.3", "0.3"),
    ],
)
def test_a_bound_is_rounded_to_the_side_on_which_it_holds(value: float, decimals: int, least: str, most: str) -> None:
    assert (at_least(value, decimals), at_most(value, decimals)) == (least, most)


def test_each_quantity_is_among_all() -> None:
    assert {quantity.name for quantity in units.QUANTITIES} == {quantity.name for quantity in QUANTITIES}
