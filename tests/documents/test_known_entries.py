"""What was written of an entry before is used again for that entry, and for no other that only equals it."""

from dataclasses import replace

from bench.designs import tree_of
from linewright.document.saving import dump_design
from linewright.model.design import Design
from linewright.model.values import Role
from linewright.units import UnitSystem


def _with_sizes(design: Design, *roles: Role) -> Design:
    """The same design whose first run has sizes of the designer's own, in an order."""
    first, *others = design.systems[0].runs
    changed = replace(first, override=dict.fromkeys(roles, 0.0127))
    return replace(design, systems=(replace(design.systems[0], runs=(changed, *others)),))


def test_runs_that_are_equal_are_each_written_as_they_are() -> None:
    """Two mappings are equal in any order, their texts are not."""
    design = tree_of(4)
    one, other = (_with_sizes(design, *order) for order in ((Role.GAS, Role.LIQUID), (Role.LIQUID, Role.GAS)))
    assert one == other
    assert "gas: 12.7 mm, liquid: 12.7 mm" in dump_design(one)
    assert "liquid: 12.7 mm, gas: 12.7 mm" in dump_design(other)


def test_an_entry_is_written_in_the_units_and_the_form_that_are_asked_for() -> None:
    """4 m are 13 ft 1.48 in; what was written before in metres is not given again."""
    design = tree_of(4)
    metres = dump_design(design)
    assert "length: 4 m" in metres
    assert "length: 4 m" not in dump_design(design, units=UnitSystem.IP)
    assert '"length": "4 m"' in dump_design(design, as_json=True)
    assert dump_design(design) == metres
