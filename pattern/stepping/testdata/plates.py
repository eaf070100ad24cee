"""Lays the stepping sheets of one colour with GEOS (Debian's python3-shapely).

Reads a JSON list of {"copies": [polygon, ...] (of the colour, as the edge rule leaves
them), "ties": [polygon, ...], "sheet": [[polygon, ...],
...] with {"numbers": [n, ...]} of its openings, "turn": degrees, "crop": [x0, y0, x1, y1] or null, "places": [{"at",
"part", "mask"}, ...]} and writes for each the area of the field in mm2, how much is laid otherwise, and how much twice.
"""
import json
import math
import sys

from shapely import affinity
from shapely.geometry import MultiPolygon, Polygon, box
from shapely.ops import unary_union


def joined(polygons):
    return unary_union([Polygon(p[0], p[1:]).buffer(0) for p in polygons])


def lay(case):
    field = joined(case["copies"])
    field = field.difference(joined(case["ties"]))
    crop = box(*case["crop"]) if case["crop"] else None
    if crop:
        field = field.intersection(crop)
    laid, area = [], 0
    openings = [MultiPolygon([Polygon(p[0], p[1:]) for p in o]) for o in case["sheet"]]
    c, s = math.cos(math.radians(case["turn"])), math.sin(math.radians(case["turn"]))
    for place in case["places"]:
        for number, o in zip(case["numbers"], openings):
            if number in place["mask"]:
                continue
            o = affinity.affine_transform(o, [c, -s, s, c, place["at"][0], place["at"][1]])
            if number in place["part"]:
                o = o.intersection(crop if crop else field)
            laid.append(o)
            area += o.area
    all_laid = unary_union(laid)
    return {"field": field.area, "apart": field.symmetric_difference(all_laid).area, "twice": area - all_laid.area}


json.dump([lay(c) for c in json.load(sys.stdin)], sys.stdout)
