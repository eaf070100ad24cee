"""The soundness of drafts by GEOS (Debian's python3-shapely), for comparison with package panel.

Reads a JSON list of {"draft": ..., "ops": [[w11, w12, w21, w22, t1, t2], ...], "rooms": [...]} and writes a JSON list of answers. The
layout, the edge rules, the overlay and the distances here are this script's own and GEOS's; of the program it takes
only the draft and the group's operations, which are compared with GAP elsewhere, and the rooms of subjects, which are
held against GEOS's buffer here: two ways of cutting arcs into chords would else differ in every figure.
"""
import json
import math
import sys
import warnings

from shapely import affinity
from shapely.geometry import MultiPolygon, Polygon, box
from shapely.ops import unary_union
from shapely.prepared import prep
from shapely.strtree import STRtree as GeosTree

warnings.simplefilter("ignore")  # of a change in the tree's answers, which the class below meets

OVERLAP = 0.01  # mm2, the definition's limit
NEAR = 1e-6     # a figure this near its limit is decided by rounding
NOISE = 1e-10   # an area this small is rounding itself


class STRtree:
    """The tree of GEOS with answers as indexes, whichever version of shapely there is."""

    def __init__(self, shapes):
        self.tree = GeosTree(shapes)
        self.index = {id(s): i for i, s in enumerate(shapes)}

    def query(self, shape):
        return sorted(self.index.get(id(a), a) for a in self.tree.query(shape))


def silhouette(outline):
    return unary_union([Polygon(p[0], p[1:]) for p in outline])


def polygons(shape):
    if shape.is_empty:
        return []
    if shape.geom_type == "Polygon":
        return [shape]
    return [g for g in shape.geoms if g.geom_type == "Polygon"]


def compose(m, n):
    a, b, c, d, x, y = m
    e, f, g, h, u, v = n
    return (a * e + b * g, a * f + b * h, c * e + d * g, c * f + d * h, a * u + b * v + x, c * u + d * v + y)


def turn(degrees):
    r = math.radians(degrees)
    return (math.cos(r), -math.sin(r), math.sin(r), math.cos(r), 0, 0)


def apply(shape, m):
    return affinity.affine_transform(shape, [m[0], m[1], m[2], m[3], m[4], m[5]])


def rectangle(tie):
    """The strip of a tie's width round its segment, ending flush."""
    (x, y), (u, v) = tie["from"], tie["to"]
    length = math.hypot(u - x, v - y)
    a, b = -(v - y) / length * tie["width"] / 2, (u - x) / length * tie["width"] / 2
    return Polygon([(x - a, y - b), (u - a, v - b), (u + a, v + b), (x + a, y + b)])


def field_frame(draft, ops):
    """The cell's sides, the operations on field mm, and the map from there to the panel."""
    rep, field = draft["repeat"], draft["field"]
    g = math.radians(rep["gamma"])
    ax, bx, by = rep["a"], rep["b"] * math.cos(g), rep["b"] * math.sin(g)
    basis, inverse = (ax, bx, 0, by, 0, 0), (1 / ax, -bx / (ax * by), 0, 1 / by, 0, 0)
    to_panel = compose((1, 0, 0, 1, field["origin"][0], field["origin"][1]), turn(field["turn"]))
    return ax, bx, by, [compose(compose(basis, op), inverse) for op in ops], to_panel


def field_ties(draft, ops, window):
    """All images of the field's ties that meet a window of the panel, as one shape."""
    ax, bx, by, maps, to_panel = field_frame(draft, ops)
    back = turn(-draft["field"]["turn"])
    out = []
    for tie in draft.get("ties", []):
        if tie["silhouette"] is not None:
            continue
        for op in maps:
            image = apply(rectangle(tie), compose(to_panel, op))
            low_x, low_y, high_x, high_y = image.bounds
            corners = [apply_vector(back, x, y) for x in (window[0] - high_x, window[2] - low_x)
                       for y in (window[1] - high_y, window[3] - low_y)]
            xs, ys = [c[0] for c in corners], [c[1] for c in corners]
            for n in range(math.floor(min(ys) / by), math.ceil(max(ys) / by) + 1):
                for m in range(math.floor((min(xs) - n * bx) / ax), math.ceil((max(xs) - n * bx) / ax) + 1):
                    out.append(affinity.translate(image, *apply_vector(to_panel, m * ax + n * bx, n * by)))
    return unary_union(out)


