"""Sums up path data by fontTools (Debian's python3-fonttools): a list of strings in the syntax of SVG comes as JSON on
the standard input, and for each of them its contours go out: whether it is closed, its area (counter-clockwise
positive where y runs upward), the length of its outline, and its box."""

import json
import sys

from fontTools.pens.areaPen import AreaPen
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.perimeterPen import PerimeterPen
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path


def summed_up(contour):
    if contour[-1][0] != "closePath":
        return {"Closed": False}
    steps = RecordingPen()
    steps.value = contour
    area, length, box = AreaPen(), PerimeterPen(tolerance=1e-4), BoundsPen(None)
    for pen in (area, length, box):
        steps.replay(pen)
    return {"Closed": True, "Area": area.value, "Length": length.value, "Box": box.bounds}


def contours(data):
    pen = RecordingPen()
    parse_path(data, pen)
    found, contour = [], []
    for step in pen.value:
        contour.append(step)
        if step[0] in ("closePath", "endPath"):
            found.append(summed_up(contour))
            contour = []
    return found


json.dump([contours(data) for data in json.load(sys.stdin)], sys.stdout)
