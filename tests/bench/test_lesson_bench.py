"""Figures of cutting clips, by hand: `pytest tests/bench/test_lesson_bench.py -s`.

Each is taken beside the library used barely, decode and encode with the same settings, in the same run; ours and the bare way
take turns, so that other work on the machine falls on both. The film is made for it: 720 lines with grain, sound, 10 s.
"""

import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import av
import pytest
from av.video.frame import PictureType

FILMS = Path(__file__).resolve().parents[2] / "fixtures" / "films"
sys.path.insert(0, str(FILMS))

import make_films  # noqa: E402 - found in the folder of the made films

from filmreview.facts.region import Box  # noqa: E402
from filmreview.film.decoder import set_threads  # noqa: E402
from filmreview.film.film import open_film  # noqa: E402
from filmreview.film.moment import Moment  # noqa: E402
from filmreview.lessons.clip import Clip, Hold, Mark  # noqa: E402
from filmreview.lessons.encoding import KEY_EVERY, PRESET, QUALITY  # noqa: E402
from filmreview.lessons.faces import BLURRED  # noqa: E402
from filmreview.lessons.follow import follow  # noqa: E402
from filmreview.lessons.preview import preview  # noqa: E402
from filmreview.lessons.writing import write_clip  # noqa: E402
from filmreview.review.model import Blur, BlurAt, FaceChoice  # noqa: E402
from tests.bench.test_film_bench import noisy_scene  # noqa: E402
from tests.lessons.clip_making import nobody, span_in  # noqa: E402
from tests.lessons.faces_film import FACES, FRAMES, box_of, film_faces  # noqa: E402

TURNS = 3
PICTURES = 250


@pytest.fixture(scope="module")
def big(tmp_path_factory: pytest.TempPathFactory) -> Path:
    plan = make_films.Plan(
        "big.mp4", range(0, PICTURES * 3600, 3600), Fraction(1, 90_000), width=1280, height=720, rate=Fraction(25),
        draw=noisy_scene, gop=50, b_frames=2, tracks=(make_films.Track(440),), matrix="bt709",
        encoder={"preset": "veryfast", "crf": "23", "x264-params": "scenecut=0:asm=auto"},
    )  # fmt: skip
    return make_films.make(plan, tmp_path_factory.mktemp("films"))


@pytest.fixture(scope="module")
def clip(big: Path) -> Clip:
    with open_film(big) as film:
        span = span_in(film, 10, 240)
    return Clip(big, span, faces=nobody(span))


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def bare(source: Path, path: Path, first: int, last: int) -> None:
    """The library alone: decode up to the span's end, encode what lies in it, the same words to the encoder, no sound."""
    with av.open(str(source)) as film, av.open(str(path), "w", options={"movflags": "+faststart"}) as out:
        stream = film.streams.video[0]
        set_threads(stream)  # as many as we use
        made = out.add_stream("libx264", rate=25, options={"preset": PRESET, "crf": str(QUALITY)})
        made.width, made.height, made.pix_fmt = stream.width, stream.height, "yuv420p"
        made.codec_context.time_base, made.codec_context.gop_size = Fraction(1, 90_000), 25 * KEY_EVERY
        for number, frame in enumerate(film.decode(stream)):
            if number >= last:
                break
            if number >= first:
                frame.pict_type = PictureType.NONE
                out.mux(made.encode(frame))
        out.mux(made.encode(None))


def test_encoding_is_as_fast_as_the_library_alone(big: Path, clip: Clip, tmp_path: Path) -> None:
    """A blur far from any picture of the clip's own makes it encode everything while nothing is drawn."""
    whole = replace(clip, sound="muted", blurs=(outside(clip),))
    theirs, ours = [], []
    for _ in range(5):
        theirs.append(spent(lambda: bare(big, tmp_path / "bare.mp4", 10, 240)))
        ours.append(spent(lambda: write_clip(whole, tmp_path / "clip.mp4", "question")))
    assert write_clip(whole, tmp_path / "clip.mp4", "question").copied == 0
    (mine, my_work), (limit, their_work) = (map(min, zip(*each, strict=True)) for each in (ours, theirs))
    print(
        f"\nencoding 230 pictures of 720 lines: ours {230 / mine:.0f} a second with opening and writing through to the "
        f"disk, bare {230 / limit:.0f}: {limit / mine:.2f} of its speed; processors {my_work:.2f} s, bare {their_work:.2f} s"
    )
    assert their_work / my_work >= 0.9
    assert limit / mine >= 0.9, "does anything else run on the machine?"


