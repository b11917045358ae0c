"""Levels, rooms, units, runs and fittings as tables: out and back without a difference, every rule, every fault."""

from dataclasses import replace
from pathlib import Path
from unicodedata import normalize

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.app.keeping import Wanted
from linewright.app.keeping.lists import Given, change_by_table, kept_table
from linewright.cli.convert import LISTED, OF_DESIGN
from linewright.cli.main import cli
from linewright.document.encode import Style
from linewright.document.files import design_from_text
from linewright.document.grid import grid_from_text
from linewright.document.grid_out import csv_text
from linewright.document.lists import ListEdits, ListKind, choices_of, edits_from_grid, list_table
from linewright.document.lists.fields import Holds, fields_of
from linewright.errors import InputFaultsError
from linewright.model.design import Design, Fitting, Item, Level, Location, Room, Unit
from linewright.model.edits import apply
from linewright.model.values import NodeKind, Role, value
from linewright.units import Dimension, FlowM3S, Ratio, TempC, UnitSystem, parse_as
from tests.edits.test_edits import some_design
from tests.house.files import ROOT
from tests.keeping.kept import with_boat_house

EXAMPLES = sorted((ROOT / "examples").rglob("*.design.yaml"))
BOAT = (ROOT / "examples" / "boat-house" / "boat-house.design.yaml").read_text(encoding="utf-8")
BASE = design_from_text(BOAT, "boat-house.design.yaml").design
(SYSTEM,) = BASE.systems
#: The boat house with a level, and rooms on it.
DESIGN = replace(
    BASE,
    site=replace(BASE.site, levels=(Level(id="ground", elevation_m=0.0), Level(id="first", elevation_m=3.0))),
    rooms=(
        Room(id="office", level="ground", cooling_w=3000.0, name="Office, west"),
        Room(id="12", level="first", area_m2=20.0),
    ),
    systems=(replace(SYSTEM, units=tuple(replace(unit, room="office") for unit in SYSTEM.units)),),
)


def read(kind: str, text: str, *, remove: bool = False, design: Design = DESIGN) -> ListEdits:
    of = ListKind(kind)
    system = "main" if of.of_system else ""
    return edits_from_grid(of, grid_from_text(text, "table"), design, system=system, remove=remove)


def after(kind: str, text: str, *, remove: bool = False, design: Design = DESIGN) -> Design:
    return apply(design, read(kind, text, remove=remove, design=design).edit).design


def faults(kind: str, text: str) -> list[tuple[int, int, str, str]]:
    with pytest.raises(InputFaultsError) as refused:
        read(kind, text)
    return [(fault.line, fault.column, fault.message, fault.expected) for fault in refused.value.faults]


def check_round_trip(design: Design, units: UnitSystem) -> None:
    for kind in ListKind:
        for system in [one.id for one in design.systems] if kind.of_system else [""]:
            table = list_table(kind, design, Style(units), system=system)
            found = edits_from_grid(
                kind, grid_from_text(csv_text(table.texts), "t"), design, system=system, remove=True
            )
            assert (found.edit.edits, found.left_out, found.changed) == ((), (), ())
            assert all(len(row.cells) == len(table.columns) for row in table.rows)


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.name)
def test_every_list_of_an_example_reads_back_without_a_difference(example: Path, units: UnitSystem) -> None:
    check_round_trip(design_from_text(example.read_text(encoding="utf-8"), "a").design, units)


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("seed", range(10))
def test_every_list_of_a_random_design_reads_back_without_a_difference(seed: int, units: UnitSystem) -> None:
    check_round_trip(some_design(seed), units)


#: As a design holds them: letters in their short form.
texts = st.text(st.characters(exclude_categories=["C"], include_characters="\t,;|\"'[]"), max_size=12).map(
    lambda text: normalize("NFC", text)
)
metres = st.floats(-1e4, 1e4, allow_nan=False).map(lambda x: 0.0 if abs(x) < 1e-6 else x)
known = metres.map(abs)


