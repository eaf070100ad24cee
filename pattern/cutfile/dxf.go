package cutfile

import (
	"bytes"
	"fmt"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/geometry/curve"
	"openwork/pattern/cutplan"
)

// FormatDXF is DXF of release 2000.
const FormatDXF Format = "dxf"

// encodeDXF writes a plan as DXF of release 2000 (AC1015), after the published DXF reference: millimetres, origin at
// the lower left of the sheet's outline, y upward, one closed LWPOLYLINE with bulges for each contour, layers CUT,
// SCORE and MARK. Colours of that release are numbers of a palette; the nearest to each layer's colour is taken.
func encodeDXF(p *cutplan.Plan) ([]byte, error) {
	w := &dxfWriter{next: 0x100}
	w.pair(999, dxfText(p.Title))
	for _, s := range append([]string{p.Standing()}, p.FactLines()...) {
		for _, line := range dxfLines(s) {
			w.pair(999, line)
		}
	}
	var body dxfWriter
	body.next = w.next
	body.entities(p)
	w.header(p, body.next)
	w.section("CLASSES")
	w.end()
	w.tables(p)
	w.blocks()
	w.section("ENTITIES")
	w.out = append(w.out, body.out...)
	w.end()
	w.objects(p)
	w.pair(0, "EOF")
	return w.out, nil
}

// entities writes one polyline for each contour, in order.
func (w *dxfWriter) entities(p *cutplan.Plan) {
	o := p.Page.Min
	for i := range p.Contours {
		c := &p.Contours[i]
		var from orb.Point
		from, w.pieces = c.Pieces(w.pieces[:0])
		closed := c.Path.Closed()
		w.pair(0, "LWPOLYLINE")
		w.handle(5, w.next)
		w.next++
		w.handle(330, hModel)
		w.class("AcDbEntity")
		w.pair(8, dxfLayer(p, c.Layer))
		w.class("AcDbPolyline")
		n, flag := len(w.pieces)+1, 0
		if closed {
			n, flag = n-1, 1
		}
		w.whole(90, n)
		w.whole(70, flag)
		w.decimal(43, 0)
		at := from
		for k := range n {
			w.decimal(10, at[0]-o[0])
			w.decimal(20, at[1]-o[1])
			if k == len(w.pieces) {
				break
			}
			if q := w.pieces[k]; q.Kind == curve.Arc {
				w.pair(42, strconv.FormatFloat(q.Bulge, 'f', 9, 64))
			}
			at = w.pieces[k].To
		}
	}
}

// readDXF reads back what encodeDXF writes: the header's units and extents, and the polylines of the entities.
func readDXF(data []byte) (*contents, error) {
	c := &contents{}
	var section, name, kind, layer string
	var points []orb.Point
	var bulges []float64
	closed, count := false, 0
	header := map[string]string{}
	finish := func() error {
		if section != "ENTITIES" || kind == "" {
			return nil
		}
		if kind != "LWPOLYLINE" {
			return fmt.Errorf("there is an entity %s", kind)
		}
		if len(points) < 2 || len(points) != count {
			return fmt.Errorf("a polyline says it has %d points and has %d", count, len(points))
		}
		p := &pen{t: c.layer(layer)}
		p.move(points[0])
		for k := 1; k < len(points); k++ {
			p.arc(bulges[k-1], points[k])
		}
		if closed {
			if b := bulges[len(points)-1]; b != 0 {
				p.arc(b, points[0])
			}
			p.close()
		}
		return nil
	}

	for len(data) > 0 {
		var a, b []byte
		a, data, _ = bytes.Cut(data, []byte("\n"))
		b, data, _ = bytes.Cut(data, []byte("\n"))
		code, err := strconv.Atoi(string(bytes.TrimSpace(a)))
		if err != nil {
			return nil, fmt.Errorf("%q is no group code", a)
		}
		value := string(b)
		if code == 0 {
			if err := finish(); err != nil {
				return nil, err
			}
			kind, layer, points, bulges, closed, count = value, "", points[:0], bulges[:0], false, 0
			if value == "ENDSEC" {
				section, kind = "", ""
			}
			continue
		}
		switch {
		case code == 2 && kind == "SECTION":
			section, kind = value, ""
		case section == "HEADER" && code == 9:
			name = value
		case section == "HEADER":
			header[name+" "+strconv.Itoa(code)] = value
		case section == "ENTITIES":
			var v float64
			if code == 10 || code == 20 || code == 42 {
				if v, err = strconv.ParseFloat(value, 64); err != nil {
					return nil, fmt.Errorf("%q is no number", value)
				}
			}
			switch code {
			case 8:
				layer = value
			case 90:
				count, err = strconv.Atoi(value)
			case 70:
				closed = value == "1"
			case 10:
				points, bulges = append(points, orb.Point{v, 0}), append(bulges, 0)
			case 20, 42:
				if len(points) == 0 {
					return nil, fmt.Errorf("a polyline's first point has no x")
				}
				if code == 20 {
					points[len(points)-1][1] = v
				} else {
					bulges[len(points)-1] = v
				}
			}
			if err != nil {
				return nil, fmt.Errorf("%q is no number", value)
			}
		}
	}

	if header["$ACADVER 1"] != "AC1015" || header["$INSUNITS 70"] != "4" || header["$MEASUREMENT 70"] != "1" {
		return nil, fmt.Errorf("the header does not say release 2000 in millimetres")
	}

	for _, f := range []struct {
		key string
		to  *float64
	}{{"$EXTMAX 10", &c.width}, {"$EXTMAX 20", &c.height}} {
		v, err := strconv.ParseFloat(header[f.key], 64)
		if err != nil {
			return nil, fmt.Errorf("the header's %s is no number", f.key)
		}
		*f.to = v
	}
	return c, nil
}
