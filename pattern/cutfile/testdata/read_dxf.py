"""Reads DXF files with ezdxf and prints what is in them as JSON: one object for each file named.

Lengths in mm. Areas are signed, counter-clockwise positive, with the parts between arcs and their chords.
"""

import json
import math
import sys

import ezdxf
from ezdxf import path


def arc(p, q, bulge):
    """Area about the origin and length of one segment of a polyline."""
    chord = math.dist(p[:2], q[:2])
    area = (p[0] * q[1] - p[1] * q[0]) / 2
    if bulge == 0 or chord == 0:
        return area, chord
    angle = 4 * math.atan(bulge)
    radius = chord / 2 / math.sin(angle / 2)
    return area + radius * radius * (angle - math.sin(angle)) / 2, abs(radius * angle)


def read(name, closely):
    doc = ezdxf.readfile(name)
    audit = doc.audit()
    out = {
        "errors": [e.message for e in audit.errors] + [e.message for e in audit.fixes],
        "version": doc.dxfversion,
        "units": doc.header["$INSUNITS"],
        "metric": doc.header["$MEASUREMENT"],
        "extents": list(doc.header["$EXTMIN"][:2]) + list(doc.header["$EXTMAX"][:2]),
        "colours": {l.dxf.name: l.dxf.color for l in doc.layers},
        "layers": {},
        "others": 0,
    }
    for e in doc.modelspace():
        if e.dxftype() != "LWPOLYLINE":
            out["others"] += 1
            continue
        layer = out["layers"].setdefault(
            e.dxf.layer, {"contours": 0, "open": 0, "area": 0.0, "length": 0.0, "flatArea": 0.0, "box": None})
        layer["contours"] += 1
        layer["open"] += not e.closed
        points = [(x, y, b) for x, y, _, _, b in e.get_points()]
        ends = points[1:] + (points[:1] if e.closed else [])
        for p, q in zip(points, ends):
            a, l = arc(p, q, p[2])
            layer["area"] += a if e.closed else 0
            layer["length"] += l
        if not closely:
            continue
        flat = list(path.make_path(e).flattening(0.0005, segments=4))
        for p, q in zip(flat, flat[1:]):
            layer["flatArea"] += (p.x * q.y - p.y * q.x) / 2 if e.closed else 0
        b = layer["box"] or [math.inf, math.inf, -math.inf, -math.inf]
        layer["box"] = [min(b[0], *(p.x for p in flat)), min(b[1], *(p.y for p in flat)),
                        max(b[2], *(p.x for p in flat)), max(b[3], *(p.y for p in flat))]
    return out


print(json.dumps([read(name, k % 16 == 1) for k, name in enumerate(sys.argv[1:])]))
