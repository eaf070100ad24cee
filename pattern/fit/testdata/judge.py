"""How near the copies of fitted drafts come to each other, by GEOS (Debian's python3-shapely).

Reads a JSON list of {"draft": ..., "ops": [[w11, w12, w21, w22, t1, t2], ...]} and writes a list of {"narrowest": mm,
"cover": openings per cell}. The layout is this script's own: each motif against every copy of every motif in the cells
round it, copies that cover the same place counted once. Of the program it takes the draft and the group's operations,
which are compared with GAP elsewhere.
"""
import json
import math
import sys

from shapely import affinity
from shapely.geometry import Polygon
from shapely.ops import unary_union

SAME = 1e-3  # of a silhouette's area: copies that differ by less cover the same place


def copies(draft, ops, i):
    """Every copy of motif i in a ring of cells round the field's origin, motif i itself first."""
    rep = draft["repeat"]
    motif = draft["motifs"][i]
    outline = next(s["outline"] for s in draft["silhouettes"] if s["id"] == motif["silhouette"])
    shape = unary_union([Polygon(p[0], p[1:]) for p in outline])
    if motif.get("mirrored"):
        shape = affinity.affine_transform(shape, [-1, 0, 0, 1, 0, 0])
    k, r = motif.get("scale", 1), math.radians(motif.get("turn", 0))
    shape = affinity.affine_transform(shape, [k * math.cos(r), -k * math.sin(r), k * math.sin(r), k * math.cos(r), *motif["at"]])
    g = math.radians(rep["gamma"])
    ax, bx, by = rep["a"], rep["b"] * math.cos(g), rep["b"] * math.sin(g)
    out = []
    for a, b, c, d, t, u in ops:
        # basis · W · basis⁻¹ and basis · t
        p, q, s, v = ax * a + bx * c, ax * b + bx * d, by * c, by * d
        m = [p / ax, (q - p * bx / ax) / by, s / ax, (v - s * bx / ax) / by, ax * t + bx * u, by * u]
        out.append(affinity.affine_transform(shape, m))
    return shape, out, (ax, bx, by)


def judge(case):
    draft, ops = case["draft"], case["ops"]
    images = [copies(draft, ops, i) for i in range(len(draft["motifs"]))]
    narrowest, area = math.inf, 0.0
    for i, (one, own, (ax, bx, by)) in enumerate(images):
        same = 0
        for j, (_, others, _) in enumerate(images):
            for k, other in enumerate(others):
                x0, y0, x1, y1 = one.bounds
                u0, v0, u1, v1 = other.bounds
                far = min(narrowest, math.hypot(ax, by))
                for n in range(math.ceil((y0 - far - v1) / by), math.floor((y1 + far - v0) / by) + 1):
                    low = math.ceil((x0 - far - u1 - n * bx) / ax)
                    high = math.floor((x1 + far - u0 - n * bx) / ax)
                    for m in range(low, high + 1):
                        if i == j and k == m == n == 0:
                            same += 1
                            continue
                        moved = affinity.translate(other, m * ax + n * bx, n * by)
                        gap = one.distance(moved)
                        if gap == 0 and i == j and one.symmetric_difference(moved).area < SAME * one.area:
                            same += 1
                            continue
                        if gap == 0:
                            gap = -math.sqrt(one.intersection(moved).area)
                        narrowest = min(narrowest, gap)
        area += one.area * len(own) / same
    ax, _, by = images[0][2]
    return {"narrowest": narrowest, "cover": area / (ax * by)}


json.dump([judge(c) for c in json.load(sys.stdin)], sys.stdout)
