"""What is not drawn on is copied: the packets in the middle are the film's own, bit for bit."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import av
import made
import make_films
import pytest

from filmreview.facts.region import Box
from filmreview.film.colours import ColourSettings
from filmreview.film.film import open_film
from filmreview.lessons.clip import Hold
from filmreview.lessons.writing import write_clip, write_lesson
from filmreview.review.model import Blur, BlurAt
from tests.lessons.clip_making import a_clip, moments, nobody, read_back, span_in

SLICES = (1, 5)  # nal_unit_type of coded slices (ITU-T H.264 table 7-1)


def coded_pictures(path: Path) -> dict[int, list[bytes]]:
    """The coded slices of every picture a film shows, by its place in the order shown; units split here, not by the code under
    test."""
    with av.open(str(path)) as film:
        stream = film.streams.video[0]
        boxed = bytes(stream.codec_context.extradata or b"\0")[0] == 1
        packets = [packet for packet in film.demux(stream) if packet.size and not packet.is_discard]
        found = {packet.pts: [unit for unit in split(bytes(packet), boxed) if unit[0] & 31 in SLICES] for packet in packets}
    return {place: found[pts] for place, pts in enumerate(sorted(found))}


def split(data: bytes, boxed: bool) -> list[bytes]:
    if not boxed:
        return [unit.rstrip(b"\0") for unit in data.split(b"\0\0\1")[1:]]
    units, at = [], 0
    while at < len(data):
        size = int.from_bytes(data[at : at + 4], "big")
        units.append(data[at + 4 : at + 4 + size])
        at += 4 + size
    return units


@pytest.mark.parametrize(
    ("name", "first", "last", "copied"),
    [
        ("constant.mp4", 10, 80, range(30, 60)),
        ("constant.mp4", 30, 60, range(30, 60)),
        ("constant.mp4", 60, 90, range(60, 90)),
        ("variable.mp4", 5, 70, range(20, 60)),
        ("b-frames.mp4", 10, 110, range(48, 96)),
        ("edit-list.mp4", 5, 60, range(13, 43)),
        ("transport.ts", 10, 100, range(50, 100)),
        ("late-start.mkv", 0, 60, range(60)),
    ],
)
def test_whole_groups_are_the_film_s_own_bits(tmp_path: Path, name: str, first: int, last: int, copied: range) -> None:
    """Which groups are whole is known from how the films were made: a key frame every 20, 30, 48 or 50 pictures."""
    written = write_clip(a_clip(name, first, last), tmp_path / "clip.mp4", "question")
    ours, theirs = coded_pictures(written.path), coded_pictures(made.film(name))
    assert written.copied == len(copied)
    assert [place for place in range(first, last) if ours[place - first] == theirs[place]] == list(copied)
    got = read_back(written.path)
    assert got.numbers == made.truth(name)["numbers"][first:last]
    at = [moment.seconds for moment in moments(name)]
    assert max(abs(one - (other - at[first])) for one, other in zip(got.times, at[first:last], strict=True)) < Fraction(
        1, 50_000
    )


def test_groups_on_both_sides_of_a_still_are_copied(tmp_path: Path) -> None:
    name = "variable.mp4"
    clip = a_clip(name, 15, 80, hold=Hold(moments(name)[45], Fraction(1)))
    written = write_clip(clip, tmp_path / "clip.mp4", "question")
    assert written.copied == 40  # 20 to 40 and 60 to 80; the group with the held frame is cut in two
    got = read_back(written.path).numbers
    numbers = made.truth(name)["numbers"]
    stills = len(got) - 65
    assert got == numbers[15:46] + [numbers[45]] * stills + numbers[46:80]


def test_open_groups_are_not_cut_loose(tmp_path: Path) -> None:
    written = write_clip(a_clip("open-groups.mp4", 5, 85), tmp_path / "clip.mp4", "question")
    assert written.copied == 0
    assert read_back(written.path).numbers == made.truth("open-groups.mp4")["numbers"][5:85]


@pytest.mark.parametrize(("name", "why"), [
    ("interlaced.mp4", "interlaced"), ("turned-90.mp4", "turned"), ("wide-pixels.mp4", "not square"),
    ("mpeg2.ts", "mpeg2video, not H.264"), ("colour-601-full.mp4", "profile cannot be matched"),
])  # fmt: skip
def test_what_cannot_be_copied_says_why(tmp_path: Path, name: str, why: str) -> None:
    written = write_clip(a_clip(name, 0, 20), tmp_path / "clip.mp4", "question")
    assert written.copied == 0
    assert why in written.notes[0]


def test_a_clip_with_a_blur_copies_nothing(tmp_path: Path) -> None:
    """Not even groups in which nothing is blurred: nothing of the film's own bits gets in."""
    name = "variable.mp4"
    at = moments(name)
    face = Blur("b1", "f1", (BlurAt(at[62], Box(100, 60, 20, 20)),), at[64])
    written = write_clip(a_clip(name, 15, 80, blurs=(face,)), tmp_path / "clip.mp4", "question")
    assert written.copied == 0
    theirs = list(coded_pictures(made.film(name)).values())
    assert not [units for units in coded_pictures(written.path).values() if units in theirs]


