"""Areas of a panel's openings by colour, by GEOS (Debian's python3-shapely).

Reads a JSON list of {"crop": [x0, y0, x1, y1] or null, "half": mm, "colours": [[copy, ...], ...], "ties": [ring, ...]}
where a copy is a list of polygons (lists of rings) in panel mm, and writes for each the areas of its colours in mm2,
once a beam of half mm to either side has gone along the openings' edges from within.
"""
import json
import sys

from shapely.geometry import Polygon, box
from shapely.ops import unary_union


def areas(case):
    ties = unary_union([Polygon(r) for r in case["ties"]])
    out = []
    for copies in case["colours"]:
        union = unary_union([Polygon(p[0], p[1:]) for c in copies for p in c])
        if case["crop"]:
            union = union.intersection(box(*case["crop"]))
        union = union.difference(ties)
        h = case["half"]
        if h:
            union = union.buffer(-h, 16).buffer(h, 16)
        out.append(union.area)
    return out


json.dump([areas(c) for c in json.load(sys.stdin)], sys.stdout)
