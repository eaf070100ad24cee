package main

import (
	"math"
	"strconv"

	"openwork/geometry"
	"openwork/pattern/outline"

	"github.com/paulmach/orb"
)

// traced is what the page shows of a tracing.
type traced struct {
	Pieces string       `json:"pieces"` // the silhouettes' JSON, for the editor
	List   []tracedSize `json:"list"`
	Width  float64      `json:"width"` // of the picture, mm
	Height float64      `json:"height"`
	DPI    float64      `json:"dpi"`
	Source string       `json:"source"`
	Level  float64      `json:"level"`
	Left   []string     `json:"left"`
	// Failed says why there is no piece, "" where there are some
	Failed string `json:"failed"`
	// what was read: left, top, right, bottom in picture px; zeros for an SVG drawing
	Crop    [4]int       `json:"crop"`
	Narrow  []narrow     `json:"narrow"`
	Gaps    []gap        `json:"gaps"`
	Preview previewPaths `json:"preview"`

	look     []byte   // the picture as PNG, when it was asked for
	leftMore []string // what a command line says beside Left
}

// narrow is a narrow place: in mm in the outlines' frame, and px, where its ends are in picture px.
type narrow struct {
	Kind  string        `json:"kind"`
	At    [2]float64    `json:"at"`
	Ends  [2][2]float64 `json:"ends"`
	Width float64       `json:"width"`
	Px    [2][2]float64 `json:"px"`
	Of    [2]int        `json:"of"` // the pieces at its ends
}

// gap is a gap in a line that stayed open: px, where its ends are in picture px, its width, and the least figure to
// type that closes it, both in mm.
type gap struct {
	Px     [2][2]float64 `json:"px"`
	Width  float64       `json:"width"`
	Closes float64       `json:"closes"`
}

type tracedSize struct {
	Width  float64 `json:"width"`
	Height float64 `json:"height"`
	Points int     `json:"points"`
	Area   float64 `json:"area"`
	// Edge: it runs over the edge of what was read, as a table under the paper does.
	Edge bool `json:"edge"`
}

// previewPaths are SVG paths in picture px, y downward, one for each piece.
type previewPaths struct {
	W     int      `json:"w"`
	H     int      `json:"h"`
	Paths []string `json:"paths"`
}

// preview makes the page's view of a tracing.
func preview(r outline.Result, pieces string) *traced {
	out := &traced{Pieces: pieces, List: []tracedSize{}, Width: r.WidthMM, Height: r.HeightMM,
		DPI: r.DPI, Source: r.DPISource, Level: r.Level, Left: append([]string{}, r.Left...), Crop: r.Crop,
		Narrow: []narrow{}, Gaps: []gap{}, leftMore: r.LeftNarrow,
		Preview: previewPaths{W: r.WidthPX, H: r.HeightPX, Paths: []string{}}}
	for _, g := range r.Gaps {
		out.Gaps = append(out.Gaps, gap{[2][2]float64{r.Pixel(g.Ends[0]), r.Pixel(g.Ends[1])}, g.Width,
			math.Floor(g.Width*10+1) / 10})
	}
	at := newNearest(r.Pieces)
	for _, n := range r.Narrow {
		out.Narrow = append(out.Narrow, narrow{n.Kind, n.At, [2][2]float64{n.Ends[0], n.Ends[1]}, n.Width,
			[2][2]float64{r.Pixel(n.Ends[0]), r.Pixel(n.Ends[1])},
			[2]int{at.piece(n.Ends[0]), at.piece(n.Ends[1])}})
	}
	for _, p := range r.Pieces {
		b := p.Outline.Bound()
		out.List = append(out.List, tracedSize{b.Max[0] - b.Min[0], b.Max[1] - b.Min[1],
			geometry.Points(p.Outline), geometry.Area(p.Outline), overEdge(r, p.Outline)})
		out.Preview.Paths = append(out.Preview.Paths, geometry.SVGPath(p.Outline, func(v orb.Point) (x, y string) {
			px := r.Pixel(v)
			return strconv.FormatFloat(px[0], 'f', 2, 64), strconv.FormatFloat(px[1], 'f', 2, 64)
		}))
	}
	return out
}

// overEdge reports whether an outline reaches the edge of what was read of a picture.
func overEdge(r outline.Result, mp orb.MultiPolygon) bool {
	if r.Crop == [4]int{} {
		return false
	}
	for _, p := range mp {
		for _, v := range p[0] {
			px := r.Pixel(v)
			if px[0] < float64(r.Crop[0])+1 || px[1] < float64(r.Crop[1])+1 ||
				px[0] > float64(r.Crop[2])-1 || px[1] > float64(r.Crop[3])-1 {
				return true
			}
		}
	}
	return false
}

// nearest finds the piece at a point of an outline.
type nearest []*geometry.Shape

func newNearest(pieces []outline.Piece) nearest {
	out := nearest{}
	for _, p := range pieces {
		out = append(out, geometry.NewShape(p.Outline))
	}
	return out
}

// piece returns the index of the piece whose outline is nearest to a point, −1 where there is none within a millimetre.
func (n nearest) piece(p orb.Point) int {
	best, at := 1.0, -1
	for i, s := range n {
		if !s.Bound().Pad(best).Contains(p) {
			continue
		}
		if near := s.DistanceTo(p, best); near.D < best {
			best, at = near.D, i
		}
	}
	return at
}