ROOM = 0.03  # mm by which the lines of two rooms may differ: each is an arc cut into chords


def rooms(draft, given):
    """The rooms to which the pattern gives way, with their edges, and what is wrong with those given."""
    out, wrong = [], ""
    keeping = [s for s in draft.get("subjects", []) if s["edge"] != "behind"]
    for s, outline in zip(keeping, given):
        place = compose((1, 0, 0, 1, s["at"][0], s["at"][1]), turn(s["turn"]))
        k = s["scale"]
        place = compose(place, (-k if s["mirrored"] else k, 0, 0, k, 0, 0))
        mine = apply(silhouette(s["outline"]), place).buffer(s["room"], 90)
        theirs = silhouette(outline)
        if mine.symmetric_difference(theirs).area > ROOM * mine.length:
            wrong = "the room round %s differs" % s["id"]
        out.append((theirs, s["edge"]))
    if len(keeping) != len(given):
        wrong = "%d rooms for %d subjects" % (len(given), len(keeping))
    return out, wrong


def give_way(copies, clear, keep):
    """The copies that the rooms leave, those with edge crop cut by them; and why it is not sure."""
    kept, still, unclear = [], [], ""
    for copy, whole in zip(copies, clear):
        gone = False
        for room, edge in keep:
            if not copy.intersects(room):
                continue
            common = copy.intersection(room).area
            if NOISE < common < NEAR or NOISE < copy.area - common < NEAR:
                unclear = "a copy only just meets a room"
            gone = gone or copy.area - common < NEAR / 2 or edge == "whole"
        if not gone:
            kept.append(copy)
            still.append(whole)
    return kept, still, unclear


def layout(draft, ops):
    """Every copy that the edge rule keeps, whole but for its silhouette's ties, and the field. A copy that coincides with an
    earlier one of its motif gives it its ties."""
    field, panel = draft["field"], draft["panel"]
    ax, bx, by, maps, to_panel = field_frame(draft, ops)
    margin = field["margin"]
    inside = box(margin, margin, panel["width"] - margin, panel["height"] - margin)
    shapes = {s["id"]: silhouette(s["outline"]) for s in draft["silhouettes"]}
    strips = {i: unary_union([rectangle(t) for t in draft.get("ties", []) if t["silhouette"] == i]) for i in shapes}
    found = []  # motif, copy without ties, its ties
    for number, motif in enumerate(draft["motifs"]):
        place = compose((1, 0, 0, 1, motif["at"][0], motif["at"][1]), turn(motif["turn"]))
        s = motif["scale"]
        place = compose(place, (-s if motif["mirrored"] else s, 0, 0, s, 0, 0))
        for op in maps:
            here = compose(to_panel, compose(op, place))
            image, strip = apply(shapes[motif["silhouette"]], here), strips[motif["silhouette"]]
            strip = strip if strip.is_empty else apply(strip, here)
            low_x, low_y, high_x, high_y = image.bounds
            # Cells whose shift brings the image's box to the field: shifts v of the panel turned back to field directions.
            back = turn(-field["turn"])
            corners = [apply_vector(back, x, y) for x in (margin - high_x, panel["width"] - margin - low_x)
                       for y in (margin - high_y, panel["height"] - margin - low_y)]
            least_y, most_y = min(c[1] for c in corners), max(c[1] for c in corners)
            least_x, most_x = min(c[0] for c in corners), max(c[0] for c in corners)
            for n in range(math.floor(least_y / by), math.ceil(most_y / by) + 1):
                for m in range(math.floor((least_x - n * bx) / ax), math.ceil((most_x - n * bx) / ax) + 1):
                    v = apply_vector(to_panel, m * ax + n * bx, n * by)
                    # A little more than what meets the field: of copies that coincide none may be missing.
                    if (high_x + v[0] < margin - 1 or low_x + v[0] > panel["width"] - margin + 1 or
                            high_y + v[1] < margin - 1 or low_y + v[1] > panel["height"] - margin + 1):
                        continue
                    found.append((number, affinity.translate(image, *v), affinity.translate(strip, *v)))
    # Copies that coincide are one.
    bare = [f[1] for f in found]
    areas, middles = [b.area for b in bare], [b.centroid for b in bare]
    tree, distinct, gone = STRtree(bare), [], set()
    for i, (number, c, strip) in enumerate(found):
        if i in gone:
            continue
        for j in tree.query(c):
            if j > i and abs(areas[j] - areas[i]) < 0.05 and middles[j].distance(middles[i]) < 0.05 \
                    and bare[j].hausdorff_distance(c) < 0.02:
                gone.add(j)
                if found[j][0] == number:
                    strip = strip.union(found[j][2])
        distinct.append(c if strip.is_empty else c.difference(strip))
    kept, unclear = [], ""
    clear, limits = [], inside.bounds  # of what is kept, whether it lies clear inside
    for copy in distinct:
        if within(copy.bounds, limits):
            kept.append(copy)
            clear.append(True)
            continue
        common = copy.intersection(inside).area
        if NOISE < common < NEAR or NOISE < copy.area - common < NEAR:
            unclear = "a copy only just meets the field"
        if common < NEAR / 2:
            continue
        if field["edge"] == "whole" and copy.area - common > NEAR / 2:
            continue
        kept.append(copy)
        clear.append(False)
    return kept, clear, inside, unclear


