"""What programs hand over: days, names, numbers of other libraries, other types; copies and pools of processes."""

from __future__ import annotations

import copy
import datetime as dt
import errno
import pickle
import sys
from concurrent.futures import ProcessPoolExecutor
from decimal import Decimal
from multiprocessing import get_context
from pathlib import Path

import numpy as np
import pytest

import panelart as pa
from panelart.api.given import day, names
from tests.api.test_door import DEMO, SPEC, TEXT, without_places
from tests.test_extensions import RULE

SET = DEMO / "sets" / "level-monitor.yaml"
WAIVED = {
    **SPEC,
    "parts": [{"ref": "S1", "part": "toggle-12", "at": [40, 25]}],
    "waivers": [{"rule": "control-without-name", "why": "a dummy", "until": "2026-03-01"}],
}


@pytest.fixture(scope="module")
def result() -> pa.Result:
    return pa.build(pa.load(SPEC))


# --- days


@pytest.mark.parametrize(
    ("last", "over"),
    [
        ("2026-03-01", "2026-03-02"),
        (dt.date(2026, 3, 1), dt.date(2026, 3, 2)),
        (dt.datetime(2026, 3, 1, 23, 59, tzinfo=dt.UTC), dt.datetime(2026, 3, 2, tzinfo=dt.UTC)),
    ],
)
def test_a_waiver_holds_on_its_last_day_however_the_day_is_given(last, over) -> None:
    panel = pa.load(WAIVED)
    assert len(pa.build(panel, today=last).findings.waived) == 1
    assert len(pa.build(panel, today=over).findings.waived) == 0


@pytest.mark.parametrize(
    "text", ["29.11.2026", "x", "2026-13-01", "2026-1-1", "20261129", "2026-W48-7", " ", "20260-1"]
)
def test_what_is_no_day_is_refused_before_any_work(text, result, tmp_path) -> None:
    with pytest.raises(ValueError, match=r"today=.* is not a date; accepted: YYYY-MM-DD"):
        pa.build(pa.load(WAIVED), today=text)
    with pytest.raises(ValueError, match=r"date=.* is not a date; accepted: YYYY-MM-DD"):
        result.write(tmp_path / "out", date=text)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("given", [None, 20261129, 1.0, b"2026-11-29", dt.time(12)])
def test_a_day_of_another_type_is_refused(given) -> None:
    with pytest.raises(TypeError, match=r"today is a text YYYY-MM-DD or a datetime\.date, not "):
        pa.build(pa.load(SPEC), today=given)


def test_every_day_of_the_calendar_is_itself() -> None:
    days = [dt.date(1, 1, 1), dt.date(2024, 2, 29), dt.date(9999, 12, 31)]
    assert [day(str(one), "today") for one in days] == [day(one, "today") for one in days] == list(map(str, days))


# --- names


@pytest.mark.parametrize(
    "only", ["cutouts", ["cutouts"], ("cutouts",), {"cutouts": 1}, (name for name in ["cutouts"]), iter(["cutouts"])]
)
def test_names_come_in_any_form_and_a_text_is_one(only, result, tmp_path) -> None:
    written = result.write(tmp_path, only=only)
    assert [path.name for path in written] == ["cutouts.dxf", "cutouts.svg", "cutouts.pdf"]
    assert {path.name for path in tmp_path.iterdir()} == {path.name for path in written}


@pytest.mark.parametrize("given", [None, [1], 5, b"cutouts", ["cutouts", None], [["cutouts"]]])
def test_what_are_no_names_is_refused(given, result, tmp_path) -> None:
    with pytest.raises(TypeError, match=r"only is a list of names, as \['cutouts\.dxf'\]"):
        result.write(tmp_path / "out", only=given)
    for call in (pa.load, pa.build):
        with pytest.raises(TypeError, match=r"without is a list of names, as \['house-rules'\]"):
            call(SPEC if call is pa.load else result.panel, without=given)
    assert list(tmp_path.iterdir()) == []


def test_a_text_is_no_list_of_letters() -> None:
    assert names("house-rules", "without", "") == ("house-rules",)
    for call, given in ((pa.load, SPEC), (pa.build, pa.load(SPEC))):
        with pytest.raises(pa.SpecError) as refused:
            call(given, without="no-such-house")
        (problem,) = refused.value.problems
        assert str(problem).startswith("without: error: Unknown extension 'no-such-house'")


# --- types


