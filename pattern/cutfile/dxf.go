package cutfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"openwork/geometry/curve"
)

// dxf writes the job as DXF of release 2000 (AC1015), after the published DXF reference: millimetres, origin at the lower
// left of the sheet's outline, y upward, one closed LWPOLYLINE with bulges for each contour, layers CUT, SCORE and MARK.
// Colours of that release are numbers of a palette; the nearest to each layer's colour is taken.
func dxf(j *Job) []byte {
	w := &dxfWriter{next: 0x100}
	w.pair(999, dxfText(j.Title))
	for _, s := range j.Unsound {
		w.pair(999, dxfText("This sheet does not hold: "+s))
	}
	if len(j.Unsound) == 0 && j.Unchecked {
		w.pair(999, dxfText(notChecked))
	}
	var body dxfWriter
	body.next = w.next
	body.entities(j)
	w.header(j, body.next)
	w.section("CLASSES")
	w.end()
	w.tables(j)
	w.blocks()
	w.section("ENTITIES")
	w.out = append(w.out, body.out...)
	w.end()
	w.objects(j)
	w.pair(0, "EOF")
	return w.out
}

// Handles of what every file holds; those of contours follow from 0x100 on.
const (
	hVport, hLtype, hLayer, hStyle, hView, hUcs, hAppid, hDim, hRecord = 0x8, 0x5, 0x2, 0x3, 0x6, 0x7, 0x9, 0xa, 0x1
	hModel, hPaper                                                     = 0x1f, 0x1b // block records
	hRoot, hGroups, hLayouts, hPlotNames, hPlain                       = 0xc, 0xd, 0x1a, 0xe, 0xf
	hModelLayout, hPaperLayout                                         = 0x22, 0x1e
)

type dxfWriter struct {
	out    []byte
	next   int // handle
	pieces []curve.Piece
}

func (w *dxfWriter) pair(code int, value string) {
	w.out = strconv.AppendInt(w.out, int64(code), 10)
	w.out = append(w.out, '\n')
	w.out = append(w.out, value...)
	w.out = append(w.out, '\n')
}

func (w *dxfWriter) whole(code, v int) { w.pair(code, strconv.Itoa(v)) }

func (w *dxfWriter) handle(code, h int) { w.pair(code, fmt.Sprintf("%X", h)) }

func (w *dxfWriter) real(code int, v float64) {
	w.out = strconv.AppendInt(w.out, int64(code), 10)
	w.out = append(w.out, '\n')
	w.out = strconv.AppendFloat(w.out, v, 'f', 4, 64)
	w.out = append(w.out, '\n')
}

func (w *dxfWriter) point(code int, p ...float64) {
	for i, v := range p {
		w.real(code+10*i, v)
	}
}

func (w *dxfWriter) section(name string) { w.pair(0, "SECTION"); w.pair(2, name) }
func (w *dxfWriter) end()                { w.pair(0, "ENDSEC") }

// class writes the markers that say which part of an object follows.
func (w *dxfWriter) class(names ...string) {
	for _, n := range names {
		w.pair(100, n)
	}
}

