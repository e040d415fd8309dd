"""Files read back before they leave: by readers that share nothing with the writers, held against the model.

What is wrong here is a defect of this program, never one of the spec.
"""

from panelart.readback.held import Disagreement, read_back

__all__ = ["Disagreement", "read_back"]
