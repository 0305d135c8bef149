"""A written lesson plays in Qt's own player: every picture in order, the right length."""

import sys
from pathlib import Path

import pytest
from PyQt6.QtCore import QUrl
from PyQt6.QtGui import QImage
from PyQt6.QtMultimedia import QMediaPlayer, QVideoFrame, QVideoSink
from pytestqt.qtbot import QtBot

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "fixtures" / "films"))

import numpy as np
from burnt import read_number

from filmreview.desktop.qt_playback import prepare_built_in
from tests.lessons.clip_making import short_lesson
from tests.lessons.test_clip_players import is_in_order


@pytest.mark.usefixtures("qapp")
def test_it_plays_in_qt(qtbot: QtBot, tmp_path: Path) -> None:
    path, numbers, chapters = short_lesson(tmp_path)
    seen: list[int | None] = []

    def shown(frame: QVideoFrame) -> None:
        image = frame.toImage()
        if not image.isNull():
            image = image.convertToFormat(QImage.Format.Format_RGB888)
            bits = np.frombuffer(image.constBits().asarray(image.sizeInBytes()), np.uint8)
            rows = bits.reshape(image.height(), image.bytesPerLine())[:, : image.width() * 3]
            seen.append(read_number(rows.reshape(image.height(), image.width(), 3)))

    prepare_built_in()
    player, sink = QMediaPlayer(), QVideoSink()
    sink.videoFrameChanged.connect(shown)
    player.setVideoSink(sink)
    player.setSource(QUrl.fromLocalFile(str(path)))
    player.play()
    qtbot.waitUntil(lambda: player.mediaStatus() == QMediaPlayer.MediaStatus.EndOfMedia, timeout=30_000)
    assert player.error() == QMediaPlayer.Error.NoError
    assert abs(player.duration() - float(chapters[-1][1] * 1000)) < 50
    player.stop()
    player.setSource(QUrl())
    assert None not in seen
    assert is_in_order(seen, numbers)
    assert len(seen) > 0.5 * len(numbers)
    assert seen[-1] in numbers[-3:]
