"""Open a film file, or say in one line why it cannot be one."""

from __future__ import annotations

from pathlib import Path

import av
from av.stream import Disposition

from filmreview.errors import FilmReviewError

# Only the file itself is read: a list of other files or addresses inside it is not followed.
_READER_OPTIONS = {"protocol_whitelist": "file"}
_NO_FILMS = {"tty": "a text", "hls": "a list of films", "concat": "a list of films", "image2": "a single picture"}
_PROBE_BYTES = 512


def open_container(path: Path) -> tuple[av.container.InputContainer, av.VideoStream]:
    """The open file and its picture stream; raises FilmReviewError for everything that is not a film."""
    _check_file(path)
    try:
        container = av.open(str(path.resolve()), options=_READER_OPTIONS)
    except (av.FFmpegError, OSError, UnicodeDecodeError) as error:
        raise _unreadable(path) from error
    try:
        return container, picture_stream(path, container)
    except FilmReviewError:
        container.close()
        raise


def reopen_container(path: Path, number: int) -> tuple[av.container.InputContainer, av.VideoStream]:
    """The file anew from its beginning, with the same picture stream; raises FilmReviewError when it went away meanwhile."""
    container, _ = open_container(path)
    stream = container.streams[number]
    assert isinstance(stream, av.VideoStream)
    return container, stream


def picture_stream(path: Path, container: av.container.InputContainer) -> av.VideoStream:
    """The first stream of moving pictures; raises FilmReviewError when there is none."""
    name = container.format.name
    if name in _NO_FILMS or name.endswith("_pipe"):
        raise FilmReviewError(f"this is {_NO_FILMS.get(name, 'a single picture')}, not a film", where=str(path))
    for stream in container.streams.video:
        if not stream.disposition & Disposition.attached_pic and stream.codec_context is not None:
            return stream
    if container.streams.audio:
        raise FilmReviewError("the file holds sound but no pictures", where=str(path), todo="choose the film itself")
    raise FilmReviewError("the file holds no pictures that can be read", where=str(path), todo="choose another film")


def _check_file(path: Path) -> None:
    where = str(path)
    try:
        if path.is_dir():
            raise FilmReviewError("this is a folder, not a film", where=where, todo="choose a film file in it")
        with path.open("rb") as file:
            start = file.read(_PROBE_BYTES)
    except FileNotFoundError:
        raise FilmReviewError("there is no such file", where=where, todo="check the path") from None
    except PermissionError:
        raise FilmReviewError("you may not read this file", where=where, todo="ask for the right to read it") from None
    except OSError as error:
        raise FilmReviewError(f"the file cannot be read ({error.strerror})", where=where) from error
    if not start:
        raise FilmReviewError("the file is empty", where=where, todo="copy the film again")
    if b"\0" not in start and _is_text(start):
        raise FilmReviewError("this is a text, not a film", where=where, todo="choose a film file")


def _is_text(start: bytes) -> bool:
    """True for the beginning of a text; a character cut in two at the end does not count against it."""
    try:
        start.decode()
    except UnicodeDecodeError as error:
        return error.start > len(start) - 4 and len(start) == _PROBE_BYTES
    return True


def _unreadable(path: Path) -> FilmReviewError:
    with path.open("rb") as file:
        start = file.read(12)
    if start[4:8] == b"ftyp":
        # ISO/IEC 14496-12: the movie box, often at the very end, tells where the frames are.
        return FilmReviewError(
            "the film's table of frames is missing: the recording or the copy was broken off",
            where=str(path),
            todo="copy it again, or repair it with the program of the camera",
        )
    return FilmReviewError("this is not a film that can be read", where=str(path), todo="choose a film file, such as .mp4")