@settings(max_examples=60, deadline=None)
@given(data=st.data(), units=st.sampled_from(UnitSystem))
def test_whatever_stands_in_a_list_reads_back_without_a_difference(data: st.DataObject, units: UnitSystem) -> None:
    draw = data.draw
    rooms = tuple(
        replace(
            room,
            name=draw(texts),
            use=draw(texts),
            area_m2=draw(st.none() | known),
            cooling_w=draw(st.none() | known),
            heating_w=draw(st.none() | known),
        )
        for room in DESIGN.rooms
    )
    levels = tuple(replace(level, elevation_m=draw(metres), name=draw(texts)) for level in DESIGN.site.levels)
    items = draw(st.sampled_from([(), (Item(kind="valve"),), (Item(kind="trap", count=3), Item(kind="oil loop"))]))
    runs = tuple(
        replace(
            run,
            length_m=draw(st.none() | known),
            rise_m=draw(st.none() | metres),
            bends=draw(st.integers(0, 99)),
            items=items,
            override=draw(st.dictionaries(st.sampled_from(Role), st.floats(0.004, 0.1), max_size=2)),
            location=draw(st.sampled_from([None, *Location])),
        )
        for run in SYSTEM.runs
    )
    units_made = tuple(replace(unit, label=draw(texts), elevation_m=draw(st.none() | metres)) for unit in SYSTEM.units)
    fittings = tuple(
        Fitting(id=run.to, kind=draw(st.sampled_from([None, NodeKind.HEADER])), label=draw(texts))
        for run in SYSTEM.runs
        if run.to not in {unit.id for unit in SYSTEM.units}
    )
    system = replace(SYSTEM, runs=runs, units=units_made, fittings=fittings)
    made = replace(DESIGN, rooms=rooms, site=replace(DESIGN.site, levels=levels), systems=(system,))
    check_round_trip(made, units)


def test_the_columns_say_what_they_hold() -> None:
    table = list_table(ListKind.ROOMS, DESIGN, Style(UnitSystem.IP), choices=choices_of(ListKind.ROOMS, DESIGN, None))
    columns = {column.key: column for column in table.columns}
    assert list(columns)[:3] == ["id", "level", "name"]
    assert columns["id"].holds is Holds.NAME
    assert (columns["level"].holds, columns["level"].choices) == (Holds.CHOICE, ("ground", "first"))
    assert (columns["cooling"].heading, columns["cooling"].unit) == ("cooling [MBH]", "MBH")
    assert columns["use"].holds is Holds.TEXT
    runs = list_table(ListKind.RUNS, DESIGN, Style(), system="main", choices=choices_of(ListKind.RUNS, DESIGN, None))
    held = {column.key: (column.holds, column.choices) for column in runs.columns}
    assert held["location"] == (Holds.CHOICE, ("indoors", "outdoors", "shaft"))
    assert held["room"] == (Holds.CHOICE, ("office", "12"))
    assert (held["model"], held["gas"]) == ((Holds.CHOICE, ()), (Holds.NUMBER, ()))


def test_every_field_of_a_room_that_is_one_value_is_a_column() -> None:
    table = list_table(ListKind.ROOMS, DESIGN, Style())
    assert [column.key for column in table.columns] == [field.key for field in fields_of(Room)]
    assert {"id", "level", "area", "height", "cooling", "sensible", "heating", "use"} <= {c.key for c in table.columns}


def test_a_figure_that_is_rounded_in_a_table_is_no_change_and_a_changed_one_is() -> None:
    """1 ft = 0.3048 m exactly (NIST SP 811), so 16 m are 52.49344 ft to seven digits."""
    runs = tuple(replace(run, length_m=16.0, override={Role.GAS: 0.02222}) for run in SYSTEM.runs)
    design = replace(DESIGN, systems=(replace(DESIGN.systems[0], runs=runs),))
    table = list_table(ListKind.RUNS, design, Style(UnitSystem.IP), system="main")
    row = dict(zip((column.heading for column in table.columns), table.rows[0].cells, strict=True))
    assert (row["length [ft]"], row["gas [in]"]) == ("52.49344", "0.8748031")
    assert read("runs", csv_text(table.texts), design=design).edit.edits == ()
    assert read("runs", "to,length [ft]\nJ2,52.4935\n", design=design).changed == ("J2",)
    assert read("runs", "to,gas\nJ2,22.225 mm\n", design=design).changed == ("J2",)


@value
class Sample:
    """What a room may come to hold, field by field."""

    id: str
    supply_degc: TempC | None = None
    air_m3s: FlowM3S | None = None
    people: int = 0
    glazed: bool = False
    share: Ratio = 0.0
    side: Location | None = None
    kept: str = ""
    doors: tuple[str, ...] = ()


