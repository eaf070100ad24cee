"""Holds the DXF files of nested parts, n-*.dxf, against those of the parts, p-*.dxf, in a folder; the stock's size is the
second argument: 1000x630.

Files are read with ezdxf (Debian's python3-ezdxf), places judged with GEOS (python3-shapely). A part is known, however it
is turned, by the lengths of its lines, what they enclose, and how far their middles lie from its outline's. Writes how
many parts there are and lie on the stock, how many lines they have, how many lie there that are no part, and the least
distances from each other and from the stock's sides.
"""
import glob
import json
import sys

import ezdxf
from shapely.geometry import LineString, Polygon, box
from shapely.prepared import prep


def read(path):
    """Returns for each part in a file its outline and what it is known by."""
    lines = []
    for e in ezdxf.readfile(path).modelspace():
        points = [(p[0], p[1]) for p in e.get_points()]
        closed = e.closed and len(points) > 2
        shape = Polygon(points) if closed else LineString(points + points[:1] * e.closed)
        lines.append((e.dxf.layer, shape))
    outlines = []
    for s in sorted((s for layer, s in lines if layer == "CUT"), key=lambda s: -s.area):
        if not any(o.contains(s) for o in outlines):
            outlines.append(s)
    parts = []
    for outline in outlines:
        grown = prep(outline.buffer(1e-6))
        inside = [(layer, s) for layer, s in lines if grown.contains(s)]
        middle = outline.centroid
        known_by = sorted((layer, round(s.length, 1), s.length, s.area, s.centroid.distance(middle)) for layer, s in inside)
        parts.append((outline, known_by))
    return parts, len(lines)


def same(a, b):
    """Each line of one has its own of the other, within a file's rounding."""
    left = list(b)
    for layer, _, *figures in a:
        for k, (other, _, *others) in enumerate(left):
            if layer == other and all(abs(x - y) < 0.02 + 1e-4 * abs(x) for x, y in zip(figures, others)):
                del left[k]
                break
        else:
            return False
    return not left


folder, stock = sys.argv[1], [float(v) for v in sys.argv[2].split("x")]
parts = [p for f in sorted(glob.glob(folder + "/p-*.dxf")) for p in read(f)[0]]
known = [k for _, k in parts]
pieces, contours, unknown, apart, edge = 0, 0, 0, 1e9, 1e9
for f in glob.glob(folder + "/n-*.dxf"):
    laid, lines = read(f)
    contours += lines
    unknown += lines - sum(len(k) for _, k in laid)
    for i, (outline, lies) in enumerate(laid):
        pieces += 1
        at = next((k for k, part in enumerate(known) if same(lies, part)), None)
        if at is None:
            unknown += 1
        else:
            del known[at]
        edge = min(edge, outline.distance(box(0, 0, *stock).exterior) if box(0, 0, *stock).contains(outline) else -1)
        apart = min([apart] + [outline.distance(o) for o, _ in laid[:i]])
json.dump({"pieces": pieces, "parts": len(parts), "contours": contours, "unknown": unknown, "apart": apart,
           "edge": edge}, sys.stdout)
