"""Narrow places by morphology in GEOS (Debian's python3-shapely), for comparison with package residue.

Reads a JSON list of {"shape", "width", "inside", "ours": [{"outline", "stretches", "reach", "width", "at"}]} and writes
a JSON list of {"counts": {...}, "differ": [...]}. Erosion and dilation are GEOS's buffers with round joins. "differ"
lists every disagreement in words; what is within TOLERANCE of a limit is counted as near it instead.
"""
import json
import math
import sys
import warnings

from shapely.geometry import MultiPolygon, Point, Polygon, box
from shapely.ops import linemerge, unary_union

warnings.simplefilter("ignore")

SEGMENTS = 36     # of a quarter circle: an arc of radius r is missed by at most r * 2.4e-4
SLACK = 2e-3      # of r: what the dilation is made larger by, so that no hair is left along the walls
TOLERANCE = 0.02  # of r: a reach this near r, a room or a strip this near its limit may be seen or not
WIDTH = 0.01      # mm
BISECTIONS = 1    # places of one case whose width is looked for by bisection


def polygons(g):
    if g.geom_type == "Polygon":
        return [] if g.is_empty else [g]
    if hasattr(g, "geoms"):
        return [q for p in g.geoms for q in polygons(p)]
    return []


def lines(g):
    if g.geom_type == "MultiLineString":
        g = linemerge(g)
    return [x for x in getattr(g, "geoms", [g]) if not x.is_empty and x.geom_type == "LineString"]


def euler(g):
    """Pieces less holes."""
    return sum(1 - len(p.interiors) for p in polygons(g))


def corners(p, step):
    """The corners of a polygon, and points between them no more than a step apart."""
    out = []
    for ring in [p.exterior, *p.interiors]:
        c = list(ring.coords)
        for (x, y), (u, v) in zip(c, c[1:]):
            n = max(1, math.ceil(math.hypot(u - x, v - y) / step))
            out += [(x + (u - x) * k / n, y + (v - y) * k / n) for k in range(n)]
    return out


