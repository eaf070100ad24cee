package cutfile

import (
	"fmt"
	"strconv"
	"strings"

	"openwork/geometry/curve"
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

func (w *dxfWriter) decimal(code int, v float64) {
	w.out = strconv.AppendInt(w.out, int64(code), 10)
	w.out = append(w.out, '\n')
	w.out = strconv.AppendFloat(w.out, v, 'f', 4, 64)
	w.out = append(w.out, '\n')
}

func (w *dxfWriter) point(code int, p ...float64) {
	for i, v := range p {
		w.decimal(code+10*i, v)
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
