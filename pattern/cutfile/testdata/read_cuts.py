"""Reads cut files with ezdxf and works out with GEOS what they should hold.

Standard input is a JSON list of questions: "dxf" (a file's name, or nothing), "outline" (a multipolygon: the sheet),
"openings" (multipolygons), "kerf", "grown" (mm by which the sheet's outline is widened). Standard output is a JSON list
of answers: "errors" of the audit, "cut" (closed polylines on the layer CUT as lists of x, y, bulge), "openings" and
"sheet" (rings: the openings' and the sheet's boundaries with the kerf allowed for). Millimetres throughout.
"""
import json
import sys
import warnings

warnings.filterwarnings("ignore")
import ezdxf
from shapely.geometry import MultiPolygon, Polygon
from shapely.ops import unary_union

SEGMENTS = 64  # of a quarter circle


def shape(coordinates):
    return MultiPolygon([(p[0], p[1:]) for p in coordinates])


def rings(g):
    if g.geom_type == "Polygon":
        return [] if g.is_empty else [list(r.coords) for r in [g.exterior, *g.interiors]]
    return [r for p in getattr(g, "geoms", []) for r in rings(p)]


def dxf(name):
    doc = ezdxf.readfile(name)
    audit = doc.audit()
    out = {"errors": [e.message for e in audit.errors] + [e.message for e in audit.fixes], "cut": []}
    for e in doc.modelspace():
        if e.dxftype() != "LWPOLYLINE":
            out["errors"].append("there is a " + e.dxftype())
        elif e.dxf.layer == "CUT":
            if not e.closed:
                out["errors"].append("a polyline is open")
            out["cut"].append([(x, y, b) for x, y, _, _, b in e.get_points()])
    return out


def answer(q):
    out = dxf(q["dxf"]) if q.get("dxf") else {"errors": [], "cut": []}
    sheet = shape(q["outline"])
    half = q["kerf"] / 2
    inside = sheet.buffer(-1e-6)
    whole, notches = [], []
    for o in q["openings"] or []:
        o = shape(o)
        (whole if inside.contains(o) else notches).append(o)
    if notches:
        sheet = sheet.difference(unary_union(notches))
    if q["grown"]:
        sheet = sheet.buffer(q["grown"], SEGMENTS) if notches or len(q["outline"][0][0]) != 5 else sheet.buffer(
            q["grown"], join_style=2)
    out["sheet"] = rings(sheet)
    out["openings"] = [r for o in whole for r in rings(o.buffer(-half, SEGMENTS) if half else o)]
    return out


json.dump([answer(q) for q in json.load(sys.stdin)], sys.stdout)
