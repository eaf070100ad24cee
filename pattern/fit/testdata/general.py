"""What a person would script: a general global optimiser over GEOS distances (Debian's python3-shapely), for comparison.

Differential evolution (R. Storn and K. Price, Journal of Global Optimization 11, 1997, 341) over the cell and the place and
turn of one motif, on the cell's area with a penalty for copies nearer than the bridge, for as many seconds as given. The
best cell is widened at the end until its copies keep the bridge. Reads {"draft", "ops", "system", "seconds", "seed"},
writes {"cover", "asked"}.
"""
import json
import math
import random
import sys
import time

from shapely import affinity
from shapely.geometry import Polygon

question = json.load(sys.stdin)
draft, ops, system = question["draft"], question["ops"], question["system"]
bridge = draft["sheet"]["bridge"]
shape = Polygon(draft["silhouettes"][0]["outline"][0][0])
shape = affinity.translate(shape, -shape.centroid.x, -shape.centroid.y)
area, reach = shape.area, max(math.hypot(x, y) for x, y in shape.exterior.coords)
rng = random.Random(question["seed"])
asked = 0


def cell(v):
    a = v[0]
    if system == "square":
        return a, 0, a
    if system == "hexagonal":
        return a, -a / 2, a * math.sqrt(3) / 2
    if system == "rectangular":
        return a, 0, v[1]
    return a, v[1] * math.cos(v[2]), v[1] * math.sin(v[2])


def lacks(v, size=1.0):
    """How much of the bridge lacks over all pairs, overlaps counted by the root of their area."""
    global asked
    asked += 1
    ax, bx, by = (size * c for c in cell(v))
    x, y = v[3] * ax + v[4] * bx, v[4] * by
    one = affinity.translate(affinity.rotate(shape, v[5], origin=(0, 0), use_radians=True), x, y)
    total = 0.0
    for k, (a, b, c, d, t, u) in enumerate(ops):
        p, q, s, w = ax * a + bx * c, ax * b + bx * d, by * c, by * d
        m = [p / ax, (q - p * bx / ax) / by, s / ax, (w - s * bx / ax) / by, ax * t + bx * u, by * u]
        other = affinity.affine_transform(one, m)
        cx, cy = m[0] * x + m[1] * y + m[4] - x, m[2] * x + m[3] * y + m[5] - y
        far = 2 * reach + bridge
        for n in range(math.ceil((-far - cy) / by), math.floor((far - cy) / by) + 1):
            for i in range(math.ceil((-far - cx - n * bx) / ax), math.floor((far - cx - n * bx) / ax) + 1):
                if k == i == n == 0:
                    continue
                moved = affinity.translate(other, i * ax + n * bx, n * by)
                gap = one.distance(moved)
                if gap < bridge:
                    total += bridge - gap
                    if gap == 0:
                        total += math.sqrt(one.intersection(moved).area)
    return total


def cost(v):
    if v[0] < reach / 2 or system == "oblique" and v[1] * math.sin(v[2]) < reach / 4 or v[1] < reach / 4:
        return math.inf
    ax, _, by = cell(v)
    return ax * by / (area * len(ops)) + 2 * lacks(v) / reach


side = 2.5 * math.sqrt(area * len(ops))
low = [reach * 0.7, reach * 0.7, math.radians(45), 0, 0, 0]
high = [side, side, math.radians(135), 1, 1, 2 * math.pi]
people = [[l + (h - l) * rng.random() for l, h in zip(low, high)] for _ in range(24)]
end = time.monotonic() + question["seconds"]
costs = [cost(p) for p in people]
while time.monotonic() < end:
    for i in range(len(people)):
        if time.monotonic() >= end:
            break
        a, b, c = rng.sample([p for j, p in enumerate(people) if j != i], 3)
        must = rng.randrange(6)
        child = [a[k] + 0.7 * (b[k] - c[k]) if rng.random() < 0.9 or k == must else people[i][k] for k in range(6)]
        new = cost(child)
        if new <= costs[i]:
            people[i], costs[i] = child, new

best = people[min(range(len(people)), key=lambda i: costs[i])]
size = 1.0
while lacks(best, size) > 1e-9 and size < 10:
    size *= 1.002
ax, _, by = cell(best)
print(json.dumps({"cover": area * len(ops) / (ax * by * size * size), "asked": asked}))
