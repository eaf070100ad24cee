"""Judges with GEOS (Debian's python3-shapely) how pieces lie on stock, for comparison with package nest.

Reads a JSON list of {"stock", "pieces", "sheets"}: pieces by rings from the lower left corner of their box, and where
each lies. Writes for each by how many mm two pieces come nearer than the space, by how many one comes into the edge, the
area in mm² by which two overlap, and the area of what lies on each sheet.
"""
import json
import sys

from shapely.affinity import rotate, translate
from shapely.geometry import Polygon, box
from shapely.ops import unary_union


def laid(piece, lies):
    wide, high = piece["width"], piece["height"]
    rings = piece.get("outline") or [[[0, 0], [wide, 0], [wide, high], [0, high]]]
    shape = unary_union([Polygon(r) for r in rings])
    quarters = lies.get("quarters", 1 if lies["turned"] else 0)
    shape = rotate(shape, 90 * quarters, origin=(0, 0))
    frame = rotate(box(0, 0, wide, high), 90 * quarters, origin=(0, 0)).bounds
    return translate(shape, lies["at"][0] - frame[0], lies["at"][1] - frame[1])


def judge(case):
    stock = case["stock"]
    near = into = over = 0.0
    areas = []
    for sheet in case["sheets"]:
        shapes = [laid(case["pieces"][p["piece"]], p) for p in sheet]
        areas.append(unary_union(shapes).area)
        for i, s in enumerate(shapes):
            x0, y0, x1, y1 = s.bounds
            e = stock["edge"]
            into = max(into, e - x0, e - y0, x1 - stock["width"] + e, y1 - stock["height"] + e)
            for o in shapes[:i]:
                near = max(near, stock["space"] - s.distance(o))
                if s.intersects(o):
                    over = max(over, s.intersection(o).area)
    return {"near": near, "into": into, "over": over, "areas": areas}


json.dump([judge(c) for c in json.load(sys.stdin)], sys.stdout)
