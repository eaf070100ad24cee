"""Lays stepping sheets with GEOS (Debian's python3-shapely), for comparison with package stepping.

Reads a JSON list of {"draft", "ops", "sheet": [[polygon, ...], ...], "width", "height", "turn", "diameter", "places":
[{"at", "pass", "part", "mask", "marks", "use"}, ...], "surround"} and writes a list of figures. The field is that of the yardstick of the
whole-panel check: its own layout, edge rules and overlay. Masks go by the map: a masked opening lays nothing, one that is
kept in part lays what the edge rule leaves of it, and all others lay all of it.
"""
import io
import json
import os
import sys

sys.dont_write_bytecode = True  # of the yardstick, beside which nothing is left
sys.path.insert(0, os.path.join(os.path.dirname(__file__), "..", "..", "sheet", "panel", "testdata"))

from shapely import affinity
from shapely.geometry import MultiPolygon, Point, Polygon, box
from shapely.ops import unary_union

# The yardstick answers what stands on its input when it is loaded: nothing.
ends = sys.stdin, sys.stdout
sys.stdin, sys.stdout = io.StringIO("[]"), io.StringIO()
from oracle import apply, compose, field_ties, layout, polygons, turn
sys.stdin, sys.stdout = ends


def field_of(draft, ops):
    copies, _, inside, unclear = layout(draft, ops)
    cut = [c.intersection(inside) for c in copies] if draft["field"]["edge"] == "crop" else copies
    if any(t["silhouette"] is None for t in draft.get("ties", [])) and cut:
        bounds = [c.bounds for c in cut if not c.is_empty]
        ties = field_ties(draft, ops, [f(b[k] for b in bounds) for k, f in enumerate((min, min, max, max))])
        cut = [c.difference(ties) for c in cut]
    return unary_union([MultiPolygon(polygons(c)) for c in cut]), inside, unclear


def ground_of(panel, surround):
    """What marks can be pricked into: the panel and its surround, 2 mm from their edges and less the rounding."""
    whole = box(0, 0, panel["width"], panel["height"])
    ring = whole.buffer(surround - 2 + 1e-6, join_style=2).difference(whole.buffer(2 - 1e-6, join_style=2))
    return unary_union([whole.buffer(-2 + 1e-6, join_style=2)] + ([ring] if surround > 0 else []))


def lay(case):
    draft = case["draft"]
    field, inside, unclear = field_of(draft, case["ops"])
    openings = [MultiPolygon([Polygon(p[0], p[1:]) for p in o]) for o in case["sheet"]]
    area, laid, by_pass, covered, marked, held = 0, [], {}, 0, 1e9, 1e9
    ground = ground_of(draft["panel"], case["surround"])
    for place in case["places"]:
        m = compose((1, 0, 0, 1, place["at"][0], place["at"][1]), turn(case["turn"]))
        here = []
        for number, o in enumerate(openings, 1):
            if number in place["mask"]:
                continue
            o = apply(o, m)
            if number in place["part"]:
                o = o.intersection(inside if draft["field"]["edge"] == "crop" else field)
            here.append(o)
        area += sum(o.area for o in here)
        laid += here
        sheet = apply(box(0, 0, case["width"], case["height"]), m)
        wet = MultiPolygon([p for o in here for p in polygons(o)])
        for other, painted in by_pass.get(place["pass"], []):
            if sheet.intersects(other):
                covered = max(covered, sheet.intersection(painted).area, other.intersection(wet).area)
        by_pass.setdefault(place["pass"], []).append((sheet, wet))
        held = min(held, sum(ground.intersects(Point(place["marks"][k])) for k in place["use"]))
        for mark in place["marks"]:
            marked = min(marked, Point(mark).distance(field))
    union = unary_union(laid)
    holes = min([Point(h).distance(o) for h in case["holes"] for o in openings], default=1e9)
    rim = min([Point(h).distance(box(0, 0, case["width"], case["height"]).exterior) for h in case["holes"]], default=1e9)
    return {"field": field.area, "apart": union.symmetric_difference(field).area, "twice": area - union.area,
            "covered": covered, "held": held, "marks": marked, "holes": holes, "rim": rim, "unclear": unclear}


if __name__ == "__main__":
    json.dump([lay(c) for c in json.load(sys.stdin)], sys.stdout)