def test_a_field_that_is_added_is_a_column_by_itself() -> None:
    found = {field.key: (field.holds, field.unit(Style(UnitSystem.IP))) for field in fields_of(Sample)}
    assert found == {
        "id": (Holds.NAME, ""),
        "supply": (Holds.NUMBER, "degF"),
        "air_m3s": (Holds.NUMBER, "cfm"),
        "people": (Holds.NUMBER, ""),
        "glazed": (Holds.CHOICE, ""),
        "share": (Holds.NUMBER, "%"),
        "side": (Holds.CHOICE, ""),
        "kept": (Holds.TEXT, ""),
    }
    cells = [
        field.text(getattr(Sample(id="a", glazed=True, share=0.5), field.name), Style()) for field in fields_of(Sample)
    ]
    assert cells == ["a", "", "", "0", "yes", "50", "", ""]


@given(degc=st.floats(-60, 60).filter(lambda degc: not degc or abs(degc) > 1e-6), units=st.sampled_from(UnitSystem))
def test_a_temperature_reads_back_as_the_same(degc: float, units: UnitSystem) -> None:
    (field,) = (field for field in fields_of(Sample) if field.key == "supply")
    text = f"{field.text(degc, Style(units))} {field.unit(Style(units))}"
    assert field.same(parse_as(text, Dimension.TEMPERATURE), degc)


def test_fittings_are_all_points_that_are_no_unit() -> None:
    table = list_table(ListKind.FITTINGS, DESIGN, Style(), system="main")
    units = {unit.id for unit in SYSTEM.units}
    assert [row.id for row in table.rows] == [run.to for run in SYSTEM.runs if run.to not in units]
    kinds = choices_of(ListKind.FITTINGS, DESIGN, None)["kind"]
    assert kinds == ("joint", "header", "box", "coupling")


def test_rooms_are_changed_and_added_in_the_order_of_the_rows() -> None:
    made = after(
        "rooms", "Level\tID\tcooling [kW]\tname\nground\toffice\t3,5\t\nfirst\tb\t12000 Btu/h\tB\nfirst\ta\t\t\n"
    )
    assert [room.id for room in made.rooms] == ["office", "12", "b", "a"]
    office, _, b, a = made.rooms
    assert (office.cooling_w, office.name) == (3500.0, "")
    assert b.cooling_w == pytest.approx(3516.85, abs=0.01)  # 1 Btu/h = 0.29307107 W (NIST SP 811)
    assert a == Room(id="a", level="first")


def test_a_column_that_is_not_there_and_what_must_be_there_stay() -> None:
    made = after("rooms", "id,level,cooling [kW]\noffice,,\n")
    assert made.rooms[0] == replace(DESIGN.rooms[0], cooling_w=None)


def test_levels_are_added_and_removed() -> None:
    made = after("levels", "id,elevation [ft]\nground,0\nroof,20\n")
    assert [level.id for level in made.site.levels] == ["ground", "first", "roof"]
    assert made.site.levels[2].elevation_m == pytest.approx(6.096)
    emptied = after("rooms", "id\noffice\n", remove=True)
    assert [room.id for room in emptied.rooms] == ["office"]
    assert [level.id for level in after("levels", "id\nground\n", remove=True, design=emptied).site.levels] == [
        "ground"
    ]
    with pytest.raises(InputFaultsError, match="rooms are on it: 12"):
        after("levels", "id\nground\n", remove=True)


def test_units_are_changed_and_removed_with_their_runs() -> None:
    made = after("units", "id,room,label,elevation [m]\nU1,12,By the door,2.5\nU2,,,\n")
    units = {unit.id: unit for unit in made.systems[0].units}
    assert (units["U1"].room, units["U1"].label, units["U1"].elevation_m) == ("12", "By the door", 2.5)
    assert units["U2"].room == ""
    assert units["U3"] == DESIGN.systems[0].units[2]
    left = after("units", "id\nU1\nU2\n", remove=True).systems[0]
    assert [unit.id for unit in left.units] == ["U1", "U2"]
    assert "U3" not in [run.to for run in left.runs]


def test_a_new_unit_comes_with_its_run() -> None:
    assert faults("units", "id,model\nU9,cassette 5.6\n") == [
        (2, 1, "there is no unit 'U9'", "its run, with a model, in a list of runs")
    ]


