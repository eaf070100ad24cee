//go:build js

package main

import (
	"fmt"
	"strings"

	"openwork/geometry"
	"openwork/pattern/outline"
)

// traced is what the page shows of a tracing.
type traced struct {
	Pieces  string       `json:"pieces"` // the silhouettes' JSON, for the editor
	List    []tracedSize `json:"list"`
	Width   float64      `json:"width"` // of the picture, mm
	Height  float64      `json:"height"`
	DPI     float64      `json:"dpi"`
	Source  string       `json:"source"`
	Level   float64      `json:"level"`
	Left    []string     `json:"left"`
	Preview previewPaths `json:"preview"`
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
func preview(r outline.Result, pieces string) traced {
	perMM := float64(r.HeightPX) / r.HeightMM
	out := traced{Pieces: pieces, List: []tracedSize{}, Width: r.WidthMM, Height: r.HeightMM,
		DPI: r.DPI, Source: r.DPISource, Level: r.Level, Left: append([]string{}, r.Left...),
		Preview: previewPaths{W: r.WidthPX, H: r.HeightPX, Paths: []string{}}}
	for _, p := range r.Pieces {
		b := p.Outline.Bound()
		out.List = append(out.List, tracedSize{b.Max[0] - b.Min[0], b.Max[1] - b.Min[1],
			geometry.Points(p.Outline), geometry.Area(p.Outline)})
		var path strings.Builder
		for _, poly := range p.Outline {
			for _, ring := range poly {
				for i, v := range ring[:len(ring)-1] {
					letter := "L"
					if i == 0 {
						letter = "M"
					}
					fmt.Fprintf(&path, "%s%.2f %.2f", letter, v[0]*perMM, float64(r.HeightPX)-v[1]*perMM)
				}
				path.WriteString("Z")
			}
		}
		out.Preview.Paths = append(out.Preview.Paths, path.String())
	}
	return out
}
