package cutfile

import (
	"math"
	"strings"

	"openwork/pattern/cutplan"
)

// Handles of what every file holds; those of contours follow from 0x100 on.
const (
	hVport, hLtype, hLayer, hStyle, hView, hUcs, hAppid, hDim, hRecord = 0x8, 0x5, 0x2, 0x3, 0x6, 0x7, 0x9, 0xa, 0x1
	hModel, hPaper                                                     = 0x1f, 0x1b // block records
	hRoot, hGroups, hLayouts, hPlotNames, hPlain                       = 0xc, 0xd, 0x1a, 0xe, 0xf
	hModelLayout, hPaperLayout                                         = 0x22, 0x1e
)

func (w *dxfWriter) header(p *cutplan.Plan, next int) {
	width, height := p.Page.Max[0]-p.Page.Min[0], p.Page.Max[1]-p.Page.Min[1]
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

func (w *dxfWriter) tables(p *cutplan.Plan) {
	width, height := p.Page.Max[0]-p.Page.Min[0], p.Page.Max[1]-p.Page.Min[1]
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
	w.decimal(40, 1.1*height)
	w.decimal(41, math.Max(width/height, 1e-3))
	end()
	w.table("LTYPE", hLtype, 3)
	for i, name := range []string{"ByBlock", "ByLayer", "Continuous"} {
		w.entry("LTYPE", 0x14+i, hLtype, "AcDbLinetypeTableRecord")
		w.pair(2, name)
		w.whole(70, 0)
		w.pair(3, "")
		w.whole(72, 65)
		w.whole(73, 0)
		w.decimal(40, 0)
	}

	end()
	w.table("LAYER", hLayer, 4)

	const asUsual = -3
	rows := []struct {
		name          string
		colour, width int
	}{{"0", 7, asUsual}}
	for _, l := range []cutplan.Layer{cutplan.Cut, cutplan.Score, cutplan.Mark} {
		line := p.Lines.Of(l)
		rows = append(rows, struct {
			name          string
			colour, width int
		}{dxfLayer(p, l), palette(line.Colour), lineWeight(line.Width)})
	}
	for i, l := range rows {
		w.entry("LAYER", 0x40+i, hLayer, "AcDbLayerTableRecord")
		w.pair(2, l.name)
		w.whole(70, 0)
		w.whole(62, l.colour)
		w.pair(6, "Continuous")
		w.whole(370, l.width)
		w.handle(390, hPlain)
	}

	end()
	w.table("STYLE", hStyle, 1)
	w.entry("STYLE", 0x11, hStyle, "AcDbTextStyleTableRecord")
	w.pair(2, "Standard")
	w.whole(70, 0)
	w.decimal(40, 0)
	w.decimal(41, 1)
	w.decimal(50, 0)
	w.whole(71, 0)
	w.decimal(42, 2.5)
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

// dxfLayer returns what a layer is called in a file: the usual names are in capitals.
func dxfLayer(p *cutplan.Plan, l cutplan.Layer) string {
	if name := p.Lines.Of(l).Name; name != string(l) {
		return dxfText(name)
	}
	return strings.ToUpper(string(l))
}

// lineWeights are the widths that the release has, in hundredths of a mm.
var lineWeights = []int{0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200,
	211}

// lineWeight returns the one nearest to a width in mm.
func lineWeight(mm float64) int {
	best := lineWeights[0]
	for _, w := range lineWeights {
		if math.Abs(100*mm-float64(w)) < math.Abs(100*mm-float64(best)) {
			best = w
		}
	}
	return best
}

// palette returns the number of the palette's colour nearest to #rrggbb. The palette: 1 to 7 red, yellow, green, cyan,
// blue, magenta, white; 10 to 249 twenty-four hues 15° apart, each in five values, full or half as pure; 250 to 255
// greys.
func palette(colour string) int {
	want, err := cutplan.RGB(colour)
	if err != nil {
		return 7
	}
	best, nearest := 7, math.Inf(1)
	try := func(k int, r, g, b float64) {
		x, y, z := r-float64(want[0]), g-float64(want[1]), b-float64(want[2])
		if d := x*x + y*y + z*z; d < nearest {
			best, nearest = k, d
		}
	}
	for k, c := range [][3]float64{{255, 0, 0}, {255, 255, 0}, {0, 255, 0}, {0, 255, 255}, {0, 0, 255}, {255, 0, 255},
		{255, 255, 255}} {
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
