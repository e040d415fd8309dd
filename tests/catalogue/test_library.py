"""Finding parts by name: lazily, quickly, the same in every process."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from panelart import catalogue
from panelart.catalogue import names
from panelart.catalogue.cautions import CAUTIONS
from panelart.catalogue.renamed import RENAMED, near_part

ROOT = Path(__file__).parents[2]

ISSUED_NAMES = [
    "toggle-mini",
    "toggle-12",
    "pushbutton-16",
    "pushbutton-22",
    "pilot-22",
    "emergency-stop-22",
    "key-switch-22",
    "pot-m7",
    "pot-m9",
    "pot-m10",
    "pot-m10-located",
    "pot-1-4-32",
    "pot-3-8-32",
    "encoder-m7",
    "rotary-3-8-32",
    "led-3",
    "led-5",
    "led-5-clip",
    "dsub-9",
    "dsub-9-front",
    "dsub-15",
    "dsub-25",
    "dsub-hd-15",
    "bnc",
    "n-jack",
    "sma",
    "tnc",
    "socket-4",
    "binding-post-pair",
    "xlr",
    "speaker",
    "jack-635",
    "jack-35",
    "phono",
    "din-41524",
    "iec-c14",
    "iec-c8",
    "iec-f-outlet",
    "meter-96x96",
    "meter-48x48",
    "screw-m3",
    "screw-m3-fine",
    "screw-m4",
    "screw-no4",
    "screw-m3-countersunk",
    "fuse-5x20",
    "fuse-6x32",
    "rack-slots-1u",
    "rack-slots-2u",
    "rack-slots-3u",
    "subrack-3u-8hp",
    "gland-m12",
    "fan-80",
    "fan-80-holes",
    "vent-slots-10",
    "press-nut-m3",
    "handle-88",
    "opening-circle",
    "m12",
    "m8",
    "rj45",
    "usb-a",
    "hdmi",
    "lcd-16x2",
]


def test_names_that_specs_rely_on_are_there() -> None:
    assert set(ISSUED_NAMES) <= set(catalogue.names())


def test_names_are_sorted_and_make_their_parts() -> None:
    assert list(catalogue.names()) == sorted(catalogue.names())
    assert all(catalogue.component(name).name == name for name in catalogue.names())
    assert all(catalogue.knob(name).name == name for name in catalogue.knob_names())


def test_there_are_families_and_entries_enough() -> None:
    assert len(catalogue.names()) >= 130
    assert len({catalogue.component(name).family for name in catalogue.names()}) >= 70


def test_unknown_names_raise_key_error() -> None:
    with pytest.raises(KeyError):
        catalogue.component("bnk")
    with pytest.raises(KeyError):
        catalogue.knob("bnc")
    with pytest.raises(KeyError):
        catalogue.caution("rain")


def test_a_part_is_made_once() -> None:
    assert catalogue.component("bnc") is catalogue.component("bnc")


def _python(code: str, **variables: str) -> str:
    environment = {**os.environ, "PYTHONPATH": str(ROOT), **variables}
    run = subprocess.run([sys.executable, "-c", code], env=environment, capture_output=True, text=True, check=True)
    return run.stdout


def test_importing_reads_nothing_and_a_part_no_data_file() -> None:
    code = (
        "from panelart import catalogue\n"
        "from panelart.catalogue import library, cautions\n"
        "from panelart.source import built\n"
        "counts = lambda: (built._index.cache_info().currsize, library._listed.cache_info().currsize,"
        " cautions._texts.cache_info().currsize)\n"
        "print(counts()); catalogue.component('bnc'); catalogue.component('sma'); print(counts())"
    )
    assert _python(code).split("\n")[:2] == ["(0, 0, 0)", "(1, 0, 0)"]


def test_parts_are_the_same_in_every_process() -> None:
    code = (
        "import hashlib\n"
        "from panelart import catalogue\n"
        "from panelart.reprs import in_full\n"
        "text = in_full([catalogue.component(name) for name in catalogue.names()])\n"
        "print(hashlib.sha256(text.encode()).hexdigest())"
    )
    first = _python(code, PYTHONHASHSEED="1", LC_ALL="C", TZ="UTC")
    second = _python(code, PYTHONHASHSEED="77", LC_ALL="C.UTF-8", TZ="Asia/Tokyo")
    assert first == second


def test_the_whole_catalogue_is_at_hand_once_read() -> None:
    for name in catalogue.names():
        catalogue.component(name)
    start = time.perf_counter()
    for name in catalogue.names():
        catalogue.component(name)
    assert time.perf_counter() - start < 0.060


def test_cautions_hand_over_to_codes_and_practice() -> None:
    for key, text in CAUTIONS.items():
        assert text.endswith((".",)), key
        last = text.rsplit(".", 2)[-2]
        assert "decide" in last, key
        assert "practice" in last or "data" in last, key


@pytest.mark.parametrize(
    ("start", "cautions"),
    [
        ("iec-c14", {"mains-inlet", "protective-earth"}),
        ("iec-c14-fuse", {"mains-inlet", "protective-earth", "fuse"}),
        ("iec-c8", {"mains-inlet"}),
        ("iec-f", {"mains-outlet", "protective-earth"}),
        ("fuse", {"fuse"}),
        ("breaker", {"breaker"}),
        ("emergency-stop", {"emergency-stop", "ip-rating"}),
        ("gland", {"ip-rating"}),
        ("fan", {"fan-guard"}),
        ("vent", {"enclosure-opening"}),
        ("press", {"pressed-in"}),
        ("earth", {"protective-earth"}),
        ("socket-4", set()),
        ("handle", {"lifting"}),
    ],
)
def test_parts_bring_their_cautions(start: str, cautions: set[str]) -> None:
    parts = [catalogue.component(name) for name in catalogue.names() if name.startswith(start)]
    assert parts
    for part in parts:
        assert cautions <= set(part.cautions)


def test_every_caution_goes_with_a_part() -> None:
    used = {key for name in catalogue.names() for key in catalogue.component(name).cautions}
    assert used == set(CAUTIONS)


def test_knobs_have_a_size_a_bore_and_a_source() -> None:
    for name in catalogue.knob_names():
        knob = catalogue.knob(name)
        assert knob.diameter > 5
        assert knob.height > 5
        assert knob.bore in (6.0, 6.35)
        assert {figure.name for figure in knob.figures} == {"diameter", "height", "bore"}
        assert all(" " in figure.source for figure in knob.figures)


@pytest.mark.parametrize(
    ("query", "some"),
    [
        ("mains", {"iec-c14", "iec-c8", "iec-f-outlet", "fuse-5x20", "rocker-30x22"}),
        ("audio", {"xlr", "jack-635", "din-41524", "phono"}),
        ("22", {"pushbutton-22", "emergency-stop-22", "key-switch-22"}),
        ("push 16", {"pushbutton-16"}),
        ("bnc round", {"bnc-round"}),
        ("Ethernet", {"rj45", "rj45-flange"}),
    ],
)
def test_parts_are_found_by_words(query: str, some: set[str]) -> None:
    assert some <= set(catalogue.matching(query))


def test_the_name_that_was_written_comes_first() -> None:
    for name in ("bnc", "xlr", "dsub-9", "screw-m3", "socket-4", "led-5"):
        assert catalogue.matching(name)[0] == name


def test_what_nothing_fits_finds_nothing() -> None:
    assert catalogue.matching("flux capacitor") == ()
    assert set(catalogue.matching("")) == set(catalogue.names())


def test_what_is_cut_by_recalled_figures_is_to_be_measured() -> None:
    assert {figure.name for figure in catalogue.to_measure(catalogue.component("tnc"))} == {
        "diameter",
        "flat_to_opposite",
    }
    assert catalogue.to_measure(catalogue.component("screw-m3")) == ()
    assert catalogue.to_measure(catalogue.component("xlr")) == ()
    assert [figure.name for figure in catalogue.to_measure(catalogue.component("dsub-9-front"))] == []


@pytest.mark.parametrize(("old", "now"), RENAMED.items())
def test_an_old_name_is_answered_with_the_name_of_now(old: str, now: str) -> None:
    assert old not in names()
    assert now in names()
    assert f"'{now}'" in str(near_part(old, names(), "parts"))
