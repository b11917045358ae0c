"""Whether runs form one tree: no second parent, no loop, no orphan."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from linewright.errors import quoted
from linewright.model.design import ROOT, Run
from linewright.model.soundness.notes import Notes

#: Ends that lead nowhere are few, and names such as J1 are short.
_ALIKE = 0.5
_TREE = "a tree: no way back to where the pipe came from"


class Pipes(NamedTuple):
    """The runs on one side of the outdoor group, and the paths of what they have to lead to, by name."""

    runs: Sequence[Run]
    path: str
    ends: Mapping[str, str]
    end: str
    run: str

    def at(self, i: int, key: str) -> str:
        """Path of a key of a run."""
        return f"{self.path}[{i}].{key}"


class _Links(NamedTuple):
    """Near and far node of each run; the first run into each node; the runs that leave each node."""

    arcs: list[tuple[str, str]]
    into: dict[str, int]
    leaving: dict[str, list[int]]

    def before(self, node: str) -> str:
        """The node that the first run into `node` leaves."""
        return self.arcs[self.into[node]][0]


def check_pipes(pipes: Pipes, notes: Notes) -> None:
    """Note what keeps the runs from being one tree that leads from the outdoor group to every end."""
    links = _links(pipes, notes)
    for i in range(len(pipes.runs)):
        _check_parents(pipes, links, i, notes=notes)
    paths = [pipes.at(i, key) for i in range(len(pipes.runs)) for key in ("from", "to")]
    if notes.sound(*paths, *pipes.ends.values()):
        open_ends = [node for node in links.into if node not in links.leaving and node not in pipes.ends]
        _check_loops(pipes, links, notes)
        _check_orphans(pipes, links, open_ends, notes=notes)
        _check_reached(pipes, links, open_ends, notes=notes)


def _links(pipes: Pipes, notes: Notes) -> _Links:
    """Follow the runs; one that is written backwards is noted and followed as it is meant."""
    arcs: list[tuple[str, str]] = []
    into: dict[str, int] = {}
    leaving: dict[str, list[int]] = {}
    led_to = {run.to for run in pipes.runs}
    for i, run in enumerate(pipes.runs):
        near, far = run.from_, run.to
        if far == ROOT or (near in pipes.ends and near not in led_to):
            what = f"into '{ROOT}'" if far == ROOT else f"away from the {pipes.end} {quoted(near)}"
            right = f"from: {quoted(far)[1:-1]}, to: {quoted(near)[1:-1]}" if far != near else "two different points"
            notes.derive(pipes.at(i, "to" if far == ROOT else "from"), f"a {pipes.run} leads {what}", right)
            near, far = far, near
        elif near in pipes.ends:
            message = f"a {pipes.run} leaves the {pipes.end} {quoted(near)}, where the pipe ends"
            notes.derive(pipes.at(i, "from"), message, f"{pipes.run}s that leave '{ROOT}' or a fitting")
        arcs.append((near, far))
        if near and far and near != far:
            into.setdefault(far, i)
            leaving.setdefault(near, []).append(i)
    return _Links(arcs, into, leaving)


def _check_parents(pipes: Pipes, links: _Links, i: int, *, notes: Notes) -> None:
    near, far = links.arcs[i]
    where = pipes.at(i, "to")
    if not near or not far or far == ROOT:
        return
    if near == far:
        notes.derive(where, f"the {pipes.run} leads from {quoted(far)} to itself", "two different points")
    elif links.into[far] != i and far in _way(links, near):
        message = f"the {pipes.run} closes a loop: {quoted(far)} leads to {quoted(near)} already"
        notes.derive(where, message, _TREE)
    elif links.into[far] != i:
        place = notes.place(pipes.at(links.into[far], "to"))
        message = f"{quoted(far)} has two parents, {quoted(links.before(far))} ({place}) and {quoted(near)}"
        notes.derive(where, message, f"one {pipes.run} into each point")


def _way(links: _Links, node: str) -> set[str]:
    """Nodes from a node back to where the pipe comes from."""
    way = {node}
    while node in links.into and links.before(node) not in way:
        node = links.before(node)
        way.add(node)
    return way


def _check_loops(pipes: Pipes, links: _Links, notes: Notes) -> None:
    """Note loops that nothing leads to, each once, at its first run."""
    done: set[str] = set()
    for start in links.into:
        walked: list[str] = []
        seen: set[str] = set()
        at = start
        while at in links.into and at not in done and at not in seen:
            walked.append(at)
            seen.add(at)
            at = links.before(at)
        done |= seen
        if at in seen:
            _note_loop(pipes, links, walked[walked.index(at) :], notes=notes)


def _note_loop(pipes: Pipes, links: _Links, backward: Sequence[str], *, notes: Notes) -> None:
    outward = list(reversed(backward))
    first = min(range(len(outward)), key=lambda position: links.into[outward[position]])
    loop = [*outward[first:], *outward[:first]]
    names = [quoted(name) for name in (loop if len(loop) <= 6 else [*loop[:4], "…", loop[-1]])]
    message = f"the {pipes.run}s go round in a loop: {', '.join([*names, names[0]])}"
    notes.derive(pipes.at(links.into[loop[0]], "to"), message, _TREE)


def _check_orphans(pipes: Pipes, links: _Links, open_ends: Sequence[str], *, notes: Notes) -> None:
    """Note points that runs leave though none leads to them, each once, at the first such run."""
    roots = [] if ROOT in links.leaving else [ROOT]
    for node, leaving in links.leaving.items():
        if node == ROOT or node in links.into or node in pipes.ends:
            continue
        near = notes.nearest(node, [*open_ends, *roots], alike=_ALIKE) or notes.nearest(node, links.into)
        expected = f"a {pipes.run} with to: {quoted(node)[1:-1]}" + (
            f"; or is {quoted(near)} meant?" if near is not None else ""
        )
        notes.derive(pipes.at(leaving[0], "from"), f"no {pipes.run} leads to {quoted(node)}", expected)


def _check_reached(pipes: Pipes, links: _Links, open_ends: Sequence[str], *, notes: Notes) -> None:
    """Note units (or modules) that no run leads to."""
    for name, path in pipes.ends.items():
        if not name or name == ROOT or name in links.into:
            continue
        near = notes.nearest(name, open_ends, alike=_ALIKE)
        hint = ""
        if near is not None:
            place = notes.place(pipes.at(links.into[near], "to"))
            hint = f"; the one to {quoted(near)} {place} leads to no {pipes.end}"
        message = f"no {pipes.run} leads to the {pipes.end} {quoted(name)}"
        notes.derive(path, message, f"a {pipes.run} with to: {quoted(name)[1:-1]}{hint}")
