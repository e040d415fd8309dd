"""Made-up cases are the same in every run, and no case is timed: a suite that passes here passes elsewhere.

`HYPOTHESIS_PROFILE=search pytest` looks for new cases instead; what it finds becomes a case of its own.
"""

from __future__ import annotations

import os

from hypothesis import settings

settings.register_profile("same", derandomize=True, deadline=None)
settings.register_profile("search", deadline=None, print_blob=True)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "same"))
