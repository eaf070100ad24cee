"""Puts joined sheets together with GEOS (Debian's python3-shapely), for comparison with package joined.

Reads a JSON list of {"draft", "ops", "parts": [{"outline", "cut", "open", "holes", "marks"}, ...], "joints"} and writes a list of figures. The
field is that of the yardstick of the whole-panel check: its own layout, edge rules and overlay.
"""
import io
import json
import os
import sys

sys.dont_write_bytecode = True  # of the yardstick, beside which nothing is left
sys.path.insert(0, os.path.join(os.path.dirname(__file__), "..", "..", "sheet", "panel", "testdata"))

from shapely.geometry import LineString, MultiPolygon, Point, Polygon, box
from shapely.ops import unary_union

# The yardstick answers what stands on its input when it is loaded: nothing.
ends = sys.stdin, sys.stdout
sys.stdin, sys.stdout = io.StringIO("[]"), io.StringIO()
from oracle import layout, polygons
sys.stdin, sys.stdout = ends


def shape(mp):
    return unary_union([Polygon(p[0], p[1:]) for p in mp])


def join(case):
    draft = case["draft"]
    copies, _, inside, unclear = layout(draft, case["ops"])
    cut = [c.intersection(inside) for c in copies] if draft["field"]["edge"] == "crop" else copies
    field = unary_union([MultiPolygon(polygons(c)) for c in cut])
    sheet = box(0, 0, draft["panel"]["width"], draft["panel"]["height"])
    parts = [shape(p["outline"]) for p in case["parts"]]
    opened = [unary_union([shape(o) for o in p["open"]]) for p in case["parts"]]
    notches = [Polygon([(x - 1.5, y), (x, y - 1.5), (x + 1.5, y), (x, y + 1.5)]) for j in case["joints"] for x, y in j["notches"]]
    whole = sheet.difference(unary_union(notches))
    lines = [LineString(j["line"]) for j in case["joints"]]
    holes = [min([Point(h).distance(f) for f in (field, p.exterior)]) if p.contains(Point(h)) else -1
             for p, c in zip(parts, case["parts"]) for h in c["holes"]]
    # What parts meet, and along how much; notches take some off.
    seams = unary_union(lines) if lines else LineString()
    rims = [p.exterior.buffer(1e-6) for p in parts]
    meet = [[i + 1, k + 1, seams.intersection(rims[i]).intersection(rims[k]).length]
            for k in range(len(parts)) for i in range(k) if rims[i].intersects(rims[k])]
    marks = [(LineString(m), o, shape(c["cut"])) for o, c in zip(opened, case["parts"]) for m in c["marks"]]
    return {
        "meet": meet,
        "marks": min([m.distance(o) for m, o, _ in marks if not o.is_empty], default=1e9),
        "rims": min([m.distance(c.exterior) if c.contains(m) else 0 for m, _, c in marks], default=1e9),
        "field": field.area,
        "parts": unary_union(parts).symmetric_difference(whole).area + sum(p.area for p in parts) - whole.area,
        "openings": unary_union(opened).symmetric_difference(field).area + sum(o.area for o in opened) - field.area,
        "outside": sum(o.intersection(sheet).difference(p).area for o, p in zip(opened, parts)),
        "short": max([j["clear"] - l.distance(field) for j, l in zip(case["joints"], lines)], default=0),
        "holes": min(holes, default=1e9),
        "valid": all(p.is_valid and p.geom_type == "Polygon" for p in parts),
        "unclear": unclear,
    }


json.dump([join(c) for c in json.load(sys.stdin)], sys.stdout)
