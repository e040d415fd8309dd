"""How much work the solver may do. It is counted, never timed, so that the answer is the same on every machine."""

from __future__ import annotations

from panelart.canonical import Struct


class Budget(Struct, frozen=True, kw_only=True):
    """Limits, each for one component.

    easy: entries of the largest message up to which the first order of elimination is good enough.
    table: the same, up to which elimination is run; wider components go the long way round.
    restarts: orders of elimination tried beyond the first.
    ties: table entries that may be computed to find the first of equally good answers.
    window, window_table, rounds: variables a window has, entries of its largest message, turns through all windows.
    sweeps: double sweeps to raise the lower bound.
    nodes: branches of the mixed integer program; 0 does without it.
    dead_ends: whether what is clear is settled and dead ends are removed first; off only to check that this changes
        nothing.
    """

    easy: int = 1 << 18
    table: int = 1 << 22
    restarts: int = 20
    ties: int = 1 << 22
    window: int = 40
    window_table: int = 1 << 14
    rounds: int = 50
    sweeps: int = 300
    nodes: int = 2000
    dead_ends: bool = True
