"""Figures of the findings sheet, by hand: pytest tests/bench/test_sheet_bench.py -s

500 findings with pictures. The peer, in the same run: decoding the same 500 exact frames through the same film room, making the
same pictures, and writing pictures and cells by bare openpyxl.
"""

import io
import resource
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from multiprocessing import get_context
from pathlib import Path

import numpy as np
import openpyxl
from openpyxl.drawing.image import Image

from filmreview.facts.region import Box
from filmreview.film.film import Film, open_film
from filmreview.film.writing import FilmWriter, Writing
from filmreview.review.model import FilmRef
from filmreview.sheets.findings_page import findings_table
from filmreview.sheets.handover import HandOver, Line
from filmreview.sheets.marking import marked
from filmreview.sheets.paper import write_paper
from filmreview.sheets.pictures import KEPT_BYTES
from filmreview.sheets.web_page import write_page
from filmreview.sheets.workbook import write_workbook
from tests.sheets.small_sheet import LINE, sheet

FINDINGS = 500
FRAMES = 3000
WRITING = Writing(1280, 720, Fraction(30), key_every=250)


def make_film(path: Path) -> None:
    """100 s of 720p, a key frame every 250: a noisy floor that moves under a few blocks."""
    chance = np.random.default_rng(1)
    floor = chance.integers(60, 190, (720, 1280 + FRAMES, 3), dtype=np.uint8)
    floor = floor // 8 + np.linspace(60, 160, floor.shape[1]).astype(np.uint8)[:, None]
    with FilmWriter(path, WRITING) as film:
        for number in range(FRAMES):
            picture = floor[:, number : number + 1280].copy()
            picture[200:500, 500:700] = (20, 110, 50 + number % 100)
            film.add_picture(picture)


def big_sheet(film: Film) -> HandOver:
    """500 findings spread over the film, as a reviewer's are: in order."""
    info = film.info
    ref = FilmRef("f1", str(film.path), 1, info.duration, "", film.start, info.width, info.height)
    lines = [_line(film, ref, number) for number in range(FINDINGS)]
    counts = Counter((line.ruling, line.crew_mark) for line in lines)
    return replace(sheet(lines), counts=counts, films=(ref,), pictures=lambda _, moment: film.frame_at(moment).picture())


def _line(film: Film, ref: FilmRef, number: int) -> Line:
    moment = film.moment_of(number * film.info.frames // FINDINGS)
    side = min(film.info.width, film.info.height) // 4
    box = Box(side // 2, side // 2, side, side)
    return replace(LINE, number=number + 1, tag=f"t{number + 1}", film=ref, moment=moment, region=box)


def ours(path: Path) -> None:
    with open_film(path.with_name("film.mp4"), kept_bytes=KEPT_BYTES) as film:
        write_workbook(big_sheet(film), path)


def on_paper(path: Path) -> None:
    with open_film(path.with_name("film.mp4"), kept_bytes=KEPT_BYTES) as film:
        write_paper(big_sheet(film), path)


def as_page(path: Path) -> None:
    with open_film(path.with_name("film.mp4"), kept_bytes=KEPT_BYTES) as film:
        write_page(big_sheet(film), path)


def bare(path: Path) -> None:
    """The same frames, pictures and cells, by plain openpyxl."""
    book = openpyxl.Workbook()
    page = book.active
    assert page is not None
    with open_film(path.with_name("film.mp4"), kept_bytes=KEPT_BYTES) as film:
        lines = big_sheet(film)
        table = findings_table(lines)
        page.append(list(table.columns))
        for row, (line, values) in enumerate(zip(lines.lines, table.itertuples(index=False), strict=True), 2):
            page.append(list(values))
            picture = marked(film.frame_at(line.moment).picture(), line.region)
            page.add_image(Image(io.BytesIO(picture.jpeg)), f"C{row}")
    book.save(path)


def in_child(work: Callable[[Path], None], path: Path) -> tuple[float, float]:
    """Seconds and the most memory in MB of work in a process of its own."""
    near, far = get_context("spawn").Pipe(duplex=False)
    child = get_context("spawn").Process(target=_measured, args=(work, path, far))
    child.start()
    seconds, memory = near.recv()
    child.join()
    return seconds, memory


def _measured(work: Callable[[Path], None], path: Path, answer: object) -> None:
    start = time.perf_counter()
    work(path)
    took = time.perf_counter() - start
    answer.send((took, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024))  # type: ignore[attr-defined]


def test_500_findings_with_pictures(tmp_path: Path) -> None:
    make_film(tmp_path / "film.mp4")
    first = in_child(bare, tmp_path / "bare.xlsx")
    second = in_child(ours, tmp_path / "ours.xlsx")
    third = in_child(bare, tmp_path / "bare.xlsx")
    limit = min(first[0], third[0])
    size = (tmp_path / "ours.xlsx").stat().st_size / 2**20
    print(f"\n{FINDINGS} findings over 100 s of 720p: ours {second[0]:.1f} s, {second[1]:.0f} MB, file {size:.1f} MB")
    print(f"bare openpyxl with the same frames: {first[0]:.1f} s and {third[0]:.1f} s, {first[1]:.0f} MB")
    print(f"ratio {second[0] / limit:.2f}")
    for name, work in (("paper", on_paper), ("page", as_page)):
        seconds, memory = in_child(work, tmp_path / name)
        print(f"the same as {name}: {seconds:.1f} s, {memory:.0f} MB, file {(tmp_path / name).stat().st_size / 2**20:.1f} MB")
        assert memory < 500
    assert second[0] < 1.5 * limit
    assert second[1] < 500
