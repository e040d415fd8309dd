"""Programs that are not ours and read what we write: a test that needs one says so, and is passed over without it."""

from __future__ import annotations

import shutil

import pytest

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")


def _needs(name: str, *programs: str) -> pytest.MarkDecorator:
    missing = [program for program in programs if shutil.which(program) is None]
    return pytest.mark.skipif(bool(missing), reason=f"{name} is not installed: no {', '.join(missing)}")


needs_poppler = _needs("poppler", "pdftoppm", "pdftocairo", "pdftotext", "pdfinfo", "pdffonts", "pdfimages")
needs_ghostscript = _needs("Ghostscript", "gs")
needs_strace = _needs("strace", "strace")
needs_chromium = pytest.mark.skipif(CHROMIUM is None, reason="Chromium is not installed")
