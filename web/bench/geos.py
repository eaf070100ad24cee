"""Puts the two questions of the benchmarks to GEOS, natively, through shapely: one drag step (which of these pairs are nearer
than the bridge, and how near) and the whole panel (which of all copies are, found by an STRtree, and the area of their
union). Geometries are made before the clock starts. The question is a file; answers and times in ms are printed as JSON."""
import json
import sys
import time
import warnings

from shapely.geometry import Polygon, box
from shapely.ops import unary_union
from shapely.strtree import STRtree

warnings.simplefilter("ignore")  # of shapely's older releases, about its newer ones


def shape(rings):
    return Polygon(rings[0], rings[1:])


def timed(times, run):
    out = {"ms": []}
    for _ in range(times):
        begun = time.perf_counter()
        answer = run()
        out["ms"].append((time.perf_counter() - begun) * 1000)
        out.update(answer)
    return out


def drag(question):
    near = 2 * question["half"]
    pairs = [(shape(a), shape(b)) for a, b in question["pairs"]]
    # Outlines come with the motion of a hand: nothing about them is prepared.
    return lambda: {"near": sum(1 for a, b in pairs if a.distance(b) < near)}


def panel(question):
    bridge = question["bridge"]
    shapes = [shape(rings) for rings in question["outlines"]]
    index = {id(one): i for i, one in enumerate(shapes)}

    def found(tree, window):  # an older shapely answers with shapes, a newer one with their indexes
        return [index.get(id(one), one) for one in tree.query(window)]

    def run():
        tree = STRtree(shapes)
        near = 0
        for i, one in enumerate(shapes):
            x0, y0, x1, y1 = one.bounds
            for j in found(tree, box(x0 - bridge, y0 - bridge, x1 + bridge, y1 + bridge)):
                if j > i and one.distance(shapes[j]) < bridge:
                    near += 1
        return {"near": near, "area": unary_union(shapes).area}

    return run


question = json.load(open(sys.argv[1]))
print(json.dumps(timed(int(sys.argv[2]), (panel if "outlines" in question else drag)(question))))