def test_what_is_no_panel_is_told_what_makes_one() -> None:
    for given in (SPEC, "x.yaml", None, Path("x.yaml"), pa.Panel):
        kind = type(given).__name__
        with pytest.raises(TypeError, match=rf"^a panel is what load gives, not {kind}: build\(load\(spec\)\)$"):
            pa.build(given)  # type: ignore[arg-type]
        with pytest.raises(TypeError, match=rf"^a panel is what load gives, not {kind}"):
            pa.compare(pa.load(SPEC), given)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: pa.part(None), "name is a text, not NoneType"),
        (lambda: pa.parts(5), "words is a text, not int"),
        (lambda: pa.parts("", catalogue=5), "catalogue is a path, not int"),
        (lambda: pa.load(SPEC, language=5), "language is a text, not int"),
        (lambda: pa.load(SPEC, panel=None), "panel is a text, not NoneType"),
        (lambda: pa.load(SPEC, folder=None), "folder is a path, not NoneType"),
        (lambda: pa.load(SPEC, shop={}), "shop is a path, not dict"),
        (lambda: pa.build(pa.load(SPEC), baseline=[]), "baseline is a path, not list"),
        (lambda: pa.build(pa.load(SPEC), placement={}), "placement is a path, not dict"),
    ],
)
def test_an_argument_of_another_type_is_refused_by_its_name(call, says) -> None:
    with pytest.raises(TypeError, match=f"^{says}$"):
        call()


# --- specs


@pytest.mark.parametrize("blank", ["", " ", "\n", "\t\n "])
def test_a_blank_text_is_an_empty_spec(blank) -> None:
    for call in (pa.load, pa.panels):
        with pytest.raises(pa.SpecError, match=r"^<text>:1:1: error: The spec is empty\n  hint: Accepted: a path, "):
            call(blank)


def test_two_names_of_a_panel_must_be_one() -> None:
    with pytest.raises(ValueError, match="the path names the panel 'front', and panel='rear' another"):
        pa.load(f"{SET}#front", panel="rear")
    assert pa.load(f"{SET}#rear", panel="rear") == pa.load(SET, panel="rear")


@pytest.mark.parametrize(
    ("given", "plain"),
    [
        (np.float32(0.1), 0.1),
        (np.float16(2.5), 2.5),
        (np.float64(1.5), 1.5),
        (np.longdouble("0.1"), 0.1),
        (np.int64(2), 2),
        (np.uint8(3), 3),
    ],
)
def test_a_scalar_of_numpy_is_the_number(given, plain) -> None:
    def spec(thickness: object) -> dict[str, object]:
        sheet = {"material": "steel", "thickness": thickness}
        return {**SPEC, "panel": {"title": "Lamp box", "size": [80, 50], "sheet": sheet}}

    panel = pa.load(spec(given))
    assert panel.sheet.thickness == plain
    assert panel == pa.load(spec(plain))
    with pytest.raises(pa.SpecError, match="Values of type Decimal are not supported"):
        pa.load(spec(Decimal(1)))
    with pytest.raises(pa.SpecError, match=r"panel\.sheet\.thickness: error: nan"):
        pa.load(spec(np.float32("nan")))


def test_flags_and_keys_of_numpy_are_flags_and_keys() -> None:
    def spec(flag: object, key: object) -> dict[str, object]:
        marking = {**SPEC["marking"], "lettering": {"ligatures": flag}}  # type: ignore[dict-item]
        return {**SPEC, "marking": marking, "languages": {"de": {key: "Eins", "2": "Zwei", "3": "Drei"}}}

    of_numpy, plain = (pa.load(spec(*of), language="de") for of in ((np.bool_(True), np.int64(1)), (True, 1)))
    assert without_places(of_numpy) == without_places(plain)
    assert without_places(plain) != without_places(pa.load(spec(False, 1), language="de"))


# --- placements and paths


def test_a_placement_that_is_none_is_told_in_words_of_the_program(tmp_path) -> None:
    spec, saved = tmp_path / "front.yaml", tmp_path / "front.placement.json"
    spec.write_text(TEXT, encoding="utf-8")
    saved.write_bytes(b"{}")
    for placement, place, what in (
        (b"junk", "placement", "Accepted: the bytes of `Result.placement`"),
        (saved, f"{saved.as_posix()}:1:1", "Accepted: the bytes of `Result.placement`"),
        (None, f"{saved.as_posix()}:1:1", "or pass `ignore_placement=True`"),
    ):
        with pytest.raises(pa.SpecError) as refused:
            pa.build(pa.load(spec), placement=placement)
        told = str(refused.value)
        assert told.startswith(f"{place}: error: The file is not a saved placement")
        assert what in told
        assert "--" not in told
    assert pa.build(pa.load(spec), ignore_placement=True).layout.legends


