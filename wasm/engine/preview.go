package main

import (
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
	// what was read: left, top, right, bottom in picture px; zeros for an SVG drawing
	Crop    [4]int       `json:"crop"`
	Narrow  []narrow     `json:"narrow"`
	Preview previewPaths `json:"preview"`

	look []byte // the picture as PNG, when it was asked for
}

// narrow is a narrow place: in mm in the outlines' frame, and px, where its ends are in picture px.
type narrow struct {
	Kind  string        `json:"kind"`
	At    [2]float64    `json:"at"`
	Ends  [2][2]float64 `json:"ends"`
	Width float64       `json:"width"`
	Px    [2][2]float64 `json:"px"`
}

type tracedSize struct {
	Width  float64 `json:"width"`
	Height float64 `json:"height"`
	Points int     `json:"points"`
	Area   float64 `json:"area"`
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
		Narrow:  []narrow{},
		Preview: previewPaths{W: r.WidthPX, H: r.HeightPX, Paths: []string{}}}
	for _, n := range r.Narrow {
		out.Narrow = append(out.Narrow, narrow{n.Kind, n.At, [2][2]float64{n.Ends[0], n.Ends[1]}, n.Width,
			[2][2]float64{r.Pixel(n.Ends[0]), r.Pixel(n.Ends[1])}})
	}
	for _, p := range r.Pieces {
		b := p.Outline.Bound()
		out.List = append(out.List, tracedSize{b.Max[0] - b.Min[0], b.Max[1] - b.Min[1],
			geometry.Points(p.Outline), geometry.Area(p.Outline)})
		out.Preview.Paths = append(out.Preview.Paths, geometry.SVGPath(p.Outline, func(v orb.Point) (x, y string) {
			px := r.Pixel(v)
			return strconv.FormatFloat(px[0], 'f', 2, 64), strconv.FormatFloat(px[1], 'f', 2, 64)
		}))
	}
	return out
}
