"""Whether the ports that runs name can be ports of a mode box."""

from __future__ import annotations

from linewright.errors import quoted
from linewright.model.design import System
from linewright.model.soundness.notes import Notes
from linewright.model.values import NodeKind


def check_ports(system: System, path: str, notes: Notes) -> None:
    """Note ports that are none, that stand twice, or that are those of no mode box."""
    boxes = {fitting.id for fitting in system.fittings if fitting.kind is NodeKind.BOX}
    kinds = [f"{path}.fittings[{i}].kind" for i, fitting in enumerate(system.fittings) if fitting.kind is not None]
    known = notes.sound(*kinds)
    for i, run in enumerate(system.runs):
        where = f"{path}.runs[{i}].ports"
        _check_numbers(run.ports, where, notes)
        if run.ports and known and run.from_ not in boxes:
            message = f"only a run that leaves a mode box has ports, and {quoted(run.from_)} is none"
            notes.derive(where, message, f"kind: box under fittings for {quoted(run.from_)}, or no ports")
    for i, run in enumerate(system.outdoor.pipes):
        if run.ports:
            where = f"{path}.outdoor.pipes[{i}].ports"
            notes.derive(where, "a module pipe leaves no mode box", "no ports")


def _check_numbers(ports: tuple[int, ...], path: str, notes: Notes) -> None:
    for j, port in enumerate(ports):
        if port < 1:
            notes.derive(f"{path}[{j}]", f"no port has the number {port}", "1 or more: ports are counted from 1")
        elif port in ports[:j]:
            notes.derive(f"{path}[{j}]", f"port {port} stands twice", "each port once")
