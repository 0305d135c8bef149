"""The timeline, read back by OpenTimelineIO itself: the published schemas, exact times, texts that do nothing."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import opentimelineio as otio
import pytest
from hypothesis import given, settings

from filmreview.film.moment import Moment
from filmreview.sheets.inert import one_line
from filmreview.sheets.otio_file import write_otio
from tests.sheets.small_sheet import FILM, LINE, OTHERS, sheet
from tests.sheets.test_other_kinds import ANY_TEXT
from tests.sheets.test_workbook import SAFE, hostile


def read(path: Path) -> otio.schema.Timeline:
    found = otio.adapters.read_from_file(str(path))
    assert isinstance(found, otio.schema.Timeline)
    return found


def test_every_finding_is_a_marker_at_its_exact_tick(tmp_path: Path) -> None:
    path = tmp_path / "sheet.otio"
    film = replace(FILM, path=str(tmp_path / "a film & more.mp4"))
    lines = [replace(line, film=film) for line in (LINE, *OTHERS)]
    write_otio(sheet(lines, films=(film,)), path)
    made = read(path)
    ((clip,),) = ([*track] for track in made.tracks)
    assert (made.name, clip.name, clip.media_reference.target_url) == (
        "Thrunnockby against Ovvermire", "a film & more.mp4", "a%20film%20%26%20more.mp4",
    )  # fmt: skip
    assert [marker.metadata["filmreview"]["tag"] for marker in clip.markers] == ["t1", "t2", "t4", "t3"]
    for line, marker in zip(lines, clip.markers, strict=True):
        at = marker.marked_range.start_time
        assert Fraction(at.value) / Fraction(at.rate) == line.seconds
        assert at.value == int(at.value), "a whole tick"
    assert clip.markers[0].name == "No 1 illegal: Ovvermire 14, arm sleeve"
    assert clip.markers[0].comment.endswith("crew: not seen")
    assert all(getattr(otio.schema.MarkerColor, marker.color) == marker.color for marker in clip.markers)
    assert clip.available_range().duration.to_seconds() == pytest.approx(1290)


def test_what_the_library_writes_again_is_the_same(tmp_path: Path) -> None:
    path = tmp_path / "sheet.otio"
    write_otio(sheet(), path)
    made = read(path)
    again = otio.adapters.read_from_string(otio.adapters.write_to_string(made, "otio_json"), "otio_json")
    assert made.is_equivalent_to(again)
    assert made.find_clips()[0].markers[0].schema_version() == otio.schema.Marker().schema_version()
    known = {"Track", "Clip"}
    assert {thing.schema_name() for thing in made.find_children()} == known, "and none is unknown to it"


def test_films_lie_one_after_the_other(tmp_path: Path) -> None:
    second = replace(FILM, id="f2", path="/films/half-2.mp4", start=Moment(0, Fraction(1001, 30000)), length=Fraction(1001, 10))
    line = replace(LINE, number=2, tag="t2", film=second, seconds=Fraction(1001 * 7, 30000))
    path = tmp_path / "sheet.otio"
    write_otio(sheet((LINE, line), films=(FILM, second)), path)
    first, other = read(path).find_clips()
    assert [len(clip.markers) for clip in (first, other)] == [1, 1]
    at = other.markers[0].marked_range.start_time
    assert (at.value, at.rate) == (7.0, pytest.approx(30000 / 1001))


def test_hostile_text_is_inert_in_it(tmp_path: Path) -> None:
    path = tmp_path / "sheet.otio"
    write_otio(hostile(), path)
    made = read(path)
    assert one_line(SAFE) in made.find_clips()[0].markers[0].comment
    assert made.name == f"{one_line(SAFE)} against {one_line(SAFE)}"


@settings(max_examples=60, deadline=None)
@given(ANY_TEXT)
def test_any_text_comes_back(tmp_path_factory: pytest.TempPathFactory, text: str) -> None:
    path = tmp_path_factory.mktemp("timeline") / "sheet.otio"
    write_otio(sheet((replace(LINE, team=text, player="4"),), films=(replace(FILM, path="/films/x.mp4"),)), path)
    (clip,) = read(path).find_clips()
    assert clip.markers[0].metadata["filmreview"]["whose"] == one_line(f"{text} 4")
