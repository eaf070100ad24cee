package main

import (
	"fmt"
	"os"

	"github.com/paulmach/orb"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"openwork/pattern/letters"
	"openwork/pattern/study/pages"
)

// fontFlag declares -font.
func fontFlag(f flagSet, path *string) {
	f.StringVar(path, "font", "", "a font file (TrueType, OpenType or a collection) for letters of the title that the "+
		"fonts here lack; one letter stands beside the other, which is not enough for scripts that join them")
}

// lettered adds the outlines of those letters of a title that can neither be printed nor are drawn yet, from a font
// file; none where no file is given.
func lettered(drawn *[]letters.Drawn, path, title string) error {
	return letteredFor(drawn, path, pages.Lacks(title, *drawn))
}

// letteredFor adds the outlines of some letters.
func letteredFor(drawn *[]letters.Drawn, path, lacks string) error {
	if path == "" || lacks == "" {
		return nil
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	fonts, err := sfnt.ParseCollection(data)
	if err != nil {
		return fmt.Errorf("%s is no font that can be read: %w", path, err)
	}
	f, err := fonts.Font(0)
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}

	var b sfnt.Buffer
	em := f.UnitsPerEm()
	size := fixed.I(int(em))
	for _, r := range lacks {
		glyph, err := f.GlyphIndex(&b, r)
		if err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
		if glyph == 0 {
			continue // it is told as lacking
		}
		segments, err := f.LoadGlyph(&b, glyph, size, nil)
		if err != nil {
			return fmt.Errorf("%s: %q: %w", path, r, err)
		}
		d := letters.Drawn{Text: string(r), Outline: outlineOf(segments, float64(em))}
		wide, err := f.GlyphAdvance(&b, glyph, size, font.HintingNone)
		if err != nil {
			return fmt.Errorf("%s: %q: %w", path, r, err)
		}
		d.Width = float64(wide) / 64 / float64(em)
		*drawn = append(*drawn, d)
	}
	return letters.CheckDrawn(*drawn)
}

// chords is how many straight lines stand for a curve of a letter.
const chords = 6

// outlineOf returns a glyph's contours in sizes of the letters, y upward, each as a polygon of its own.
func outlineOf(segments sfnt.Segments, em float64) orb.MultiPolygon {
	var out orb.MultiPolygon
	var ring orb.Ring
	end := func() {
		if len(ring) > 2 {
			out = append(out, orb.Polygon{append(ring, ring[0])})
		}
		ring = nil
	}
	for _, s := range segments {
		var p [3]orb.Point
		for k, a := range s.Args {
			p[k] = orb.Point{float64(a.X) / 64 / em, -float64(a.Y) / 64 / em}
		}
		if s.Op == sfnt.SegmentOpMoveTo {
			end()
			ring = orb.Ring{p[0]}
			continue
		}
		if len(ring) == 0 {
			continue
		}
		from := ring[len(ring)-1]
		switch s.Op {
		case sfnt.SegmentOpLineTo:
			ring = append(ring, p[0])
		case sfnt.SegmentOpQuadTo: // as a cubic
			for k := 1; k <= chords; k++ {
				t := float64(k) / chords
				ring = append(ring, mixed(t, [4]orb.Point{from, mid(from, p[0]), mid(p[1], p[0]), p[1]}))
			}
		case sfnt.SegmentOpCubeTo:
			for k := 1; k <= chords; k++ {
				ring = append(ring, mixed(float64(k)/chords, [4]orb.Point{from, p[0], p[1], p[2]}))
			}
		}
	}
	end()
	return out
}

// mid returns the point two thirds of the way from an end of a quadratic curve to its control point, where the cubic
// has its own.
func mid(end, control orb.Point) orb.Point {
	return orb.Point{end[0] + 2*(control[0]-end[0])/3, end[1] + 2*(control[1]-end[1])/3}
}

// mixed returns a point of a cubic curve.
func mixed(t float64, p [4]orb.Point) orb.Point {
	s := 1 - t
	w := [4]float64{s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t}
	var out orb.Point
	for k, q := range p {
		out[0] += w[k] * q[0]
		out[1] += w[k] * q[1]
	}
	return out
}
