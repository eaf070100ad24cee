"""How subjects read before openings, by GEOS (Debian's python3-shapely), for comparison with package subject.

Reads a JSON list of {"subjects": [outline, ...], "openings": [outline, ...], "box": [x0, y0, x1, y1]} in panel mm and
writes for each subject the length of its edge on the panel that no other hides, how much of it has a visible opening within 2 mm, and the
lengths of the stretches longer than 10 mm that have one opening's visible edge within 2 mm.
"""
import json
import sys

from shapely.geometry import MultiLineString, Polygon, box
from shapely.ops import linemerge, unary_union

WITHIN, FROM, ROUND = 2.0, 10.0, 32


def shape(outline):
    return unary_union([Polygon(p[0], p[1:]) for p in outline])


def lines(g):
    if g.is_empty:
        return []
    parts = g.geoms if hasattr(g, "geoms") else [g]
    return [p for p in parts if p.geom_type == "LineString"]


def figure(case):
    panel = box(*case["box"])
    subjects = [shape(s) for s in case["subjects"]]
    hides = unary_union(subjects)
    openings = [shape(o) for o in case["openings"]]
    out = []
    for k, s in enumerate(subjects):
        others = [t for i, t in enumerate(subjects) if i != k]
        edge = s.boundary.intersection(panel).difference(unary_union(others))
        close = s.buffer(3 * WITHIN)
        seen = unary_union([o.difference(hides) for o in openings if o.intersects(close)])
        along = edge.intersection(seen.buffer(WITHIN, ROUND)).length
        tangents = []
        for o in openings:
            if o.distance(s.boundary) > WITHIN:
                continue
            visible = o.boundary.difference(hides)
            # GEOS leaves the subject's own edge out of the difference; what remains is the opening's.
            near = edge.intersection(visible.buffer(WITHIN, ROUND))
            parts = lines(near)
            merged = linemerge(MultiLineString(parts)) if len(parts) > 1 else near
            tangents += [p.length for p in lines(merged) if p.length > FROM]
        out.append({"edge": edge.length, "along": along, "tangents": sorted(tangents, reverse=True)})
    return out


json.dump([figure(c) for c in json.load(sys.stdin)], sys.stdout)
