"""Narrow places by erosion in GEOS (Debian's python3-shapely), for comparison with package residue.

Reads a JSON list of {"shape", "width", "inside", "whole", "cuts", "least"} and writes a JSON list of {"cuts", "least",
"text"}: "same", "differ" or, where erosion by a little less and a little more is not the same, "unsure". Erosion parts
a region, or opens a hole of it, once for every cut, and makes whole parts vanish: cuts are the change of pieces less
holes, and the parts that vanish. At the narrowest width that joins, the number of cuts jumps.
"""
import json
import sys
import warnings

from shapely.geometry import MultiPolygon, box

warnings.simplefilter("ignore")

NEAR = 1e-3      # a radius this part less and more must give the same
HAIR = 1e-7      # mm
SPECK = 1e-3
SEGMENTS = 64    # of a quarter circle: an arc of radius r is missed by at most r * 8e-5


def polygons(g):
    if g.geom_type == "Polygon":
        return [] if g.is_empty else [g]
    return [q for p in getattr(g, "geoms", []) for q in polygons(p)]


def euler(g):
    return sum(1 - len(p.interiors) for p in polygons(g))


def parts(region, r):
    """Cuts, and parts of the region that vanish; of each part by itself. None where erosion leaves a speck: GEOS may keep
    one, turned inside out, of a part that is up to a hundredth too narrow."""
    cuts = gone = 0
    for p in polygons(region):
        e = p.buffer(-r, SEGMENTS)
        if e.is_empty:
            gone += 1
            continue
        if any(q.area < SPECK * r * r for q in polygons(e)):
            return None
        # Rings that touch at a point part the region there already, which GEOS counts only once a hair is taken off.
        cuts += euler(e) - euler(p.buffer(-HAIR, 4))
    return cuts, gone


def run(c):
    shape = MultiPolygon([(p[0], p[1:]) for p in c["shape"]])
    out = {"cuts": "unsure", "least": "none", "text": ""}
    if not shape.is_valid:
        return out
    r, region = c["width"] / 2, shape
    if not c["inside"]:
        x0, y0, x1, y1 = shape.bounds
        m = 3 * c["width"]
        region = box(x0 - m, y0 - m, x1 + m, y1 + m).difference(shape)
    seen = [parts(region, r * f) for f in (1 - NEAR, 1, 1 + NEAR)]
    if seen[0] is not None and seen[0] == seen[1] == seen[2]:
        out["cuts"] = "same" if seen[1] == (c["cuts"], c["whole"]) else "differ"
        if out["cuts"] == "differ":
            out["text"] = "GEOS finds %d cuts and %d parts that vanish, ours %d and %d" % (*seen[1], c["cuts"], c["whole"])
    if c["least"] is not None:
        w = c["least"] / 2
        out["least"] = "differ"
        for d in (2 * NEAR, NEAR, NEAR / 2):
            a, b = parts(region, w * (1 - d)), parts(region, w * (1 + d))
            if a is None or b is None:
                out["least"] = "unsure"
            elif b[0] > a[0]:
                out["least"] = "same"
                break
            elif b[1] != a[1]:
                out["least"] = "unsure"
        if out["least"] == "differ" and w < 1e-3:
            out["least"] = "unsure"  # finer than the arcs of neighbouring corners
        if out["least"] == "differ":
            out["text"] += "; no cut at the width %.6f" % c["least"]
    return out


json.dump([run(c) for c in json.load(sys.stdin)], sys.stdout)
