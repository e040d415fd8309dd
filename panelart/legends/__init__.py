"""Where legends go: candidates, the solver that chooses among them, scales, positions, frames and leaders."""

from __future__ import annotations
