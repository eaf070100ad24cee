package cutfile

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf16"

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

// maxDXFLine is how many characters a line of text has at most here; readers of this release take 255.
const maxDXFLine = 240

// dxfText writes what is not ASCII as this release asks, on one line, cut off where it is too long.
func dxfText(s string) string { return append(dxfLines(s), "")[0] }

// dxfLines writes what is not ASCII as this release asks, on as many lines as it takes.
func dxfLines(s string) []string {
	var out []string
	var b strings.Builder
	for _, r := range s {
		letter := string(r)
		switch {
		case r < ' ':
			letter = " "
		case r < 127:
		case r <= 0xffff:
			letter = fmt.Sprintf("\\U+%04X", r)
		default:
			high, low := utf16.EncodeRune(r)
			letter = fmt.Sprintf("\\U+%04X\\U+%04X", high, low)
		}
		if b.Len()+len(letter) > maxDXFLine {
			out = append(out, b.String())
			b.Reset()
		}
		b.WriteString(letter)
	}
	if b.Len() > 0 {
		out = append(out, b.String())
	}
	return out
}
