"""Measures the holes that sheets are held by with GEOS (Debian's python3-shapely), for comparison with package cutplan.

Reads a JSON list of {"draft", "ops", "kerf", "sheet": [x0, y0, x1, y1], "holes": [ring, ...], "others": [ring, ...]} and
writes a list of figures: how near the holes, once the beam has widened them, come to the openings of the field, to the
sheet's edge, to each other and to registration holes. The field is that of the yardstick of the whole-panel check.
"""
import io
import json
import os
import sys

sys.dont_write_bytecode = True  # of the yardstick, beside which nothing is left
sys.path.insert(0, os.path.join(os.path.dirname(__file__), "..", "..", "sheet", "panel", "testdata"))

from shapely.geometry import Polygon, box
from shapely.ops import unary_union

# The yardstick answers what stands on its input when it is loaded: nothing.
ends = sys.stdin, sys.stdout
sys.stdin, sys.stdout = io.StringIO("[]"), io.StringIO()
from oracle import layout
sys.stdin, sys.stdout = ends


def measure(case):
    draft = case["draft"]
    copies, _, inside, unclear = layout(draft, case["ops"])
    cut = [c.intersection(inside) for c in copies] if draft["field"]["edge"] == "crop" else copies
    field = unary_union(cut)
    holes = [Polygon(h).buffer(case["kerf"] / 2, 64) for h in case["holes"]]
    others = [Polygon(h).buffer(case["kerf"] / 2, 64) for h in case["others"]]
    edge = box(*case["sheet"]).exterior
    pairs = [a.distance(b) for i, a in enumerate(holes) for b in holes[:i] + others]
    return {
        "openings": min([h.distance(field) for h in holes], default=1e9),
        "edge": min([h.distance(edge) for h in holes], default=1e9),
        "apart": min(pairs, default=1e9),
        "outside": sum(not box(*case["sheet"]).contains(h) for h in holes),
        "unclear": unclear,
    }


json.dump([measure(c) for c in json.load(sys.stdin)], sys.stdout)