// dxfText writes what is not ASCII as this release asks, on one line of at most 250 characters.
func dxfText(s string) string {
	var b strings.Builder
	for _, r := range s {
		if b.Len() > 240 {
			break
		}
		switch {
		case r < ' ':
			b.WriteByte(' ')
		case r < 127:
			b.WriteRune(r)
		case r <= 0xffff:
			fmt.Fprintf(&b, "\\U+%04X", r)
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}

func (w *dxfWriter) header(j *Job, next int) {
	width, height := j.Page.Max[0]-j.Page.Min[0], j.Page.Max[1]-j.Page.Min[1]
	w.section("HEADER")
	name := func(s string) { w.pair(9, s) }
	name("$ACADVER")
	w.pair(1, "AC1015")
	name("$DWGCODEPAGE")
	w.pair(3, "ANSI_1252")
	name("$INSBASE")
	w.point(10, 0, 0, 0)
	name("$EXTMIN")
	w.point(10, 0, 0, 0)
	name("$EXTMAX")
	w.point(10, width, height, 0)
	name("$LIMMIN")
	w.point(10, 0, 0)
	name("$LIMMAX")
	w.point(10, width, height)
	name("$MEASUREMENT")
	w.whole(70, 1)
	name("$INSUNITS")
	w.whole(70, 4)
	name("$LUNITS")
	w.whole(70, 2)
	name("$HANDSEED")
	w.handle(5, next)
	w.end()
}

// table begins a table of n entries.
func (w *dxfWriter) table(name string, h, n int) {
	w.pair(0, "TABLE")
	w.pair(2, name)
	w.handle(5, h)
	w.handle(330, 0)
	w.class("AcDbSymbolTable")
	w.whole(70, n)
}

// entry begins an entry of a table.
func (w *dxfWriter) entry(kind string, h, owner int, class string) {
	w.pair(0, kind)
	code := 5
	if kind == "DIMSTYLE" {
		code = 105
	}
	w.handle(code, h)
	w.handle(330, owner)
	w.class("AcDbSymbolTableRecord", class)
}

func (w *dxfWriter) tables(j *Job) {
	width, height := j.Page.Max[0]-j.Page.Min[0], j.Page.Max[1]-j.Page.Min[1]
	w.section("TABLES")
	end := func() { w.pair(0, "ENDTAB") }
	w.table("VPORT", hVport, 1)
	w.entry("VPORT", 0x30, hVport, "AcDbViewportTableRecord")
	w.pair(2, "*ACTIVE")
	w.whole(70, 0)
	w.point(10, 0, 0)
	w.point(11, 1, 1)
	w.point(12, width/2, height/2)
	w.point(16, 0, 0, 1)
	w.point(17, 0, 0, 0)
	w.real(40, 1.1*height)
	w.real(41, math.Max(width/height, 1e-3))
	end()
	w.table("LTYPE", hLtype, 3)
	for i, name := range []string{"ByBlock", "ByLayer", "Continuous"} {
		w.entry("LTYPE", 0x14+i, hLtype, "AcDbLinetypeTableRecord")
		w.pair(2, name)
		w.whole(70, 0)
		w.pair(3, "")
		w.whole(72, 65)
		w.whole(73, 0)
		w.real(40, 0)
	}
	end()
	w.table("LAYER", hLayer, 4)
	for i, l := range []struct {
		name   string
		colour int
	}{{"0", 7}, {"CUT", palette(j.Colours.Cut)}, {"SCORE", palette(j.Colours.Score)}, {"MARK", palette(j.Colours.Mark)}} {
		w.entry("LAYER", 0x40+i, hLayer, "AcDbLayerTableRecord")
		w.pair(2, l.name)
		w.whole(70, 0)
		w.whole(62, l.colour)
		w.pair(6, "Continuous")
		w.handle(390, hPlain)
	}
	end()
	w.table("STYLE", hStyle, 1)
	w.entry("STYLE", 0x11, hStyle, "AcDbTextStyleTableRecord")
	w.pair(2, "Standard")
	w.whole(70, 0)
	w.real(40, 0)
	w.real(41, 1)
	w.real(50, 0)
	w.whole(71, 0)
	w.real(42, 2.5)
	w.pair(3, "txt")
	w.pair(4, "")
	end()
	w.table("VIEW", hView, 0)
	end()
	w.table("UCS", hUcs, 0)
	end()
	w.table("APPID", hAppid, 1)
	w.entry("APPID", 0x12, hAppid, "AcDbRegAppTableRecord")
	w.pair(2, "ACAD")
	w.whole(70, 0)
	end()
	w.table("DIMSTYLE", hDim, 1)
	w.class("AcDbDimStyleTable")
	w.entry("DIMSTYLE", 0x27, hDim, "AcDbDimStyleTableRecord")
	w.pair(2, "Standard")
	w.whole(70, 0)
	end()
	w.table("BLOCK_RECORD", hRecord, 2)
	w.entry("BLOCK_RECORD", hModel, hRecord, "AcDbBlockTableRecord")
	w.pair(2, "*Model_Space")
	w.handle(340, hModelLayout)
	w.entry("BLOCK_RECORD", hPaper, hRecord, "AcDbBlockTableRecord")
	w.pair(2, "*Paper_Space")
	w.handle(340, hPaperLayout)
	end()
	w.end()
}

// palette returns the number of the palette's colour nearest to #rrggbb. The palette: 1 to 7 red, yellow, green, cyan,
// blue, magenta, white; 10 to 249 twenty-four hues 15° apart, each in five values, full or half as pure; 250 to 255 greys.
func palette(colour string) int {
	want, err := rgb(colour)
	if err != nil {
		return 7
	}
	best, least := 7, math.Inf(1)
	try := func(k int, r, g, b float64) {
		x, y, z := r-float64(want[0]), g-float64(want[1]), b-float64(want[2])
		if d := x*x + y*y + z*z; d < least {
			best, least = k, d
		}
	}
	for k, c := range [][3]float64{{255, 0, 0}, {255, 255, 0}, {0, 255, 0}, {0, 255, 255}, {0, 0, 255}, {255, 0, 255}, {255, 255, 255}} {
		try(k+1, c[0], c[1], c[2])
	}
	try(7, 0, 0, 0) // 7 is drawn black on white
	for k := 10; k < 250; k++ {
		hue := float64(k/10-1) * 15
		value := 255 * [5]float64{1, 0.65, 0.5, 0.3, 0.15}[k%10/2]
		low := 0.0
		if k%2 == 1 {
			low = value / 2
		}
		channel := func(at float64) float64 { // full within 60° of its own hue, none beyond 120°
			d := math.Abs(math.Mod(hue-at+540, 360) - 180)
			return low + (value-low)*math.Max(0, math.Min(1, (120-d)/60))
		}
		try(k, channel(0), channel(120), channel(240))
	}
	for k, v := range []float64{51, 91, 132, 173, 214} {
		try(250+k, v, v, v)
	}
	return best
}
