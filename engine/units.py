"""Text to numbers and back: the one place that knows unit names, and the one that knows pint.

The engine computes in plain floats in the codes' own units. People type feet and inches, fractions, pounds per foot, kilonewtons;
pint supplies the factors between units but never sees typed text (it reads "9 1/4 in" as 2.25 in).
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from types import MappingProxyType
from typing import Any, Literal

from engine.errors import BadInput

System = Literal["ft in", "mm"]

# Unit as the engine and the pages write it -> pint expression. Force-based pounds throughout.
PINT: Mapping[str, str] = MappingProxyType(
    {
        "in": "inch",
        "ft": "foot",
        "mm": "millimeter",
        "cm": "centimeter",
        "m": "meter",
        "in²": "inch**2",
        "ft²": "foot**2",
        "mm²": "millimeter**2",
        "m²": "meter**2",
        "yd³": "yard**3",
        "m³": "meter**3",
        "yd³/h": "yard**3/hour",
        "m³/h": "meter**3/hour",
        "ft/h": "foot/hour",
        "m/h": "meter/hour",
        "in³": "inch**3",
        "in⁴": "inch**4",
        "mm³": "millimeter**3",
        "lb": "force_pound",
        "kip": "1000*force_pound",
        "N": "newton",
        "kN": "kilonewton",
        "plf": "force_pound/foot",
        "klf": "1000*force_pound/foot",
        "lb/in": "force_pound/inch",
        "N/m": "newton/meter",
        "kN/m": "kilonewton/meter",
        "psf": "force_pound/foot**2",
        "ksf": "1000*force_pound/foot**2",
        "psi": "force_pound/inch**2",
        "ksi": "1000*force_pound/inch**2",
        "Pa": "pascal",
        "kPa": "kilopascal",
        "MPa": "megapascal",
        "pcf": "force_pound/foot**3",
        "kN/m³": "kilonewton/meter**3",
        "lb-in": "force_pound*inch",
        "lb-ft": "force_pound*foot",
        "N·m": "newton*meter",
        "kN·m": "kilonewton*meter",
        "lb-in/ft": "force_pound*inch/foot",
        "kN·m/m": "kilonewton*meter/meter",
        "in²/ft": "inch**2/foot",
        "mm²/m": "millimeter**2/meter",
        "°": "degree",
        "°F": "degree_Fahrenheit",
        "°C": "degree_Celsius",
        "": "dimensionless",
    }
)

# What people type -> the unit above. Compared in lower case, spaces and dots squeezed out.
ALIASES: Mapping[str, str] = MappingProxyType(
    {
        **{name.lower(): name for name in PINT if name not in ("Pa", "MPa")},
        '"': "in", "''": "in", "″": "in", "”": "in", "inch": "in", "inches": "in", "ins": "in",
        "'": "ft", "′": "ft", "’": "ft", "foot": "ft", "feet": "ft",
        "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
        "metre": "m", "metres": "m", "meter": "m", "meters": "m",
        "sqin": "in²", "in2": "in²", "in^2": "in²", "sqft": "ft²", "ft2": "ft²", "ft^2": "ft²", "sf": "ft²",
        "yd3": "yd³", "cuyd": "yd³", "cy": "yd³", "m3": "m³", "yd3/h": "yd³/h", "cuyd/h": "yd³/h", "cy/h": "yd³/h", "m3/h": "m³/h",
        "mm2": "mm²", "m2": "m²", "in3": "in³", "in^3": "in³", "in4": "in⁴", "in^4": "in⁴", "mm3": "mm³",
        "lbs": "lb", "lbf": "lb", "pound": "lb", "pounds": "lb", "#": "lb", "kips": "kip", "k": "kip",
        "newton": "N", "newtons": "N",
        "lb/ft": "plf", "lbs/ft": "plf", "lbf/ft": "plf", "kip/ft": "klf", "pli": "lb/in",
        "lb/ft2": "psf", "lb/ft²": "psf", "lbs/ft2": "psf", "lb/ft^2": "psf",
        "lb/in2": "psi", "lb/in²": "psi", "lb/in^2": "psi",
        "pa": "Pa", "mpa": "MPa", "n/mm2": "MPa", "n/mm²": "MPa", "kn/m2": "kPa", "kn/m²": "kPa",
        "lb/ft3": "pcf", "lb/ft³": "pcf", "kn/m3": "kN/m³",
        "in-lb": "lb-in", "inlb": "lb-in", "lbin": "lb-in", "ft-lb": "lb-ft", "ftlb": "lb-ft", "lbft": "lb-ft",
        "nm": "N·m", "n-m": "N·m", "knm": "kN·m", "kn-m": "kN·m",
        "in2/ft": "in²/ft", "mm2/m": "mm²/m",
        "deg": "°", "degree": "°", "degrees": "°", "f": "°F", "degf": "°F", "c": "°C", "degc": "°C",
    }
)  # fmt: skip

KIND_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "in": "a length, such as 9 1/4 in or 235 mm",
        "ft": "a length, such as 12-6 1/2 or 3.8 m",
        "in²": "an area, such as 12 in² or 7,740 mm²",
        "yd³": "a volume, such as 10 yd³ or 7.5 m³",
        "yd³/h": "a rate, such as 10 yd³/h or 7.5 m³/h",
        "lb": "a force, such as 800 lb or 3.6 kN",
        "plf": "a load per length, such as 600 plf or 8.8 kN/m",
        "psf": "a load per area, such as 40 psf or 1.9 kPa",
        "psi": "a strength, such as 3,000 psi or 20 MPa",
        "ksi": "a strength, such as 60 ksi or 414 MPa",
        "pcf": "a unit weight, such as 150 pcf or 23.6 kN/m³",
        "lb-in": "a moment, such as 4,000 lb-in or 450 N·m",
        "°F": "a temperature, such as 70 °F or 21 °C",
        "°": "an angle in degrees",
        "": "a plain number",
    }
)

FRACTIONS = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3"}

# Plain, mixed or fraction: 12  1,840  9.25  .5  9 1/4  9-1/4  1/2
_NUMBER = (
    r"(?:\d{1,9}(?:\s+|-)\d{1,4}/\d{1,4}|\d{1,4}/\d{1,4}"
    r"|\d{1,3}(?:,\d{3})+(?:\.\d{1,18})?|\d{1,12}(?:\.\d{0,18})?|\.\d{1,18})"
)
_FOOT = r"(?:'|′|’|ft\.?|feet|foot)"
_INCH = r"(?:\"|''|″|”|in\.?|inch(?:es)?)"
_FEET_INCHES = re.compile(rf"(?P<ft>\d{{1,6}})\s*{_FOOT}\s*-?\s*(?P<in>{_NUMBER})\s*{_INCH}?", re.IGNORECASE)
_FEET_DASH = re.compile(rf"(?P<ft>\d{{1,6}})\s*-\s*(?P<in>\d{{1,2}}(?:\.\d+)?(?:\s+\d{{1,3}}/\d{{1,3}})?)\s*{_INCH}?")
_WITH_UNIT = re.compile(rf"(?P<number>{_NUMBER})\s*(?P<unit>[^\d\s.,].{{0,20}})?")
LENGTHS = ("in", "ft", "mm", "m", "cm")
LONGEST_TEXT = 60
THIN_IN = 0.25  # sheet and washers: below this, decimals unless the value is a sixteenth


def _number(text: str) -> float:
    total = 0.0
    for part in re.split(r"\s+|(?<=\d)-(?=\d+/)", text.replace(",", "")):
        if "/" in part:
            top, bottom = part.split("/")
            if int(bottom) == 0:
                raise ZeroDivisionError
            total += int(top) / int(bottom)
        else:
            total += float(part)
    return total


@lru_cache(maxsize=1)
def _registry() -> Any:
    import pint  # a quarter of a second: only when a second unit is really met

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


@cache
def _line(source: str, target: str) -> tuple[float, float]:
    """Offset and slope that take a number in `source` to `target`. Raises: BadInput when they measure different things."""
    if source == target:
        return 0.0, 1.0
    import pint

    registry = _registry()

    def at(value: float) -> float:
        if source in ("°F", "°C"):
            return float(registry.Quantity(value, PINT[source]).to(PINT[target]).magnitude)
        return float((value * registry.parse_expression(PINT[source])).to(registry.parse_units(_bare(PINT[target]))).m)

    try:
        scale = 1000.0 if PINT[target].startswith("1000*") else 1.0
        offset = at(0.0) / scale if source in ("°F", "°C") else 0.0
        return offset, at(1.0) / scale - offset
    except pint.DimensionalityError:
        wanted = KIND_WORDS.get(target, f"a value in {target}")
        raise BadInput("", f"“{source}” does not fit here. Enter {wanted}.") from None


def _bare(expression: str) -> str:
    return expression.removeprefix("1000*")


def convert(value: float, source: str, target: str) -> float:
    """A number in another unit of the same kind. Raises: BadInput for an unknown unit or another kind."""
    for unit in (source, target):
        if unit not in PINT:
            raise BadInput("", f"Unknown unit “{unit}”.")
    if source == target:
        return value
    offset, slope = _line(source, target)
    return float(f"{offset + slope * value:.13g}")  # 152.4 mm is 6 in, without the factor's last bits


def unit_named(text: str) -> str:
    """The unit meant by what was typed ("inches", "lb/ft2"). Raises: BadInput."""
    squeezed = re.sub(r"[\s.·]+", "", text.lower()) or ""
    if squeezed in ALIASES:
        return ALIASES[squeezed]
    raise BadInput("", f"“{text.strip()}” is not a unit known here.")


def parse(text: str, unit: str) -> float:
    """Read what somebody typed.

    Args:
        text: "12' 6 1/2\\"", "12-6 1/2", "9 1/4 in", "38 mm", "3.8 m", "40 psf", "600 plf", "8.8 kN/m", "3,000 psi", "20 MPa".
        unit: engine unit of the answer, and the unit meant when none is typed.
    Returns: the number in `unit`.
    Raises: BadInput saying what to enter, for anything else.
    """
    wanted = KIND_WORDS.get(unit, f"a number in {unit}")
    typed = text.strip()
    if not typed:
        raise BadInput("", f"Enter {wanted}.")
    if len(typed) > LONGEST_TEXT:
        raise BadInput("", f"That is too long to be a quantity. Enter {wanted}.")
    for sign, words in FRACTIONS.items():
        typed = typed.replace(sign, f" {words}")
    typed = re.sub(r"\s+", " ", typed).strip().replace("−", "-")
    negative = typed.startswith("-")
    body = typed[1:].strip() if negative else typed
    try:
        value = _read(body, unit)
    except ZeroDivisionError:
        raise BadInput("", f"A fraction can't have 0 below the bar. Enter {wanted}.") from None
    if value is None:
        raise BadInput("", f"“{text.strip()}” can't be read. Enter {wanted}.")
    return -value if negative else value


def _read(body: str, unit: str) -> float | None:
    if unit in LENGTHS:
        match = _FEET_INCHES.fullmatch(body) or _FEET_DASH.fullmatch(body)
        if match:
            inches = _number(match["in"])
            if inches >= 12:
                raise BadInput("", "After the feet, enter less than 12 in.")
            return convert(int(match["ft"]) * 12 + inches, "in", unit)
    match = _WITH_UNIT.fullmatch(body)
    if not match:
        return None
    typed_unit = unit_named(match["unit"]) if match["unit"] else unit
    return convert(_number(match["number"]), typed_unit, unit)


# Engine unit -> (unit shown, decimals) for a reader who thinks in millimetres.
METRIC: Mapping[str, tuple[str, int]] = MappingProxyType(
    {
        "in": ("mm", 0),
        "ft": ("m", 2),
        "in²": ("mm²", 0),
        "in³": ("mm³", 0),
        "ft²": ("m²", 2),
        "yd³": ("m³", 2),
        "yd³/h": ("m³/h", 2),
        "ft/h": ("m/h", 2),
        "lb": ("kN", 2),
        "kip": ("kN", 1),
        "plf": ("kN/m", 2),
        "lb/in": ("kN/m", 2),
        "psf": ("kPa", 2),
        "psi": ("MPa", 2),
        "ksi": ("MPa", 0),
        "pcf": ("kN/m³", 1),
        "lb-in": ("kN·m", 3),
        "lb-in/ft": ("kN·m/m", 3),
        "in²/ft": ("mm²/m", 0),
        "°F": ("°C", 0),
    }
)
# Decimals kept for inch-pound figures that are not lengths.
DECIMALS: Mapping[str, int] = MappingProxyType(
    {"in²": 2, "in³": 2, "in²/ft": 3, "°": 1, "ft²": 1, "yd³": 1, "yd³/h": 1, "ft/h": 2, "lb/in": 1, "kip": 2, "": 2}
)


@dataclass(frozen=True, slots=True)
class Shown:
    """A figure as a reader sees it: the number's text and the unit's, kept apart so that the unit can be set small."""

    figure: str
    unit: str

    def __str__(self) -> str:
        return f"{self.figure} {self.unit}".strip()


def fraction(inches: float, denominator: int = 16) -> str:
    """Inches to the nearest sixteenth, as a mixed fraction in words: 9.25 -> "9 1/4"."""
    sign = "-" if inches < 0 else ""
    parts = round(abs(inches) * denominator)
    whole, rest = divmod(parts, denominator)
    if not rest:
        return f"{sign if parts else ''}{whole}"
    while rest % 2 == 0:
        rest, denominator = rest // 2, denominator // 2
    return f"{sign}{whole} {rest}/{denominator}" if whole else f"{sign}{rest}/{denominator}"


def feet_inches(inches: float) -> str:
    """A length in inches as feet-inches to the nearest sixteenth, dash style: 150.5 -> "12-6 1/2"."""
    parts = round(abs(inches) * 16)
    feet, rest = divmod(parts, 16 * 12)
    figure = fraction(rest / 16)
    if 0 < rest < 16:
        figure = f"0 {figure}"  # "5-1/16" would read as five and a sixteenth
    return f"{'-' if inches < 0 and parts else ''}{feet}-{figure}"


def grouped(value: float, decimals: int) -> str:
    """Thousands parted by commas, zeros after the point dropped."""
    text = f"{value:,.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def shown(value: float, unit: str, system: System = "ft in") -> Shown:
    """A value in the reader's unit. Args: value in the engine's `unit`; system: "ft in" or "mm"."""
    if system == "mm" and unit in METRIC:
        metric, decimals = METRIC[unit]
        return Shown(grouped(convert(value, unit, metric), decimals), metric)
    if unit == "in":
        thin = 0 < abs(value) < THIN_IN and abs(value * 16 - round(value * 16)) > 1e-3
        return Shown(grouped(value, 4) if thin else fraction(value), "in")
    if unit == "ft":
        feet, inches = divmod(round(value * 12 * 16) / 16, 12)
        figure = f"{feet:.0f} ft" + (f" {fraction(inches)}" if inches else "")
        return Shown(figure, "in" if inches else "")
    return Shown(grouped(value, DECIMALS.get(unit, 0)), unit)


def show(value: float, unit: str, system: System = "ft in") -> str:
    """`shown` as one string: "3 1/2 in", "1,840 plf", "89 mm"."""
    return str(shown(value, unit, system))
