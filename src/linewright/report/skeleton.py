"""A book to be filled in: every section with where a document usually prints it, blank where something is due."""

from __future__ import annotations

from typing import NamedTuple

from linewright.book.schema import Kind
from linewright.units import UnitSystem


class _Words(NamedTuple):
    """How quantities are written in a unit system, as examples."""

    tube: str
    length: str
    power: str
    mass: str
    rate: str
    temperature: str
    volts: str
    hertz: str
    volt1: str
    drain: str
    lift: str


_WORDS = {
    UnitSystem.SI: _Words(
        "15.88 mm",
        "40 m",
        "14 kW",
        "3.6 kg",
        "9.52 mm: 0.048 kg/m",
        "35 C",
        "400 V",
        "50 Hz",
        "230 V",
        "32 mm OD",
        "640 mm",
    ),
    UnitSystem.IP: _Words(
        "5/8 in",
        "130 ft",
        "48 MBH",
        "8.0 lb",
        "3/8 in: 0.032 lb/ft",
        "95 F",
        "460 V",
        "60 Hz",
        "[208 V, 230 V]",
        "3/4 in NPT",
        "30 in",
    ),
}
_ROLES = {Kind.HEAT_PUMP: ("gas", "liquid"), Kind.HEAT_RECOVERY: ("suction", "high_low", "liquid")}


def skeleton(book: str, kind: Kind, units: UnitSystem, *, refrigerant: str = "") -> str:
    """Write the text of a new book; what is blank in it is told by the check of a book until it is typed."""
    words, roles = _WORDS[units], _ROLES[kind]
    recovery = kind is Kind.HEAT_RECOVERY
    parts = [_HEAD, _OUTDOOR, _INDOOR, _BOXES if recovery else "", _TUBES, _SIZING, _FITTINGS]
    parts += [_LIMITS, _BOX_LIMITS if recovery else "", _CAPACITY, _CHARGE, _MORE]
    text = "\n".join(part for part in parts if part)
    filled = {
        "@id": book,
        "@kind": kind.value,
        "@refrigerant": refrigerant,
        "@columns": ", ".join(f"{role}: " for role in roles),
        "@ladders": "\n".join(f"  {role}:" for role in dict.fromkeys(("gas", *roles))),
        "@rates": "\n".join(f"  # {role}: {{{words.rate}}}" for role in roles if role != "liquid"),
        "@below": _BELOW if recovery else "",
        "@joints_below": _JOINTS_BELOW if recovery else "",
        "@tube": words.tube,
        "@length": words.length,
        "@power": words.power,
        "@mass": words.mass,
        "@rate": words.rate,
        "@temperature": words.temperature,
        "@volts": words.volts,
        "@hertz": words.hertz,
        "@volt1": words.volt1,
        "@drain": words.drain,
        "@lift": words.lift,
    }
    for mark in sorted(filled, key=len, reverse=True):
        text = text.replace(mark, filled[mark])
    return "\n".join(line.rstrip() for line in text.splitlines()) + "\n"


