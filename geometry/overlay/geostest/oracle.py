"""Answers a JSON list of cases on standard input with a JSON list of results, computed by GEOS.

A case has an "op" (union, difference, intersection, buffer), "shapes" (coordinates of multipolygons) and, where the
result of another program is to be judged, "result". Buffers have "distance" and "segs", segments of a quarter circle.
"sliver" is a width in mm: rings thinner than it on the mean are not counted.
"""
import json
import sys

import warnings

warnings.filterwarnings("ignore")
from shapely.geometry import MultiPolygon, Polygon
from shapely.ops import unary_union
from shapely.validation import explain_validity


def shape(coordinates):
    return MultiPolygon([(p[0], p[1:]) for p in coordinates])


def polygons(g):
    if g.geom_type == "Polygon":
        return [] if g.is_empty else [g]
    if g.geom_type in ("MultiPolygon", "GeometryCollection"):
        return [q for p in g.geoms for q in polygons(p)]
    return []


def thick(ring, sliver):
    return Polygon(ring).area > sliver * ring.length / 2


def counts(g, sliver):
    kept = [p for p in polygons(g) if thick(p.exterior, sliver)]
    return len(kept), sum(1 for p in kept for r in p.interiors if thick(r, sliver))


def areal(g):
    """g without the points and lines that GEOS gives where shapes only touch."""
    return MultiPolygon(polygons(g))


def run(case):
    shapes = [shape(s) for s in case["shapes"]]
    for k, s in enumerate(shapes):
        if not s.is_valid:
            return {"input": "shape %d: %s" % (k, explain_validity(s))}
    op = case["op"]
    if op == "union":
        g = unary_union(shapes)
    elif op == "difference":
        g = shapes[0].difference(shapes[1])
    elif op == "intersection":
        g = shapes[0].intersection(shapes[1])
    elif op == "buffer":
        g = shapes[0].buffer(case["distance"], case["segs"])
    else:
        return {"input": "unknown operation " + op}
    sliver = case.get("sliver", 0)
    g = areal(g)
    out = {"area": g.area}
    out["polygons"], out["holes"] = counts(g, sliver)
    if case.get("result") is not None:
        ours = shape(case["result"])
        out["invalid"] = "" if ours.is_valid else explain_validity(ours)
        out["ourArea"] = ours.area
        if ours.is_valid:
            # GEOS itself now and then errs on two outlines that nearly coincide, in one order and not in the other.
            out["difference"] = min(ours.symmetric_difference(g).area, g.symmetric_difference(ours).area)
            out["ourPolygons"], out["ourHoles"] = counts(ours, sliver)
            if case.get("hausdorff"):
                out["hausdorff"] = 0 if ours.is_empty or g.is_empty else ours.boundary.hausdorff_distance(g.boundary)
    return out


def guarded(case):
    try:
        return run(case)
    except Exception as e:
        return {"input": "GEOS gave up: " + str(e)}


json.dump([guarded(c) for c in json.load(sys.stdin)], sys.stdout)
