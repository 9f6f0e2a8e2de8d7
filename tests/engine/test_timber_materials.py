"""Species, sawn sizes and fasteners."""

import pytest

from engine.clauses.us import timber_materials as materials
from engine.errors import BadInput
from engine.tables import load

# NDS 2018 Table 12.3.3A and Supplement Tables 4A, 5A, second-hand: see the head of timber_species.csv.
COLUMNS = {
    "timber_species": (
        ["key", "name", "material", "hardwood", "G", "F_c_perp_psi", "F_v_psi", "G_from", "F_c_perp_from", "F_v_from"],
        18,
    ),
    "timber_lumber_sizes": (["nominal", "b_in", "d_in"], 22),
    "timber_wood_screws": (["gauge", "D_in", "D_r_in", "head_in", "F_yb_psi"], 9),
    "timber_lag_screws": (["key", "D_in", "D_r_in", "F_yb_psi"], 8),
    "timber_bolts": (["key", "D_in", "D_r_in", "F_yb_psi"], 6),
    "timber_small_fastener_spacing": (["item", "side", "bare_D", "lead_D"], 12),
}


@pytest.mark.parametrize("name", COLUMNS)
def test_a_timber_table_has_its_columns_rows_and_pedigree(name) -> None:
    columns, rows = COLUMNS[name]
    table = load(name)
    assert list(table.columns) == columns
    assert len(table.rows) == rows
    assert table.pedigree["provenance"] in ("read", "memory")


@pytest.mark.parametrize("typed", ["DF-L", "df-l", " DF-L ", "Df-L"])
def test_a_species_is_found_however_it_is_typed(typed) -> None:
    found = materials.species(typed)
    assert (found.name, found.G, found.F_c_perp_psi, found.F_v_psi) == ("Douglas Fir-Larch", 0.50, 625, 180)
    assert found.provenance == "read"


def test_a_species_with_a_recalled_value_says_so() -> None:
    assert materials.species("SPF-S").provenance == "memory"
    assert materials.species("hf(n)").G == 0.46
    assert materials.species("HF (N)").provenance == "memory"
    assert materials.species("RO").hardwood
    assert not materials.species("SP").hardwood
    assert materials.species("GL-24F-1.8E").material == "glulam"


def test_an_unknown_species_is_refused_with_the_known_ones() -> None:
    with pytest.raises(BadInput, match=r"DF-L, .*SPF-S.*“oak” is not known"):
        materials.species("oak")


def test_every_choice_leads_to_its_thing() -> None:
    for choices, find in (
        (materials.species_choices, materials.species),
        (materials.lumber_choices, materials.lumber),
        (materials.bolt_choices, materials.bolt),
        (materials.lag_screw_choices, materials.lag_screw),
        (materials.wood_screw_choices, materials.wood_screw),
    ):
        assert choices()
        for key, words in choices():
            assert find(key).key == key
            assert words


# PS 20: 2 and 4 in nominal lose 1/2 in, 6 in 1/2 in, 8 in and more 3/4 in.
@pytest.mark.parametrize(
    ("nominal", "b_in", "d_in"),
    [("2x4", 1.5, 3.5), ("2 X 10", 1.5, 9.25), ("3x12", 2.5, 11.25), ("4x14", 3.5, 13.25), ("6x6", 5.5, 5.5)],
)
def test_a_nominal_size_is_dressed(nominal, b_in, d_in) -> None:
    size = materials.lumber(nominal)
    assert (size.b_in, size.d_in) == (b_in, d_in)


def test_roots_are_thinner_than_the_fasteners() -> None:
    for table in ("timber_bolts", "timber_lag_screws", "timber_wood_screws"):
        diameters = [(float(r["D_r_in"]), float(r["D_in"])) for r in load(table).rows]
        assert diameters == sorted(diameters)
        assert all(0.65 < root / nominal < 0.88 for root, nominal in diameters)


# NDS Appendix I: bending yield strength by diameter of wood screws, 80,000 psi at No. 10 (0.190 in) read second-hand.
def test_a_screw_brings_its_root_head_and_yield_strength() -> None:
    screw = materials.wood_screw("#10")
    assert (screw.D_in, screw.D_r_in, screw.F_yb_psi, screw.head_in) == (0.190, 0.152, 80000, 0.363)
    assert materials.wood_screw(16).head_in is None
