"""Measure the garments of made gym scenes on H.264 films of them, against what they truly are."""

from __future__ import annotations

import os
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from multiprocessing import get_context
from pathlib import Path

import av
import numpy as np
from av.video.reformatter import ColorRange, Colorspace, Interpolation
from fourth_gym import make_fourth
from made_gym import DISTANCES, Garment, Scene, make_scene
from second_gym import ROUGH, make_second
from third_gym import make_third

from filmreview.colour.palette import parse_colour
from filmreview.colour.spaces import linear_to_lab, picture_to_linear
from filmreview.colour.video import Matrix
from filmreview.errors import FilmReviewError
from filmreview.film.film import open_film
from filmreview.measure.colour import MeasuredColour, measure_colour
from filmreview.measure.on_film import bits_of
from filmreview.measure.pixels import pixels_in, trimmed_mean
from filmreview.measure.reference import Reference, reference_from

_SCALING = Interpolation.BICUBIC | Interpolation.ACCURATE_RND | Interpolation.FULL_CHR_H_INT | Interpolation.BITEXACT
PICTURES, MEASURED = 12, 9
WHITE = parse_colour("white")
Maker = Callable[[int, str], Scene]


@dataclass(frozen=True)
class Coding:
    """How a scene becomes a film. tagged: the matrix stands in the film; untagged 720p is read as bt709, an assumed matrix."""

    megabits: float
    matrix: str = "bt709"
    tagged: bool = True


CODINGS = [Coding(1.0), Coding(2.0), Coding(4.0), Coding(2.0), Coding(2.0, tagged=False),
           Coding(2.0, matrix="bt601", tagged=False)]  # fmt: skip
"""What scene after scene is coded as: 2 Mbit/s tagged twice as often as the others."""


@dataclass(frozen=True)
class Filmed:
    """The exact picture of a film that is measured, the matrix when it had to be assumed, and its bits a pixel."""

    picture: np.ndarray
    assumed: Matrix | None
    bits: float


@dataclass(frozen=True)
class Case:
    """One garment measured. alone, corrected: without and with the nearest white reference (None when refused). plain, grey:
    L*a*b* of the plain mean and of the grey-world guess."""

    garment: Garment
    scene: int
    distance: str
    coding: Coding
    alone: MeasuredColour
    corrected: MeasuredColour | None
    plain: np.ndarray
    grey: np.ndarray

    @property
    def truth(self) -> np.ndarray:
        return np.array(self.garment.lab)


def write_film(path: Path, pictures: list[np.ndarray], coding: Coding) -> None:
    """Pictures uint8 (h, w, 3) at 30 a second, H.264 4:2:0 limited range."""
    space = Colorspace.ITU709 if coding.matrix == "bt709" else Colorspace.ITU601
    with av.open(str(path), "w") as out:
        stream = out.add_stream("libx264", rate=30)
        stream.height, stream.width = pictures[0].shape[:2]
        stream.pix_fmt = "yuv420p"
        stream.bit_rate = int(coding.megabits * 1e6)
        kilobits = int(coding.megabits * 1000)
        stream.options = {"preset": "fast", "maxrate": f"{kilobits}k", "bufsize": f"{kilobits // 2}k"}
        stream.codec_context.time_base = Fraction(1, 30)
        if coding.tagged:
            stream.codec_context.colorspace = {"bt709": 1, "bt601": 6}[coding.matrix]
            stream.codec_context.color_range = 1
        for picture in pictures:
            frame = av.VideoFrame.from_ndarray(picture, format="rgb24").reformat(
                format="yuv420p", src_colorspace=space, dst_colorspace=space, src_color_range=ColorRange.JPEG,
                dst_color_range=ColorRange.MPEG, interpolation=_SCALING,
            )  # fmt: skip
            if not coding.tagged:
                frame.colorspace, frame.color_range = 2, 0
            out.mux(stream.encode(frame))
        out.mux(stream.encode())


