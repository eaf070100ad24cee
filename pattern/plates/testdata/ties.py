"""What becomes of the ties of plates, by GEOS (Debian's python3-shapely).

Reads a JSON list of {"crop": [x0, y0, x1, y1] or null, "rooms": [polygon, ...], "copies": [polygon, ...] (of one
colour, without regard to ties), "opened": [polygon, ...], "later": [polygon, ...], "over": [polygon, ...], "lap": mm,
"strips": [polygon, ...]}, polygons as lists of rings in panel mm, and writes for each the area in mm2 of the strips
that a difference of GEOS has, what of it the strips given lack and have too much, how many of the strips lie under
later plates and how many of the others the plate over ties covers, what of those stays open, and what the plate over
ties opens beside the copies or further than a lap from a strip.
"""
import json
import sys

from shapely.geometry import Polygon, box
from shapely.ops import unary_union

ENOUGH = 0.01


def joined(polygons):
    return unary_union([Polygon(p[0], p[1:]).buffer(0) for p in polygons])


def ask(case):
    bare = joined(case["copies"])
    if case["crop"]:
        bare = bare.intersection(box(*case["crop"]))
    bare = bare.difference(joined(case["rooms"]))
    strips = bare.difference(joined(case["opened"]))
    given = [Polygon(p[0], p[1:]).buffer(0) for p in case["strips"]]
    all_given = unary_union(given)
    later, over = joined(case["later"]), joined(case["over"])
    shown = [s for s in given if s.difference(later).area > ENOUGH]
    return {
        "area": strips.area,
        "lacking": strips.difference(all_given.buffer(1e-6)).area,
        "extra": all_given.difference(strips.buffer(1e-6)).area,
        "under": len(given) - len(shown),
        "over": sum(s.difference(over).area <= ENOUGH for s in shown),
        "open": unary_union(shown).difference(over).area if shown else 0,
        "beside": over.difference(bare.buffer(1e-4)).area,
        "beyond": over.difference(unary_union(shown).buffer(case["lap"] + 1e-3, 64)).area if shown else over.area,
    }


json.dump([ask(c) for c in json.load(sys.stdin)], sys.stdout)