def test_a_path_that_no_system_has_is_an_error_of_the_system(result, tmp_path) -> None:
    for call in (
        lambda: result.write(f"{tmp_path}/a\0b"),
        lambda: result.write(tmp_path / "a\0b" / "c"),
        lambda: pa.parts("x", catalogue="a\0b"),
        lambda: pa.build(result.panel, placement=Path("a\0b")),
    ):
        with pytest.raises(OSError, match="the path has a null character") as refused:
            call()
        assert refused.value.errno == errno.EINVAL
    assert list(tmp_path.iterdir()) == []
    with pytest.raises(pa.SpecError, match="Cannot read the spec: the path has a null character"):
        pa.load(Path("a\0b"))


# --- copies, equality, pools


def nouns(result: pa.Result) -> tuple[object, ...]:
    return result.panel, result.layout, result.findings, result.inspection, result, result.panel.parts[0].component


@pytest.mark.few(3)
@pytest.mark.parametrize("name", ["rear-io.yaml", "climate-chamber.yaml", "mixing-desk.yaml", "relay-tray.yaml"])
def test_nouns_are_copied_pickled_and_hashed(name) -> None:
    result = pa.build(pa.load(DEMO / name), today="2026-01-01")
    assert result.files["panel.svg"]  # what was made and holds a lock is no hindrance
    for noun in nouns(result):
        for other in (pickle.loads(pickle.dumps(noun)), copy.deepcopy(noun), copy.copy(noun)):
            assert type(other) is type(noun)
            assert other == noun
            assert repr(other) == repr(noun)
    for noun in (result.panel, result.layout, result.findings, result):
        assert len({noun, pickle.loads(pickle.dumps(noun)), copy.deepcopy(noun)}) == 1
    again = pickle.loads(pickle.dumps(result))
    assert again.files["findings.json"] == result.files["findings.json"]
    finding = again.findings[0]
    assert again.inspection.rule(finding) is result.inspection.rule(finding)
    compared = pa.compare(result, again)
    assert pickle.loads(pickle.dumps(compared)).text() == compared.text()


def test_results_are_equal_where_what_they_are_of_is() -> None:
    panel = pa.load(WAIVED)
    first = pa.build(panel)
    assert first == pa.build(pa.load(WAIVED))
    assert hash(first) == hash(pa.build(pa.load(WAIVED)))
    assert first != pa.build(panel, today="2027-01-01")
    assert first != pa.build(pa.load(SPEC))
    assert first != "a result"


def findings_of(spec: dict[str, object]) -> pa.Result:
    return pa.build(pa.load(spec))


def unknown_part(name: str) -> object:
    return pa.part(name)


def unknown_file(result: pa.Result) -> object:
    return result.write("nowhere", only="cutout")


def test_a_pool_of_processes_hands_over_results_and_errors(result) -> None:
    """The processes are started anew, so that nothing is there but what was handed over."""
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as pool:
        assert pool.submit(findings_of, SPEC).result() == result
        assert pool.submit(pa.Result._repr_svg_, result).result() == result._repr_svg_()
        for call, given in ((findings_of, {**SPEC, "x": 1}), (unknown_part, "toggel-12"), (unknown_file, result)):
            with pytest.raises((pa.SpecError, pa.UnknownPartError, pa.NoSuchDocumentError)) as here:
                call(given)
            with pytest.raises(here.type) as there:
                pool.submit(call, given).result()
            assert str(there.value) == str(here.value)
            assert vars(there.value).keys() >= vars(here.value).keys()


def test_rules_of_a_package_are_found_again_where_they_are_installed(install, monkeypatch) -> None:
    before = list(sys.path)
    install("house-rules", "[panelart.rules]\nlamps = house_pickled\n", house_pickled=RULE)
    built = pa.build(pa.load(SPEC))
    stored = pickle.dumps(built)
    assert "house-rules/two-lamps" in built.inspection.rules.every
    assert pickle.loads(stored) == built
    assert copy.deepcopy(built) == built
    assert pa.build(pa.load(SPEC), without="house-rules") != built
    monkeypatch.setattr(sys, "path", before)
    with pytest.raises(LookupError, match="the rules of house-rules are not installed here"):
        pickle.loads(stored)
