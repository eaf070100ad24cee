package cutfile

import "openwork/pattern/cutplan"

// blocks writes the two spaces, which hold nothing themselves.
func (w *dxfWriter) blocks() {
	w.section("BLOCKS")
	for i, s := range []struct {
		name   string
		record int
	}{{"*Model_Space", hModel}, {"*Paper_Space", hPaper}} {
		w.pair(0, "BLOCK")
		w.handle(5, 0x50+2*i)
		w.handle(330, s.record)
		w.class("AcDbEntity")
		if s.record == hPaper {
			w.whole(67, 1)
		}
		w.pair(8, "0")
		w.class("AcDbBlockBegin")
		w.pair(2, s.name)
		w.whole(70, 0)
		w.point(10, 0, 0, 0)
		w.pair(3, s.name)
		w.pair(1, "")
		w.pair(0, "ENDBLK")
		w.handle(5, 0x51+2*i)
		w.handle(330, s.record)
		w.class("AcDbEntity")
		if s.record == hPaper {
			w.whole(67, 1)
		}
		w.pair(8, "0")
		w.class("AcDbBlockEnd")
	}
	w.end()
}

// dictionary writes a dictionary of names and handles.
func (w *dxfWriter) dictionary(h, owner int, entries ...any) {
	w.pair(0, "DICTIONARY")
	w.handle(5, h)
	w.handle(330, owner)
	w.class("AcDbDictionary")
	w.whole(281, 1)
	for i := 0; i+1 < len(entries); i += 2 {
		w.pair(3, entries[i].(string))
		w.handle(350, entries[i+1].(int))
	}
}

// objects writes the dictionaries and layouts that readers of this release look for.
func (w *dxfWriter) objects(p *cutplan.Plan) {
	w.section("OBJECTS")
	w.dictionary(hRoot, 0, "ACAD_GROUP", hGroups, "ACAD_LAYOUT", hLayouts, "ACAD_PLOTSTYLENAME", hPlotNames)
	w.dictionary(hGroups, hRoot)
	w.dictionary(hLayouts, hRoot, "Model", hModelLayout, "Layout1", hPaperLayout)
	w.pair(0, "ACDBDICTIONARYWDFLT")
	w.handle(5, hPlotNames)
	w.handle(330, hRoot)
	w.class("AcDbDictionary")
	w.whole(281, 1)
	w.pair(3, "Normal")
	w.handle(350, hPlain)
	w.class("AcDbDictionaryWithDefault")
	w.handle(340, hPlain)
	w.pair(0, "ACDBPLACEHOLDER")
	w.handle(5, hPlain)
	w.handle(330, hPlotNames)
	width, height := p.Page.Max[0]-p.Page.Min[0], p.Page.Max[1]-p.Page.Min[1]
	for i, l := range []struct {
		name           string
		handle, record int
	}{{"Model", hModelLayout, hModel}, {"Layout1", hPaperLayout, hPaper}} {
		w.pair(0, "LAYOUT")
		w.handle(5, l.handle)
		w.handle(330, hLayouts)
		w.class("AcDbPlotSettings")
		w.pair(1, "")
		w.pair(2, "none_device")
		w.pair(4, "")
		w.pair(6, "")
		for code := 40; code <= 49; code++ {
			w.decimal(code, 0)
		}
		for code := 140; code <= 141; code++ {
			w.decimal(code, 0)
		}
		w.decimal(142, 1)
		w.decimal(143, 1)
		flags := 688
		if l.record == hModel {
			flags = 1712
		}
		w.whole(70, flags)
		w.whole(72, 1) // paper in millimetres
		w.whole(73, 0)
		w.whole(74, 5)
		w.pair(7, "")
		w.whole(75, 16)
		w.decimal(147, 1)
		w.point(148, 0)
		w.decimal(149, 0)
		w.class("AcDbLayout")
		w.pair(1, l.name)
		w.whole(70, 1)
		w.whole(71, i)
		w.point(10, 0, 0)
		w.point(11, width, height)
		w.point(12, 0, 0, 0)
		w.point(14, 0, 0, 0)
		w.point(15, width, height, 0)
		w.decimal(146, 0)
		w.point(13, 0, 0, 0)
		w.point(16, 1, 0, 0)
		w.point(17, 0, 1, 0)
		w.whole(76, 0)
		w.handle(330, l.record)
	}
	w.end()
}