def test_fittings_are_said_of_points_that_are_there() -> None:
    made = after("fittings", "id,kind,label\nJ1,header,By the stair\nJ2,,\n").systems[0]
    assert made.fittings == (Fitting(id="J1", kind=NodeKind.HEADER, label="By the stair"),)
    design = replace(DESIGN, systems=(made,))
    again = after("fittings", "id,kind\nJ1,joint\n", design=design).systems[0]
    assert again.fittings == (Fitting(id="J1", kind=NodeKind.JOINT, label="By the stair"),)
    assert after("fittings", "id\nJ2\n", remove=True, design=design).systems[0].fittings == ()
    assert faults("fittings", "id,kind\nJ3,joint\nU1,joint\n") == [
        (2, 1, "there is no fitting 'J3'", "the far end of a run that is no unit: one of J1, J2"),
        (3, 1, "there is no fitting 'U1'", "the far end of a run that is no unit: one of J1, J2"),
    ]


def test_a_kind_takes_the_model_with_it_unless_that_is_stated() -> None:
    said = (Fitting(id="J1", kind=NodeKind.HEADER, model="header 4", label="here"),)
    design = replace(DESIGN, systems=(replace(DESIGN.systems[0], fittings=said),))
    made = after("fittings", "id,kind\nJ1,joint\n", design=design).systems[0].fittings
    assert made == (Fitting(id="J1", kind=NodeKind.JOINT, label="here"),)
    read_back = read("fittings", "id,kind,model\nJ1,box,box 4\n", design=design).edit.edits
    assert [type(edit).__name__ for edit in read_back] == ["ChangeKind", "Set"]


def test_a_whole_tree_is_pasted() -> None:
    text = (
        "from\tto\tlength [m]\tmodel\troom\nJ2\tJ3\t4\t\t\nJ3\tU8\t3\tcassette 5.6\toffice\nJ3\tU9\t5\tcassette 3.6\t\n"
    )
    made = after("runs", text).systems[0]
    assert [run.to for run in made.runs][-3:] == ["J3", "U8", "U9"]
    units = {unit.id: unit for unit in made.units}
    assert units["U8"] == Unit(id="U8", model="cassette 5.6", room="office")
    assert units["U9"] == Unit(id="U9", model="cassette 3.6")


def test_a_list_of_runs_changes_the_units_at_their_ends() -> None:
    found = read("runs", "to,model,room,label\nU1,cassette 3.6,,Door\nJ1,,,\n")
    assert found.changed == ("U1",)
    unit = apply(DESIGN, found.edit).design.systems[0].units[0]
    assert (unit.model, unit.room, unit.label) == ("cassette 3.6", "", "Door")
    kept = after("runs", "to,model,label\nU1,,Door\n").systems[0].units[0]
    assert (kept.model, kept.room) == (SYSTEM.units[0].model, "office")


def test_a_run_that_ends_at_no_unit_has_no_room() -> None:
    assert faults("runs", "to,room,label\nJ1,office,\nJ2,,here\n") == [
        (2, 2, "the run to 'J1' ends at no unit", "a model as well, which makes it one, or nothing there"),
        (3, 3, "the run to 'J2' ends at no unit", "a model as well, which makes it one, or nothing there"),
    ]


def test_runs_that_are_removed_take_their_units_along() -> None:
    kept = [run for run in SYSTEM.runs if run.to != "U3"]
    text = "to\n" + "".join(f"{run.to}\n" for run in kept)
    made = after("runs", text, remove=True).systems[0]
    assert [run.to for run in made.runs] == [run.to for run in kept]
    assert "U3" not in [unit.id for unit in made.units]


