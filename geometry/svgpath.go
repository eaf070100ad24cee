package geometry

import (
	"strings"

	"github.com/paulmach/orb"
)

// SVGPath returns an outline as the data of an SVG path, of straight lines alone (SVG 2, section 9.3): each closed ring
// from M to Z, with every point as number writes it.
func SVGPath(mp orb.MultiPolygon, number func(orb.Point) (x, y string)) string {
	var b strings.Builder
	for _, r := range Rings(mp) {
		letter := byte('M')
		for _, p := range r[:len(r)-1] {
			x, y := number(p)
			b.WriteByte(letter)
			b.WriteString(x)
			b.WriteByte(' ')
			b.WriteString(y)
			letter = 'L'
		}
		b.WriteByte('Z')
	}
	return b.String()
}
