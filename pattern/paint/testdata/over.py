"""On how much of each other the copies of two colours lie, by GEOS (Debian's python3-shapely).

Reads a JSON list of {"crop": [x0, y0, x1, y1] or null, "rooms": [polygon, ...], "copies": [{"colour": n, "polygons":
[polygon, ...]}, ...]}, polygons as lists of rings in panel mm, in the order in which the copies are drawn, and writes
for each a list of [below, above, mm2]: the area on which copies of the colour above are drawn over copies of the
colour below.
"""
import json
import sys

from shapely.geometry import Polygon, box
from shapely.ops import unary_union


def joined(polygons):
    return unary_union([Polygon(p[0], p[1:]).buffer(0) for p in polygons])


def ask(case):
    rooms = joined(case["rooms"])
    shapes = []
    for c in case["copies"]:
        s = joined(c["polygons"])
        if case["crop"]:
            s = s.intersection(box(*case["crop"]))
        shapes.append(s.difference(rooms))
    sums = {}
    boxes = [s.bounds for s in shapes]
    for j, s in enumerate(shapes):
        for i in range(j):
            key = case["copies"][i]["colour"], case["copies"][j]["colour"]
            a, b = boxes[i], boxes[j]
            if key[0] == key[1] or not a or not b or a[0] > b[2] or b[0] > a[2] or a[1] > b[3] or b[1] > a[3]:
                continue
            area = shapes[i].intersection(s).area
            if area > 0.01:
                sums[key] = sums.get(key, 0) + area
    return [[*k, v] for k, v in sums.items()]


json.dump([ask(c) for c in json.load(sys.stdin)], sys.stdout)