def bottleneck(region, piece, stretches, others, r):
    """The width at which the erosion of the region parts the discs on either side of a piece; None if it never does. The
    other pieces of the residue are taken out, so that no way leads round through them."""
    x0, y0, x1, y1 = piece.bounds
    near = region.intersection(box(x0 - 2 * r, y0 - 2 * r, x1 + 2 * r, y1 + 2 * r))
    near = near.difference(unary_union([o for o in others if o is not piece and o.intersects(near)]))
    seeds = polygons(near.buffer(-r, SEGMENTS // 3))
    ends = []
    for s in stretches:
        c = s.interpolate(0.5, normalized=True)
        found = [e for e in seeds if e.distance(c) < r * (1 + 5 * SLACK)]
        if not found:
            return None
        ends.append(min(found, key=lambda e: e.distance(c)).representative_point())

    def parted(q):
        rooms = polygons(near.buffer(-q, SEGMENTS // 3))
        where = {next((k for k, room in enumerate(rooms) if room.distance(e) < 1e-9), None) for e in ends}
        return len(where) == len(ends) or None in where

    if not parted(r):
        return None  # there is a way round outside the piece
    low, high = 0.0, r
    while high - low > WIDTH / 8:
        mid = (low + high) / 2
        if parted(mid):
            high = mid
        else:
            low = mid
    return low + high


def whole(p):
    """A valid polygon: where the discs at the ends overlap, the straight lines in their stead may cross."""
    q = p if p.is_valid else p.buffer(0)
    return p.convex_hull if q.is_empty else q


def divided(residue, outline, r):
    """Whether several pieces lie in one of ours: a disc that nearly touches a third place, or discs that overlap, divide it
    when they are made larger by the slack."""
    x = box(*outline.bounds)
    return sum(1 for p in residue if x.intersects(p) and p.intersection(outline).area > max(0.5 * p.area, 1e-3 * r * r)) > 1


def rooms(region, piece, r):
    """The number of places, as seen near a piece, where the centre of a disc next to it may lie."""
    x0, y0, x1, y1 = piece.bounds
    near = region.intersection(box(x0 - 2 * r, y0 - 2 * r, x1 + 2 * r, y1 + 2 * r))
    return sum(1 for e in polygons(near.buffer(-r, SEGMENTS)) if e.distance(piece) < r * (1 + 3 * SLACK))


def run(case):
    shape = MultiPolygon([(p[0], p[1:]) for p in case["shape"]])
    counts, differ, limit = {}, [], False

    def count(what, n=1):
        counts[what] = counts.get(what, 0) + n

    w = case["width"]
    r = w / 2
    region = shape
    if not case["inside"]:
        x0, y0, x1, y1 = shape.bounds
        region = box(x0 - 3 * w, y0 - 3 * w, x1 + 3 * w, y1 + 3 * w).difference(shape)
    eroded = region.buffer(-r, SEGMENTS)

    # What is cut off or closed by erosion, piece by piece, must add up.
    change = euler(eroded) - euler(region)
    ours = case["ours"]
    told = sum(o["stretches"] - (2 - len(o["outline"])) for o in ours)
    count("cases")
    if change != told:
        # A room or a strip that is only just there, or only just not: more segments may show it, or a hair more or less.
        seen = [euler(region.buffer(-r * f, n)) - euler(region) for f, n in
                ((1, 400), (1 + TOLERANCE / 10, SEGMENTS), (1 - TOLERANCE / 10, SEGMENTS))]
        if told == seen[0] or (min(seen) <= told <= max(seen) and min(seen) < max(seen)):
            count("cuts near a limit")
            limit = True
        else:
            differ.append("erosion changes pieces less holes by %d, ours tell %d" % (change, told))

    opened = eroded.buffer(r * (1 + SLACK), SEGMENTS)
    residue = polygons(region.difference(opened))
    edge = region.boundary.buffer(r * SLACK / 4)
    outlines = [whole(Polygon(o["outline"][0], o["outline"][1:])) for o in ours]
    boxes, areas = [o.bounds for o in outlines], [o.area for o in outlines]
    matched = set()
    bisected = 0
    for piece in residue:
        x0, y0, x1, y1 = piece.bounds
        if math.hypot(x1 - x0, y1 - y0) < r / 2:
            continue  # a crumb reaches no further than it is long
        stretches = [s for s in lines(piece.boundary.difference(edge)) if s.length > r * SLACK]
        # A piece with one stretch is farthest from it at a corner, one with more may be so between corners.
        marks = [Point(c) for c in corners(piece, math.inf if len(stretches) == 1 else r / 20)]
        own = max(min(s.distance(c) for s in stretches) for c in marks) if stretches else math.inf
        if own < r * (1 - TOLERANCE):
            count("crumbs over half as long as counts")
            continue
        # What remains within reach of the piece, which is all its corners can be near to.
        around = opened.intersection(box(x0 - own, y0 - own, x1 + own, y1 + own)) if stretches else opened
        reach = max(around.distance(c) for c in marks) if not around.is_empty else math.inf
        if reach < r * (1 - TOLERANCE):
            count("crumbs over half as long as counts")
            continue
        shared, area = {}, piece.area
        for k, (a, b, c, d) in enumerate(boxes):
            if a <= x1 and b <= y1 and c >= x0 and d >= y0:
                shared[k] = outlines[k].intersection(piece).area
        hits = [k for k, common in shared.items() if common > 0.5 * min(areas[k], area)]
        count("pieces that count" if reach > r else "pieces near the limit")
        if not hits:
            if reach > r * (1 + TOLERANCE):
                differ.append("a piece at %s that reaches %.4f is missing" % (piece.representative_point().wkt, reach))
            continue
        k = max(hits, key=shared.get)
        matched.update(hits)
        o = ours[k]
        kind = min(len(stretches), 2)
        holes = any(len(p) > 1 for p in case["shape"])
        if kind == 1 and o["stretches"] > 1 and (holes or rooms(region, piece, r) > 1):
            # Nothing passes here; but the discs that cannot pass overlap, and what they leave is several pieces. Where
            # there are holes both may be in the same room; then what erosion cuts, above, is what tells.
            count("bridges over which discs overlap")
            continue
        if kind == 2 and o["stretches"] == 1 and (rooms(region, piece, r) == 1 or min(
                a.distance(b) for a in stretches for b in stretches if a is not b) < r / 20):
            count("tips whose disc nearly touches a third place")
            continue
        if kind != min(o["stretches"], 2):
            # Rooms and strips only just there: what a slightly smaller or larger disc sees.
            soft = set()
            for f in (1 - TOLERANCE / 4, 1 + TOLERANCE / 4):
                e = region.buffer(-r * f, SEGMENTS)
                near = piece.buffer(r * 0.1)
                soft.add(min(2, len([x for x in polygons(e.buffer(r * f, SEGMENTS)) if x.intersects(near)])))
            if len(soft) > 1:
                count("kinds near a limit")
            elif divided(residue, outlines[k], r):
                count("pieces that a disc nearly divides")
            else:
                differ.append("%d stretches at %s, ours %d" % (len(stretches), piece.representative_point().wkt, o["stretches"]))
            continue
        count("bridges" if kind == 2 else "tips" if kind == 1 else "whole")
        # Where walls are nearly parallel the place of a disc between them hangs on the last digit: a hundredth of the reach.
        off = kind and not reach - TOLERANCE * (r + reach / 2) <= o["reach"] <= own + TOLERANCE * (r + own / 2)
        if off and divided(residue, outlines[k], r):
            count("pieces that a disc nearly divides")
            continue
        if off:
            differ.append("reaches %.4f to %.4f at %s, ours %.4f" % (reach, own, piece.representative_point().wkt, o["reach"]))
        if kind == 2 and len(o["outline"]) > 1:
            count("bridges round a hole")  # its narrower strip is told; erosion parts the ends where the wider one does
        elif kind == 2 and bisected < BISECTIONS:
            bisected += 1
            found = bottleneck(region, piece, stretches, residue, r) if len(stretches) == 2 else None
            if found is None or (holes and found > o["width"] + WIDTH):
                # Round a hole a way may lead through other bridges, over which discs overlap.
                count("bridges with a way round, or with more than two ends")
            elif abs(found - o["width"]) > WIDTH:
                differ.append("%.4f wide at %s, ours %.4f" % (found, piece.representative_point().wkt, o["width"]))
            else:
                count("widths by bisection")
    for k, o in enumerate(ours):
        if k in matched:
            continue
        if o["stretches"] == 0:
            count("whole pieces not compared")
        elif o["stretches"] > 1 and o["reach"] < r * (1 + TOLERANCE):
            count("bridges shorter than counts in the residue")
        elif o["reach"] < r * (1 + TOLERANCE):
            count("tips near the limit")
        else:
            # Part of what remains lies near across a gap: straight over, the piece does not reach far.
            # Asked of our outline: GEOS's difference has been seen to lose a piece whose outline nearly coincides.
            if max(opened.distance(Point(c)) for c in corners(outlines[k], math.inf)) < r * (1 + TOLERANCE):
                count("bridges near something else across a gap" if o["stretches"] > 1 else "tips near something else across a gap")
            else:
                differ.append("nothing at %s, ours with %d stretches reaches %.4f" % (o["at"], o["stretches"], o["reach"]))
    if limit and differ:
        # A room that is there for one and not for the other is an end more of the pieces beside it.
        count("differences beside a cut near a limit", len(differ))
        differ = []
    return {"counts": counts, "differ": differ}


json.dump([run(c) for c in json.load(sys.stdin)], sys.stdout)
