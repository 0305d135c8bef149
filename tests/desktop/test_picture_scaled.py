"""What a hand does on the canvas means the same at 100 % and at 200 % scale."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

SCRIPT = """
import json
from PyQt6.QtCore import QPoint, Qt
from PyQt6.QtTest import QTest
from PyQt6.QtWidgets import QApplication
app = QApplication([])
from filmreview.desktop.picture import PictureCanvas
from filmreview.desktop.region_parts import Shape
from tests.desktop.picture_hand import ALT, CONTROL, LEFT, MIDDLE, PLAIN, drag, gradient, wheel
canvas = PictureCanvas()
canvas.resize(640, 360 + canvas._line_height())
canvas.show_picture(gradient(320, 180))
canvas.show()
canvas.setFocus()
app.processEvents()
told = {"ratio": canvas.devicePixelRatioF()}
under = canvas.view.to_picture((500, 100))
wheel(canvas, (500, 100), 3)
told["under the pointer"] = [under, canvas.view.to_picture((500, 100))]
told["near"] = canvas.view.scale
left = canvas.view.left
drag(canvas, (300, 200), (340, 170), button=MIDDLE)
told["middle button"] = canvas.view.left - left
QTest.keyPress(canvas, Qt.Key.Key_Space)
drag(canvas, (300, 200), (340, 170))
QTest.keyRelease(canvas, Qt.Key.Key_Space)
told["space"] = canvas.view.left - left
QTest.keyClick(canvas, Qt.Key.Key_Left, CONTROL)
told["keys"] = canvas.view.left - left
QTest.mouseDClick(canvas, LEFT, PLAIN, QPoint(200, 200))
told["fitted"] = canvas.view.fitted
drag(canvas, (100, 60), (180, 120))
told["box"] = str(canvas.region)
drag(canvas, (180, 120), (200, 130))
told["corner"] = str(canvas.region)
QTest.keyClick(canvas, Qt.Key.Key_Right, ALT)
told["by key"] = str(canvas.region)
canvas.regions.set_shape(Shape.POLYGON)
for x, y in ((300, 60), (400, 60), (350, 140), (300, 60)):
    QTest.mouseClick(canvas, LEFT, PLAIN, QPoint(x, y))
told["polygon"] = canvas.region.points
canvas.points.begin(("one end", "other end"))
for x in (100, 300):
    QTest.mouseClick(canvas, LEFT, PLAIN, QPoint(x, 200))
told["points"] = canvas.points.at
image = canvas.grab().toImage()
told["painted"] = [image.width(), image.height()]
print(json.dumps(told))
"""


@pytest.mark.parametrize("scale", [1, 2])
def test_mouse_and_keys_mean_the_same(scale: int) -> None:
    root = Path(__file__).parents[2]
    environment = {**os.environ, "QT_SCALE_FACTOR": str(scale), "QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": str(root)}
    run = subprocess.run([sys.executable, "-c", SCRIPT], env=environment, capture_output=True, text=True, check=True, cwd=root)
    told = json.loads(run.stdout)
    assert told["ratio"] == scale
    assert told["under the pointer"][1] == pytest.approx(told["under the pointer"][0])
    assert told["near"] == pytest.approx(2 * 1.25**3)
    assert (told["middle button"], told["space"], told["keys"]) == (pytest.approx(40), pytest.approx(80), pytest.approx(144))
    assert told["fitted"]
    assert (told["box"], told["corner"], told["by key"]) == ("50,30,40,30", "50,30,50,35", "51,30,50,35")
    assert told["polygon"] == [[150, 30], [200, 30], [175, 70]]
    assert told["points"] == [[50, 100], [150, 100]]
    assert told["painted"][0] == 640 * scale