def filmed(scene: Scene, coding: Coding) -> Filmed:
    """A scene's film, opened again."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "scene.mp4"
        write_film(path, scene.pictures, coding)
        with open_film(path) as film:
            assumed = Matrix(film.info.matrix) if film.info.matrix_assumed else None
            assert (assumed is None) == coding.tagged
            return Filmed(film.frame(MEASURED).exact_picture(), assumed, bits_of(film))


def first_maker(seed: int, distance: str) -> Scene:
    """The first made gym, usual and rough halls mixed."""
    return make_scene(seed, distance, PICTURES)


def second_maker(seed: int, distance: str) -> Scene:
    """The second made gym, every third hall (whatever its coding) of the rough kind."""
    return make_second(seed, distance, PICTURES, ROUGH if seed // len(CODINGS) % 3 == 0 else None)


def third_maker(seed: int, distance: str) -> Scene:
    """The third made gym: spectra of cloths under lamps and cameras with published curves."""
    return make_third(seed, distance, PICTURES)


def fourth_maker(seed: int, distance: str) -> Scene:
    """The fourth made gym, never fitted on."""
    return make_fourth(seed, distance, PICTURES)


MAKERS: dict[str, Maker] = {"first": first_maker, "second": second_maker, "third": third_maker, "fourth": fourth_maker}
UNSEEN = ("third", "fourth")
"""Nothing in the package is fitted on these."""


def cases(seeds: range, distance: str, codings: list[Coding], most: int = 24, maker: Maker = first_maker) -> Iterator[Case]:
    """The cases of scenes of these seeds, at most `most` garments of each kind in each, the same ones for every coding."""
    for seed in seeds:
        scene = maker(seed, distance)
        picked = _picked(scene, seed, most)
        for coding in codings:
            film = filmed(scene, coding)
            whites = list(references(film.picture, scene))
            grey_world = picture_to_linear(film.picture).reshape(-1, 3).mean(axis=0)
            for number in picked:
                garment = scene.garments[number]
                yield _case(film, garment, nearest(whites, garment), grey_world, (seed, distance, coding))


def _picked(scene: Scene, seed: int, most: int) -> list[int]:
    """Garments drawn in turn, passing over kinds of which there are enough."""
    counts: Counter[str] = Counter()
    picked = []
    for number in np.random.default_rng(seed).permutation(len(scene.garments)):
        kind = scene.garments[number].kind
        counts[kind] += 1
        if counts[kind] <= most:
            picked.append(int(number))
    return picked


def gathered(makers: list[str], seeds: range, most: int = 48) -> dict[str, list[Case]]:
    """The cases of scenes of these seeds at every distance by maker, scene after scene in another coding: one process for each
    processor."""
    jobs = [(maker, distance, seed, most) for maker in makers for distance in DISTANCES for seed in seeds]
    found: dict[str, list[Case]] = {maker: [] for maker in makers}
    with get_context("spawn").Pool(os.cpu_count()) as pool:
        for done, (maker, kept) in enumerate(pool.imap(_of_scene, jobs), start=1):
            found[maker] += kept
            if done % 60 == 0:
                print(f"{done} of {len(jobs)} scenes", flush=True)
    return found


def _of_scene(job: tuple[str, str, int, int]) -> tuple[str, list[Case]]:
    maker, distance, seed, most = job
    coding = CODINGS[seed % len(CODINGS)]
    return maker, list(cases(range(seed, seed + 1), distance, [coding], most, MAKERS[maker]))


def references(picture: np.ndarray, scene: Scene) -> Iterator[Reference]:
    """The white things of a scene that serve as references."""
    for box in scene.whites.values():
        try:
            yield reference_from(picture, box, WHITE)
        except FilmReviewError:
            continue  # refused: clipped


def nearest(whites: list[Reference], garment: Garment) -> Reference | None:
    """The reference nearest to a garment; None when there is none."""
    return min(whites, key=lambda one: _apart(one, garment), default=None)


def _apart(reference: Reference, garment: Garment) -> float:
    one, two = reference.region, garment.box
    return float(np.hypot(one.x + one.width / 2 - two.x - two.width / 2, one.y + one.height / 2 - two.y - two.height / 2))


def _case(film, garment, reference, grey_world, place) -> Case:  # type: ignore[no-untyped-def]
    seed, distance, coding = place
    picture, known = film.picture, {"assumed_matrix": film.assumed, "bits": film.bits}
    whole, eroded = pixels_in(picture, garment.box, 0), pixels_in(picture, garment.box, 4)
    mean, _ = trimmed_mean(eroded.linear, eroded.clipped)
    return Case(
        garment, seed, distance, coding,
        measure_colour(picture, garment.box, **known),
        None if reference is None else measure_colour(picture, garment.box, reference, **known),
        linear_to_lab(whole.linear.mean(axis=0)), linear_to_lab(mean / grey_world * grey_world.mean()),
    )  # fmt: skip
