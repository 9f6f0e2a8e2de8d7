"""Cases on the ties of floors and roofs to concrete walls: tables, foam holes, bolts and wood."""

import re
from collections.abc import Mapping
from typing import Any

from engine.clauses.us import irc_connections as connections
from engine.clauses.us import irc_scope as scope
from engine.clauses.us import timber_bearing_strength as strength
from engine.clauses.us.timber_yield import Joint, single_shear
from engine.proving import adapter
from engine.proving.adapters.residential_bearing import along, each
from engine.worksheet import Worksheet

Inputs = Mapping[str, Any]
Values = dict[str, Any]

TIES = "residential/prescriptive-floor-roof-to-concrete-wall-connection-"
SPEEDS_B_MPH = (115, 120, 130, 140, 150, 160)


@adapter("residential/wind-speed-column-equivalence-in-r608-tables")
def _columns(inputs: Inputs) -> Values:
    def printed(exposure: scope.Exposure) -> Any:
        def rule(speed_b_mph: float) -> float | str:
            speed = scope.equivalent_speed_mph(speed_b_mph, exposure)
            return "-" if speed is None else speed

        return each(inputs["speed_expB_mph"], rule)

    return {"speed_expC_mph": printed("C"), "speed_expD_mph": printed("D")}


def _printed(cell: connections.Connection, table: int) -> str:
    """A cell in the cases' words; the tables of connections to the side of the wall print no thickness."""
    if not cell.permitted:
        return "not permitted"
    if table in (1, 2, 5, 6):
        return "permitted"
    sill = " + 3x6 nominal sill" if cell.sill_3x6 else ""
    return f"{cell.wall_in:g} in nominal wall{sill}" + (" + 5/8 in bolt" if cell.bolt_5_8 else "")


@adapter(
    f"{TIES}wood-floor-side-of-wall-ledg",
    f"{TIES}wood-floor-top-of-wall-joist",
    f"{TIES}cold-formed-steel-floor-side",
    f"{TIES}cold-formed-steel-floor-top-",
    f"{TIES}wood-roof-top-of-wall-perpen",
    f"{TIES}wood-roof-top-of-wall-parall",
    f"{TIES}cold-formed-steel-roof-top-o",
)
def _ties(inputs: Inputs) -> Values:
    words = inputs["connection"]
    table = connections.detail(
        "wood" if words.startswith("wood") else "cold-formed steel",
        "roof" if "roof" in words else "floor",
        "side" if "side of wall" in words else "top",
        "perpendicular" if "perpendicular" in words else "parallel",
    )
    spacings = (inputs["anchor_bolt_spacing_in"], inputs["tension_tie_spacing_in"])
    values: Values = {}
    exposures: tuple[scope.Exposure, ...] = ("B", "C", "D")
    for exposure in exposures:
        speeds = (scope.equivalent_speed_mph(head, exposure) for head in SPEEDS_B_MPH)
        for speed in (speed for speed in speeds if speed is not None):
            cell = connections.permitted(table, *spacings, speed, exposure)
            values[f"at_{speed:g}mph_exp{exposure}_result"] = _printed(cell, table)
    return values


HOOK = re.compile(r"hook|\b[jl][- ]?(?:bolt|shaped)")
GRADE = re.compile(r"\b[af]\d{2,4}(?: gr \w+)?")


def _bolt_of(told: str) -> tuple[connections.BoltKind | None, str]:
    """Kind and grade in a case's words; no kind where the clause names none like it, no grade where only its number is told."""
    words = told.lower().replace("grade", "gr")
    kind: connections.BoltKind | None = None
    if HOOK.search(words):
        kind = "J-hook"
    elif "rod" in words:
        kind = "threaded rod with embedded nut" if "nut" in words else None
    elif "head" in words or "bolt" in words:
        kind = "headed"
    known = sum(connections.GRADES.values(), ())
    found = GRADE.search(words)
    told_grade = found[0].upper().replace("GR", "Gr") if found else ""
    number_only = any(grade.startswith(told_grade + " ") for grade in known)
    return kind, "" if number_only else told_grade


@adapter("residential/hooked-bolts-not-allowed-in-r608-9-details")
def _bolt_kind(inputs: Inputs) -> Values:
    kind, grade = _bolt_of(inputs["bolt"])
    details = "R608.9" in inputs.get("connection", "R608.9")
    permitted = kind is not None and connections.bolt_kind_permitted(kind, grade)
    return {"permitted": permitted or not details, "allowed": connections.ALLOWED_BOLTS}


@adapter("residential/diameter-of-foam-cut-out-at-ledger-bolts")
def _hole(inputs: Inputs) -> Values:
    return {"min_hole_diameter_in": each(inputs["form_thickness_in"], connections.ledger_hole_in)}


@adapter("residential/diameter-of-foam-cut-out-intermediate-form-thickness")
def _hole_between(inputs: Inputs) -> Values:
    f_in = inputs["form_thickness_in"]
    return {
        "min_hole_diameter_in_linear": each(f_in, connections.ledger_hole_linear_in),
        "min_hole_diameter_in_stepped_up": each(f_in, connections.ledger_hole_in),
    }


@adapter("residential/cut-out-at-cold-formed-track-bolts")
def _track(inputs: Inputs) -> Values:
    return {
        "min_square_hole_in": connections.track_hole_in(),
        "max_separator_in": connections.largest_separator_in(),
    }


@adapter("residential/wood-species-limit")
def _species(inputs: Inputs) -> Values:
    return {"permitted": each(inputs["specific_gravity"], connections.wood_permitted)}


@adapter("residential/inferred-tension-tie-demand-behind-table-r608-9-1")
def _tie_demand(inputs: Inputs) -> Values:
    ultimate = connections.wind_pressure_psf(
        inputs["Kz"], inputs["Kd"], inputs["wind_speed_mph"], inputs["GCp_plus_GCpi"]
    )
    allowable = 0.6 * ultimate  # ASCE 7 2.4.1, factor of wind
    values = {"wind_pressure_ultimate_psf": ultimate, "wind_pressure_asd_psf": allowable}
    if {"tributary_height_ft", "tie_spacing_in"} <= inputs.keys():
        sizes = (inputs["tributary_height_ft"], inputs["tie_spacing_in"])
        values["tie_force_asd_lb"] = connections.tie_force_lb(allowable, *sizes)
    return values


@adapter("residential/bolt-in-1-5-in-wood-ledger-to-concrete-perpendicular-to-grain")
def _ledger_bolt(inputs: Inputs) -> Values:
    def Z_perp_lb(D_in: float, G: float, l_s_in: float) -> float:
        joint = Joint(
            D_in=D_in,
            D_nom_in=D_in,
            l_m_in=inputs.get("embedment_in", 6.0),  # Table 12E, footnote
            l_s_in=l_s_in,
            F_em_psi=strength.fe_concrete_psi(inputs.get("fc_min_psi", 2500.0)),
            F_es_psi=strength.fe_wood_psi(G, D_in, 90.0),
            F_yb_psi=inputs.get("Fyb_psi", 45000.0),  # bolts in Table 12E
            theta_deg=90.0,
            g_in=0.0,
        )
        return single_shear(Worksheet(recording=False), joint).Z_lb

    sizes = (inputs["bolt_diameter_in"], inputs["specific_gravity"], inputs.get("side_member_in", 1.5))
    return {"Z_perp_lb": along(Z_perp_lb, *sizes)}