@pytest.mark.parametrize("profile", ["baseline", "main", "high"])
def test_the_profile_is_the_film_s(tmp_path: Path, profile: str) -> None:
    plan = make_films.Plan(
        "film.mp4", range(0, 60 * 3600, 3600), Fraction(1, 90_000), rate=Fraction(25), gop=20,
        b_frames=0 if profile == "baseline" else 3, encoder={"profile": profile},
    )  # fmt: skip
    path = make_films.make(plan, tmp_path)
    with open_film(path) as film:
        clip = replace(a_clip("constant.mp4", 0, 5), film=path, span=span_in(film, 10, 50))
    written = write_clip(replace(clip, faces=nobody(clip.span)), tmp_path / "clip.mp4", "question")
    assert written.copied == 20
    assert read_back(written.path).numbers == list(range(10, 50))


def test_an_untagged_film_is_tagged_as_it_is_read(tmp_path: Path) -> None:
    """Copied and encoded pictures alike say the colours; ITU-T H.273: 1 = BT.709, 6 = BT.601."""
    plan = make_films.Plan("film.mp4", range(0, 60 * 3600, 3600), Fraction(1, 90_000), rate=Fraction(25), gop=20, tagged=False)
    path = make_films.make(plan, tmp_path)
    with open_film(path) as film:
        span = span_in(film, 10, 50)
    for settings, codes in ((None, (6, 6, 6, 1)), (ColourSettings("bt709", "limited"), (1, 1, 1, 1))):
        clip = replace(a_clip("constant.mp4", 0, 5), film=path, span=span, faces=nobody(span), colours=settings)
        written = write_clip(clip, tmp_path / "clip.mp4", "question")
        assert written.copied == 20
        with av.open(str(written.path)) as film_file:
            told = {
                (int(one.color_primaries), int(one.color_trc), int(one.colorspace), int(one.color_range))
                for one in film_file.decode(video=0)
            }
        assert told == {codes}


def test_a_lesson_copies_from_one_film_and_encodes_what_is_coded_otherwise(tmp_path: Path) -> None:
    clips = [a_clip("constant.mp4", 10, 80), a_clip("b-frames.mp4", 10, 110), a_clip("constant.mp4", 0, 90)]
    written = write_lesson(clips, tmp_path / "lesson.mp4", "question")
    assert written.copied == 30 + 90
    assert (
        "b-frames.mp4: every picture is encoded anew, because another film of the lesson is coded in another way"
        in written.notes
    )
    one, two = (made.truth(name)["numbers"] for name in ("constant.mp4", "b-frames.mp4"))
    assert read_back(written.path).numbers == one[10:80] + two[10:110] + one[:90]
