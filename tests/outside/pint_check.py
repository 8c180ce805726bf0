"""Units and quantities by Pint, in exact fractions."""

from fractions import Fraction

import pint

import cases

units = pint.UnitRegistry(non_int_type=Fraction)

# Each unit of the language, as Pint writes it.
UNITS = {
    "in": "inch",
    "ft": "foot",
    "yd": "yard",
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "sq in": "inch ** 2",
    "sq ft": "foot ** 2",
    "sq yd": "yard ** 2",
    "m2": "meter ** 2",
    "cu in": "inch ** 3",
    "cu ft": "foot ** 3",
    "cu yd": "yard ** 3",
    "m3": "meter ** 3",
    "L": "liter",
    "gal": "gallon",
    "lb": "pound",
    "kg": "kilogram",
    "g": "gram",
    "ton": "short_ton",
    "t": "metric_ton",
    "pcf": "pound / foot ** 3",
    "psi": "pound_force / inch ** 2",
    "MPa": "megapascal",
    "min": "minute",
    "h": "hour",
    "day": "day",
    "week": "week",
    "deg": "degree",
}

# Quantities as the language writes them: parts of a sum, each a figure and
# its unit.
QUANTITIES = {
    "24' 6 1/2\"": [("24", "foot"), ("13/2", "inch")],
    "24'-6½\"": [("24", "foot"), ("13/2", "inch")],
    "1-3/4 in": [("7/4", "inch")],
    "1,200 mm": [("1200", "millimeter")],
    "150 lb/cu ft": [("150", "pound / foot ** 3")],
    "150 pcf": [("150", "pound / foot ** 3")],
    "1.35 t/m3": [("27/20", "metric_ton / meter ** 3")],
    "30 lb/sq ft": [("30", "pound / foot ** 2")],
    "3.5 in/h": [("7/2", "inch / hour")],
    "50 mm/h": [("50", "millimeter / hour")],
    "1/4 in per ft": [("1/4", "inch / foot")],
    "1/2 in over 12'": [("1/24", "inch / foot")],
    "1:60": [("1/60", "meter / meter")],
    "2 %": [("1/50", "meter / meter")],
    "120 sq ft/ton": [("120", "foot ** 2 / short_ton")],
    "40 °F": [("40", "degF")],
    "5 °C": [("5", "degC")],
    "-40 °F": [("-40", "degF")],
    "2 weeks + 3 days + 4 h + 5 min": [
        ("2", "week"),
        ("3", "day"),
        ("4", "hour"),
        ("5", "minute"),
    ],
    "35.2°": [("176/5", "degree")],
    "12 cu yd": [("12", "yard ** 3")],
    "5 gal": [("5", "gallon")],
    "0.75 L": [("3/4", "liter")],
    "94 lb / 1 cu ft": [("94", "pound / foot ** 3")],
    "3 m * 2 ft": [("6", "meter * foot")],
    "1 ton + 1 t + 1 kg + 1 g + 1 lb": [
        ("1", "short_ton"),
        ("1", "metric_ton"),
        ("1", "kilogram"),
        ("1", "gram"),
        ("1", "pound"),
    ],
}


def in_base(figure, unit):
    """A figure in the language's base units, exactly."""
    quantity = units.Quantity(Fraction(figure), unit)
    if unit in ("degF", "degC"):
        return quantity.to("kelvin").magnitude
    if unit == "degree":
        # An angle is kept in degrees: no whole one is a fraction of a radian.
        return quantity.magnitude
    return quantity.to_base_units().magnitude


def check(case):
    found = Fraction(int(case["numerator"]), int(case["denominator"]))
    if case["kind"] == "unit":
        wanted = in_base("1", UNITS[case["symbol"]])
        name = case["symbol"]
    else:
        wanted = sum(in_base(*part) for part in QUANTITIES[case["text"]])
        name = case["text"]
    if found != wanted:
        yield f"{name}: {float(found)}, by Pint {float(wanted)}"


cases.run(check)