def spent(work: Callable[[], object]) -> tuple[float, float]:
    """Seconds that passed, and seconds of all processors; of several the least of each is the least disturbed."""
    start = time.process_time()
    passed = seconds(work)
    return passed, time.process_time() - start


def outside(clip: Clip) -> Blur:
    """A blur that lies in the clip's time for half a tick and so on no picture."""
    at = clip.span.start
    base = at.time_base / 2
    return Blur("b", "f1", (BlurAt(Moment(2 * at.pts + 1, base), Box(0, 0, 8, 8)),), Moment(2 * at.pts + 2, base))


def test_copying_beside_encoding(big: Path, clip: Clip, tmp_path: Path) -> None:
    copying, encoding = [], []
    for _ in range(TURNS):
        copying.append(seconds(lambda: write_clip(clip, tmp_path / "clip.mp4", "question")))
        encoding.append(seconds(lambda: bare(big, tmp_path / "bare.mp4", 10, 240)))
    written = write_clip(clip, tmp_path / "clip.mp4", "question")
    ours, theirs = statistics.median(copying), statistics.median(encoding)
    print(
        f"\n{written.copied} of {written.pictures} pictures copied, sound encoded: {1000 * ours:.0f} ms, "
        f"bare encoding without sound {1000 * theirs:.0f} ms: {theirs / ours:.1f} times as fast"
    )
    assert written.copied == 150
    assert ours < theirs


def test_what_drawing_and_blurring_cost(big: Path, clip: Clip, tmp_path: Path) -> None:
    with open_film(big) as film:
        held = film.moment_of(100)
        faces = tuple(
            Blur(f"b{n}", "f1", (BlurAt(film.moment_of(0), Box(100 * n + 50, 300, 60, 75)),), clip.span.end) for n in range(8)
        )
    drawn = replace(
        clip, hold=Hold(held), mark=Mark(Box(600, 300, 120, 90)), inset=True, question="May it be worn?", sound="muted"
    )
    answer = (FaceChoice("c", "f1", clip.span.start, clip.span.end, BLURRED),)
    blurred = replace(clip, blurs=faces, faces=answer, sound="muted")
    plain = statistics.median(seconds(lambda: bare(big, tmp_path / "bare.mp4", 10, 240)) for _ in range(3))
    for name, one in (("five seconds held with mark and inset", drawn), ("eight faces blurred", blurred)):
        took = statistics.median(seconds(lambda one=one: write_clip(one, tmp_path / "clip.mp4", "question")) for _ in range(3))
        print(f"\n{name}: {took:.2f} s; bare encoding of the span alone {plain:.2f} s")
        assert took < 4 * plain
    with open_film(big) as film:
        took = statistics.median(seconds(lambda n=n: preview(drawn, film, n, "question")) for n in (5, 60, 95, 120))
    print(f"preview of one picture: {1000 * took:.0f} ms")


def test_following_a_face(tmp_path: Path) -> None:
    with open_film(film_faces(tmp_path / "faces.mp4")) as film:
        box = Box(*(round(value) for value in box_of(FACES[0], 0)))
        end = Moment(film.index.end, film.index.time_base)
        took = seconds(lambda: follow(film, BlurAt(film.start, box), end))
    print(f"\nfollowing one face over {FRAMES} frames of 320 x 180: {1000 * took / FRAMES:.1f} ms a frame")
    assert took / FRAMES < 0.1