def test_every_fault_of_a_list_is_told_at_its_cell() -> None:
    text = "id;level;cooling [kW];colour\noffice;first;3 kg;\noffice;;;\n;ground;;\nnew;;2;\n"
    assert [fault[:3] for fault in faults("rooms", text)] == [
        (1, 4, "no column is called 'colour'"),
        (2, 3, '"3 kg" is a mass, not a power'),
        (3, 1, "the room 'office' stands twice, first in row 2"),
        (4, 1, "the row names no room"),
        (5, 1, "the room 'new' is new, and its level is missing"),
    ]
    assert [fault[2] for fault in faults("levels", "elevation\n3 m\n")] == ["there is no column 'id'"]
    assert [fault[:3] for fault in faults("fittings", "id,kind\nJ1,tee\n")] == [(2, 2, "'tee' is not known here")]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("id\n" + "r\n" * 5999, "the table has 6,000 rows"),
        (",".join(f"c{i}" for i in range(300)) + "\n", "the table has 300 columns"),
        ("i" * 200_000, "the rows cannot be told apart: field larger than field limit (131072)"),
    ],
)
def test_a_table_larger_than_any_list_is_not_read(text: str, message: str) -> None:
    assert [fault[2] for fault in faults("rooms", text)] == [message]


def test_blanks_within_a_name_are_not_told_apart() -> None:
    design = replace(DESIGN, rooms=(Room(id="a  b", level="ground"),), systems=())
    assert after("rooms", "id,use\na b,store\n", design=design).rooms == (Room(id="a  b", level="ground", use="store"),)


def test_what_a_kept_design_does_not_take(tmp_path: Path) -> None:
    kept, number = with_boat_house(tmp_path)
    text = csv_text(kept_table(kept, number, ListKind.RUNS, "main").texts)
    cases = {
        "nothing differs from the runs of the design": Given(ListKind.RUNS, "main", text),
        "the runs are those of one system, and none is named": Given(ListKind.RUNS, "", text),
    }
    for message, given_table in cases.items():
        with pytest.raises(InputFaultsError) as refused:
            change_by_table(kept, number, given_table, Wanted(1, ""))
        assert [fault.message for fault in refused.value.faults] == [message]


def convert(*arguments: str | Path, code: int = 0) -> str:
    done = CliRunner().invoke(cli, ["convert", *map(str, arguments)])
    assert done.exit_code == code, done.output
    return done.output


@pytest.mark.parametrize("kind", LISTED)
@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_the_command_writes_every_list_and_reads_it_back(kind: str, ending: str, tmp_path: Path) -> None:
    design, table = tmp_path / "boat.design.yaml", tmp_path / f"list.{ending}"
    design.write_text(BOAT, encoding="utf-8", newline="\n")
    assert f" {kind}" in convert(design, table, "--list", kind)
    assert f"0 {kind} changed, 0 added, 0 removed" in convert(table, design, "--list", kind, "--remove")
    assert design.read_text(encoding="utf-8") == BOAT


def test_rooms_come_from_a_file_and_keep_the_text_of_the_design(tmp_path: Path) -> None:
    design, table = tmp_path / "boat.design.yaml", tmp_path / "rooms.csv"
    design.write_text(BOAT, encoding="utf-8", newline="\n")
    level = BASE.site.levels[0].id
    table.write_text(f"id,level,cooling [kW]\nloft,{level},2\n", encoding="utf-8")
    assert "0 rooms changed, 1 added, 0 removed" in convert(table, design, "--list", "rooms")
    made = design_from_text(design.read_text(encoding="utf-8"), "a").design
    assert made.rooms[-1] == Room(id="loft", level=level, cooling_w=2000.0)
    kept = [line for line in BOAT.splitlines() if line.strip().startswith("#") or " # " in line]
    assert all(line in design.read_text(encoding="utf-8").splitlines() for line in kept)


def test_a_fault_of_the_design_that_would_be_is_told_at_its_cell(tmp_path: Path) -> None:
    design, table = tmp_path / "boat.design.yaml", tmp_path / "rooms.csv"
    design.write_text(BOAT, encoding="utf-8", newline="\n")
    table.write_text("level,id\nattic,loft\n", encoding="utf-8")
    told = convert(table, design, "--list", "rooms", code=2)
    assert "rooms.csv:2:1" in told
    assert "there is no level 'attic'" in told
    table.write_text("id,model\nU1,casette 5.6\n", encoding="utf-8")
    told = convert(table, design, "--list", "units", code=2)
    assert "rooms.csv:2:2" in told
    assert "there is no indoor model 'casette 5.6' in the book 'minimal'" in told
    assert "belong to no system" in convert(table, design, "--list", "rooms", "--system", "main", code=2)


def test_the_command_knows_every_list() -> None:
    assert set(LISTED) == {kind.value for kind in ListKind}
    assert set(OF_DESIGN) == {kind.value for kind in ListKind if not kind.of_system}