def within(a, b):
    """Whether a box lies within another."""
    return a[0] >= b[0] and a[1] >= b[1] and a[2] <= b[2] and a[3] <= b[3]


def apply_vector(m, x, y):
    return (m[0] * x + m[1] * y, m[2] * x + m[3] * y)


def wider(a, by):
    """A box, wider by so much on every side."""
    return box(a[0] - by, a[1] - by, a[2] + by, a[3] + by)


def check(case):
    draft, ops = case["draft"], case["ops"]
    copies, clear, inside, unclear = layout(draft, ops)
    keep, wrong = rooms(draft, case.get("rooms") or [])
    copies, clear, unsure = give_way(copies, clear, keep)
    unclear = unclear or unsure
    if draft["field"]["edge"] == "crop":
        cut = [c if whole else MultiPolygon(polygons(c.intersection(inside))) for c, whole in zip(copies, clear)]
    else:
        cut = copies
    for room, edge in keep:
        if edge == "crop":
            cut = [MultiPolygon(polygons(c.difference(room))) if c.intersects(room) else c for c in cut]
    if any(t["silhouette"] is None for t in draft.get("ties", [])) and cut:
        bounds = [c.bounds for c in cut if not c.is_empty]
        window = [f(b[k] for b in bounds) for k, f in enumerate((min, min, max, max))]
        ties = field_ties(draft, ops, window)
        cut = [MultiPolygon(polygons(c.difference(ties))) for c in cut]
    tree, overlaps = STRtree(cut), []
    for i, c in enumerate(cut):
        later = [j for j in tree.query(c) if j > i]
        meets = prep(c).intersects if later else None
        for j in later:
            if meets(cut[j]):
                a = c.intersection(cut[j])
                if abs(a.area - OVERLAP) < NEAR:
                    unclear = "an overlap is just at its limit"
                if a.area > OVERLAP:
                    p = a.centroid
                    overlaps.append([p.x, p.y, a.area])
    union = unary_union(cut)
    openings = polygons(union)
    narrowest = None
    if len(openings) > 1:
        tree, reach, bounds = STRtree(openings), 2.0, [o.bounds for o in openings]
        while narrowest is None:
            near = [o.distance(openings[j]) for i, o in enumerate(openings)
                    for j in tree.query(wider(bounds[i], reach)) if j > i]
            near = [d for d in near if d <= reach]
            if near:
                narrowest = min(near)
            reach *= 2
    w = draft["sheet"].get("width") or draft["panel"]["width"]
    h = draft["sheet"].get("height") or draft["panel"]["height"]
    x, y = (draft["panel"]["width"] - w) / 2, (draft["panel"]["height"] - h) / 2
    sheet = box(x, y, x + w, y + h)
    rest, edge = sheet.difference(union), sheet.exterior
    islands = []
    for p in polygons(rest):
        gap = p.distance(edge)
        if 0 < gap < NEAR:
            unclear = "a piece of sheet only just reaches the edge"
        if gap > NEAR / 2:
            islands.append(p.area)
            if p.area < NEAR:
                unclear = "an island is smaller than any grid"
    for o in openings:
        if o.area < NEAR:
            unclear = "an opening is smaller than any grid"
    return {"copies": len(copies), "openings": len(openings), "islands": len(islands), "islandAreas": islands,
            "openArea": union.area, "sheetArea": rest.area, "narrowestBetween": narrowest, "overlaps": overlaps,
            "unclear": unclear, "wrong": wrong}


json.dump([check(c) for c in json.load(sys.stdin)], sys.stdout)
