"""What is no film is refused in one clear line, and nothing stays open."""

from pathlib import Path

import made
import pytest
from burnt import read_number
from footage import real_footage, still_open
from PIL import Image

from filmreview.errors import FilmReviewError
from filmreview.film.film import open_film
from filmreview.film.identity import digest_of_parts


def refusal(path: Path) -> str:
    with pytest.raises(FilmReviewError) as raised:
        open_film(path)
    line = str(raised.value)
    assert "\n" not in line
    assert str(path) in line
    if path.is_file():
        assert not still_open(path)
    return line


@pytest.mark.parametrize("name", ["notes.txt", "notes.mp4", "notes.ts", "notes"])
def test_a_text_is_refused_whatever_its_ending(tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    path.write_text("14 green, arm sleeve orange\n" * 50)
    assert "this is a text, not a film" in refusal(path)


def test_a_text_cut_inside_a_character_is_still_a_text(tmp_path: Path) -> None:
    path = tmp_path / "notes.txt"
    path.write_text("a" * 511 + "é" * 100, encoding="utf-8")
    assert "this is a text" in refusal(path)


def test_an_empty_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "empty.mp4").touch()
    assert "the file is empty" in refusal(tmp_path / "empty.mp4")


def test_a_folder_is_refused(tmp_path: Path) -> None:
    assert "this is a folder" in refusal(tmp_path)


def test_a_missing_file_is_refused(tmp_path: Path) -> None:
    assert "there is no such file" in refusal(tmp_path / "gone.mp4")


def test_sound_alone_is_refused() -> None:
    assert "sound but no pictures" in refusal(made.film("sound-only.m4a"))


def test_a_file_one_may_not_read_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    def forbidden(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", forbidden)  # rights alone would not stop a test that runs as root
    with pytest.raises(FilmReviewError, match="you may not read this file"):
        open_film(made.film("constant.mp4"))


def test_a_picture_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "still.png"
    Image.new("RGB", (32, 32)).save(path)
    assert "a single picture, not a film" in refusal(path)


def test_a_list_of_films_is_not_followed(tmp_path: Path) -> None:
    path = tmp_path / "list.m3u8"
    path.write_bytes(b"#EXTM3U\n#EXT-X-TARGETDURATION:4\n#EXTINF:4,\nhttp://127.0.0.1:9/film.ts\0\n#EXT-X-ENDLIST\n")
    assert "not a film" in refusal(path)


def test_noise_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "noise.mp4"
    path.write_bytes(bytes((number * 7919 >> 3) & 255 for number in range(20_000)))
    assert "not a film" in refusal(path)


def test_an_mp4_without_its_table_says_so(tmp_path: Path) -> None:
    """The table of frames stands at the end of this one, so that half the file has none."""
    whole = made.film("b-frames.mp4").read_bytes()
    path = tmp_path / "half.mp4"
    path.write_bytes(whole[: len(whole) // 2])
    assert "table of frames is missing: the recording or the copy was broken off" in refusal(path)


def test_the_name_of_a_film_may_be_anything(tmp_path: Path) -> None:
    for name in ("concat:a.mp4", "übung 1 %d.mp4", "-i.mp4", "'quoted' \"film\".mp4"):
        path = tmp_path / name
        path.write_bytes(made.film("constant.mp4").read_bytes())
        with open_film(path) as film:
            assert read_number(film.frame(33).picture()) == 33


def test_what_the_file_holds_is_told() -> None:
    with open_film(made.film("two-tracks.mp4")) as film:
        info = film.info
    assert (info.codec, info.pixel_format, info.streams[0]) == ("h264", "yuv420p", "0: video h264")
    assert [(track.number, track.codec, track.rate, track.channels, track.language) for track in info.sound] == [
        (0, "aac", 48_000, 1, "eng"),
        (1, "aac", 48_000, 1, "spa"),
    ]
    with open_film(made.film("constant.mp4")) as film:
        assert film.info.sound == ()
    with open_film(made.film("late-start.mp4")) as film:
        assert film.info.start == 5


def test_values_read_before_closing_stay_true_after_it() -> None:
    """After closing, the library makes time bases up; ours must not change."""
    film = open_film(made.film("late-start.mkv"))
    before = (film.info, film.index.time_base, film.start.time_base)
    film.close()
    assert (film.info, film.index.time_base, film.start.time_base) == before
    assert str(film.index.time_base) == "1/1000"


def test_a_film_is_known_again_by_its_parts(tmp_path: Path) -> None:
    source = real_footage("bikes.mp4")
    moved = tmp_path / "other name.mp4"
    moved.write_bytes(source.read_bytes())
    with open_film(source) as film, open_film(moved) as same:
        assert film.identity == same.identity
        assert film.identity.size == source.stat().st_size
        assert film.identity.length == 10
    changed = bytearray(moved.read_bytes())
    changed[-1] ^= 1
    moved.write_bytes(changed)
    assert digest_of_parts(moved)[1] != digest_of_parts(source)[1]


def test_the_digest_reads_little_of_a_large_file(tmp_path: Path) -> None:
    path = tmp_path / "large.bin"
    with path.open("wb") as file:
        file.truncate(3 * 2**30)  # holes: takes no room
    size, digest = digest_of_parts(path)
    assert size == 3 * 2**30
    assert len(digest) == 64