_HEAD = """\
# A book to be filled in from the maker's printed document: docs/books.md tells how, page by page. What is blank has to
# be typed; `linewright book check` lists it. What stands behind a # may be left out: take the # away where the
# document says it, and delete what it does not say. Type what is printed, in the units that are printed (@tube,
# @length, @power, @mass, @temperature): nothing is converted by hand. Never type from memory.
linewright: book/1
id: @id
title:
status: transcribed              # checked, when a second person has compared it with the document
document: {title: , edition: , date: , typed_by: }     # checked_by: that second person
refrigerant: @refrigerant
kind: @kind
index: {unit: }                  # what the capacity index is counted in: kW, MBH, points
origin:                          # from where lengths are measured: outdoor, first-outdoor-joint, first-branch
# note: printed with every result
"""
_OUTDOOR = """\
# Usually among the first pages: outdoor units, and which of them may be combined. A single unit is a group as well.
outdoor:
  page:
  modules:
    - {model: , index: , cooling: , heating: , factory_charge: , @columns}
  groups:
    - {modules: , index: }       # id:, indoor_count: {min: 2, max: 16}, connection_ratio: {max: 130 %}
  # electrical:                  # usually a page of its own; kept and passed on, judged by nothing
  #   page: 1
  #   rows:                      # several supplies of one model: a row each
  #     - {model: MODEL, phases: 3, voltage: @volts, frequency: @hertz, min_circuit_current: 16 A}
"""
_INDOOR = """\
# The table of indoor units, one row each. kind is a word of your choice, by which rules tell them apart.
indoor:
  page:
  models:
    - {model: , kind: , index: , cooling: , sensible: , heating: , gas: , liquid: }
  # electrical:                  # as above; from: outdoor where units are supplied from the outdoor unit
  #   page: 1
  #   rows:
  #     - {model: [MODEL, MODEL], from: own, phases: 1, voltage: @volt1, frequency: @hertz, input: 40 W}
  # condensate:
  #   page: 1
  #   rows:
  #     - {model: MODEL, drain: pump, connection: "@drain", lift: @lift}
"""
_BOXES = """\
# The table of mode boxes, which switch the units on a port between heating and cooling.
boxes:
  page:
  models:
    - {model: , ports: , index: }    # port_index: 9, units_per_port: 4, joined: {ports: 2, index: 16}
  # series: {max: 2}                   # boxes one behind another
  # direct: {kind: [wall]}             # units that may do without a box, and then only cool
  # electrical:                        # as above
"""
_TUBES = """\
# The sizes that may be used at all, ascending: a size action climbs them.
tubes:
  page:
@ladders
  # wall: {@tube: 1.0 mm}              # least wall by outside diameter
  # temper: {@tube: annealed}
"""
_SIZING = """\
# Usually behind the limits: sizes of the main by the outdoor unit, of branches by the indoor units downstream. Each row
# has one upper edge: upto includes it ("14 or less"), below leaves it out ("less than 14").
sizing:
  main:
    page:
    by: outdoor-index            # or group, indoor-index, smaller
    rows:
      - {upto: , @columns}
  branch:
    page:
    rows:
      - {upto: , @columns}
@below  unit: ports                    # a unit's own run has the unit's port sizes, or a table as above
  cap: main                      # no run larger than the main; or none
  # actions:                     # "one size up if ...": with when: mandatory, without it needed by a wider bound
  #   - {id: long-main, page: 1, when: {measure: farthest_equivalent, over: @length}, runs: main, lines: [liquid]}
"""
_BELOW = """\
  below_box:                     # pipe that branches behind a port
    page:
    rows:
      - {upto: , gas: , liquid: }
"""
_FITTINGS = """\
# Joints and headers, and the table of equivalent lengths.
fittings:
  page:
  first: {rows: [{upto: , model: }]}     # the first joint, by the outdoor index
  joint: {rows: [{upto: , model: }]}     # all others, by the index through them
@joints_below  # header: {rows: [{upto: 28, ports: 4, model: header 4}]}
  # outdoor_joint: {rows: [{upto: 56, model: outdoor joint A}]}
  allowance_page:
  allowance: {bend: , joint: }           # one length, or by diameter; header:, valve:, trap: likewise
"""
_JOINTS_BELOW = """\
  # below_box: {rows: [{upto: 16, model: small joint}]}
"""
_LIMITS = """\
# Lengths, levels and what may be combined. docs/reference/measures.md lists all measures. Delete a line on which the
# document says nothing: an invented bound is worse than none.
limits:
  - {measure: farthest_actual, max: , page: }
  - {measure: farthest_equivalent, max: , page: }
  - {measure: total_length, max: , page: }
  - {measure: after_first_branch, max: , page: }
  - {measure: last_joint_to_unit, max: , page: }
  - {measure: level_outdoor_above, max: , page: }
  - {measure: level_outdoor_below, max: , page: }
  - {measure: level_between_indoor, max: , page: }
  - {measure: indoor_count, min: group, max: group, page: }
  - {measure: connection_ratio, min: group, max: group, page: }
"""
_BOX_LIMITS = """\
  - {measure: joint_to_box, max: , page: }
  - {measure: box_to_unit, max: , page: }
  - {measure: box_index, max: box, page: }
  - {measure: port_index, max: box, page: }
  - {measure: units_per_port, max: box, page: }
"""
_CAPACITY = """\
# Capacity tables as factors. Type the whole printed range: nothing is guessed beyond it.
capacity:
  cooling:
    temperature:
      page:
      outdoor_db:
      indoor_wb:
      factor:                    # a row for each outdoor temperature, in it a factor for each indoor one
    # length: {page: 1, below_first: hold, equivalent: [@length], factor: [[1.0]]}
    # ratio: {page: 1, ratio: [100 %], factor: [1.0]}
  # heating:                     # likewise; without it no heating is judged
"""
_CHARGE = """\
# The formula of the additional charge, term by term.
charge:
  page:
  liquid:                        # {@rate, ...}
@rates
  # group: {GROUP: @mass}        # and module:, indoor:, constant:, terms: for what else is added
  # max: @mass
"""
_MORE = """\
# What else a document may say: options (kits and settings), requirements (no number proves them), operation (where the
# family works), pressures (nameplate, test, vacuum), notes. docs/books.md tells each.
"""
