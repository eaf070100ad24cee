package main

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/evenness"
	"openwork/pattern/progress"
	"openwork/pattern/sheet"
)

// evennessInput asks how even a field's gaps are. With a width and a height, in px, the gaps of one cell are painted on
// about so many px; on a command line, with a file, too.
type evennessInput struct {
	drafted
	Width  int `json:"width"`
	Height int `json:"height"`

	path string
}

// evennessFound says how even the gaps are, and where. Places are in panel mm.
type evennessFound struct {
	Narrowest *gapPlace   `json:"narrowest"` // between two copies; null where copies overlap
	Widest    gapPlace    `json:"widest"`    // across the largest free disc
	Middle    [2]float64  `json:"middle"`    // of that disc
	Alley     *bandPlace  `json:"alley"`     // the widest straight corridor; null where there is none
	Stripe    stripePlace `json:"stripe"`
	Raster    *gapsRaster `json:"raster,omitempty"`

	data []byte
	size image.Point
}

// gapPlace is a width in mm from one point to another.
type gapPlace struct {
	Width float64      `json:"width"`
	Ends  [2]orb.Point `json:"ends"`
}

// bandPlace is a straight band over the panel: its width from one end to the other, and its two edges as far as they
// cross the field.
type bandPlace struct {
	Width float64        `json:"width"`
	Ends  [2]orb.Point   `json:"ends"`
	Edges [][2]orb.Point `json:"edges"`
}

// stripePlace is the strongest stripe: its contrast from 0 to 2, and one period of it as a band, from dark to dark.
type stripePlace struct {
	Contrast float64    `json:"contrast"`
	Across   [2]float64 `json:"across"` // its reciprocal vector in 1/mm, in the panel's frame
	Band     bandPlace  `json:"band"`
}

// gapsRaster is how a cell's gaps are painted in the block of bytes: row by row from the foot, each row and column once
// more beyond its ends, 0 in openings and elsewhere 1 + 254 × local thickness ÷ Widest.
type gapsRaster struct {
	Across int     `json:"across"`
	Up     int     `json:"up"`
	Widest float64 `json:"widest"`
}

// maxGapsPixels bounds the px of a raster.
const maxGapsPixels = 1 << 20

func (*evennessInput) usual() *evennessInput { return &evennessInput{} }

func (in *evennessInput) declare(f flagSet) {
	f.StringVar(&in.path, "o", "", "a PNG to write: one cell's gaps in greys, the wider the lighter, openings black")
	f.IntVar(&in.Width, "width", 400, "of the picture, in px; it has about as many as width × height")
	f.IntVar(&in.Height, "height", 400, "of the picture, in px")
}

func (in *evennessInput) take(path string) error {
	if in.path == "" {
		in.Width, in.Height = 0, 0
	}
	return in.drafted.take(path)
}

// run measures how even the gaps are, and paints them.
func (in *evennessInput) run(progress.Func) (*evennessFound, error) {
	if w, h := in.Width, in.Height; min(w, h) < 0 || max(w, h) > maxGapsPixels || w*h > maxGapsPixels {
		return nil, fmt.Errorf("gaps cannot be painted on %d × %d px; give at most %d together", w, h, maxGapsPixels)
	}
	l, err := in.layout()
	if err != nil {
		return nil, err
	}
	if l.InCell() == 0 {
		return nil, errors.New("there are no gaps to measure before a silhouette is placed in the cell")
	}

	out := &evennessFound{}
	live := sheet.Check(l, nil)
	toPanel := in.draft.FieldMap()
	if near := live.Narrowest; near.Found && len(live.Overlaps) == 0 {
		v := toMiddle(l, geometry.Midpoint(near.P, near.Q))
		ends := [2]orb.Point{toPanel.Apply(geometry.Add(near.P, v)), toPanel.Apply(geometry.Add(near.Q, v))}
		out.Narrowest = &gapPlace{near.D, ends}
	}
	even := evenness.Of(l, live.Narrowest.D)
	out.Middle = toPanel.Apply(geometry.Add(even.At, toMiddle(l, even.At)))
	out.Widest = gapPlace{even.Widest, across(out.Middle, toPanel.Vector(orb.Point{1, 0}), even.Widest)}
	if even.Alley != nil {
		band := bandOf(l, even.Street)
		out.Alley = &band
	}
	out.Stripe = stripeOf(l)
	if in.Width > 0 && in.Height > 0 {
		out.paint(l, in.Width*in.Height, even.Widest)
	}
	return out, nil
}

// middleOf returns the middle of the panel in field mm.
func middleOf(d draft.Draft) orb.Point { return d.FieldMap().Rigid().Apply(d.PanelBound().Center()) }

// toMiddle returns the lattice vector that brings a field point nearest to the middle of the panel.
func toMiddle(l *pattern.Layout, p orb.Point) orb.Point {
	return l.NearestLattice(geometry.Sub(middleOf(l.Draft), p))
}

// paint adds the raster, where there is anything to paint.
func (e *evennessFound) paint(l *pattern.Layout, pixels int, widest float64) {
	r, ok := evenness.Thickness(l, pixels)
	if !ok || widest <= 0 {
		return
	}
	e.Raster = &gapsRaster{r.Across, r.Up, widest}
	e.size = image.Pt(r.Across+2, r.Up+2)
	e.data = make([]byte, 0, e.size.X*e.size.Y)
	for y := -1; y <= r.Up; y++ {
		for x := -1; x <= r.Across; x++ {
			e.data = append(e.data, shade(beside(r, x, y)/widest))
		}
	}
}

// shade is a part of the widest as a byte, 0 for none.
func shade(part float64) byte {
	if part <= 0 {
		return 0
	}
	return byte(1 + math.Round(254*min(part, 1)))
}

// beside returns the local thickness at a px, and in an opening that of the sheet next to it: an opening is drawn with
// its exact edge, under which the sheet must reach.
func beside(r *evenness.Raster, x, y int) float64 {
	widest := r.At(x, y)
	const reach = 2
	for v := -reach; widest == 0 && v <= reach; v++ {
		for u := -reach; u <= reach; u++ {
			widest = max(widest, r.At(x+u, y+v))
		}
	}
	return widest
}

// across returns the ends of a width round its middle, along a direction of length one.
func across(middle, way orb.Point, width float64) [2]orb.Point {
	half := geometry.Times(way, width/2)
	return [2]orb.Point{geometry.Sub(middle, half), geometry.Add(middle, half)}
}

// bandOf returns a corridor of the field where it lies nearest to the middle of the panel.
func bandOf(l *pattern.Layout, s evenness.Street) bandPlace {
	d := l.Draft
	toPanel := d.FieldMap()
	middle := middleOf(d)
	rows := rowsAcross(l, s.Normal)
	centre := (s.From + s.To) / 2
	centre += rows * math.Round((geometry.Dot(middle, s.Normal)-centre)/rows)

	// The point of its middle line that is nearest to the panel's.
	at := geometry.Add(middle, geometry.Times(s.Normal, centre-geometry.Dot(middle, s.Normal)))
	width := s.To - s.From
	out := bandPlace{width, across(toPanel.Apply(at), toPanel.Vector(s.Normal), width), [][2]orb.Point{}}
	along := toPanel.Vector(orb.Point{-s.Normal[1], s.Normal[0]})
	for _, p := range out.Ends {
		if edge, ok := clipLine(p, along, d.FieldBound()); ok {
			out.Edges = append(out.Edges, edge)
		}
	}
	return out
}

// rowsAcross returns how far apart the rows of the lattice are across a normal, across which it has rows.
func rowsAcross(l *pattern.Layout, normal orb.Point) float64 {
	rows := math.Hypot(l.A[0], l.A[1]) + math.Hypot(l.B[0], l.B[1])
	slack := 1e-6 * rows
	const reach = 9 // a direction has numbers up to 8, and then so have the steps from row to row
	for m := -reach; m <= reach; m++ {
		for n := -reach; n <= reach; n++ {
			if d := math.Abs(geometry.Dot(l.Lattice(m, n), normal)); d > slack && d < rows {
				rows = d
			}
		}
	}
	return rows
}

// stripeOf returns the strongest stripe, one period of it from where the openings lie densest to the same again.
func stripeOf(l *pattern.Layout) stripePlace {
	contrast, g := evenness.Stripe(l)
	out := stripePlace{Contrast: contrast, Across: l.Draft.FieldMap().Vector(g)}
	length := math.Hypot(g[0], g[1])
	if length == 0 {
		out.Band.Edges = [][2]orb.Point{}
		return out
	}
	period := 1 / length
	from := period * evenness.Crest(l, g)
	out.Band = bandOf(l, evenness.Street{Normal: geometry.Times(g, period), From: from, To: from + period})
	return out
}

// clipLine returns the part of a line within a rectangle.
func clipLine(p, along orb.Point, within orb.Bound) (out [2]orb.Point, ok bool) {
	from, to := math.Inf(-1), math.Inf(1)
	for i, d := range along {
		low, high := within.Min[i]-p[i], within.Max[i]-p[i]
		if math.Abs(d) < 1e-12 {
			if low > 0 || high < 0 {
				return out, false
			}
			continue
		}
		from, to = max(from, min(low/d, high/d)), min(to, max(low/d, high/d))
	}
	end := func(t float64) orb.Point { return geometry.Add(p, geometry.Times(along, t)) }
	return [2]orb.Point{end(from), end(to)}, from < to
}

func (e *evennessFound) block() []byte { return e.data }

// files writes the picture, turned so that the foot is below.
func (e *evennessFound) files(in *evennessInput) []outFile {
	if in.path == "" || e.Raster == nil {
		return nil
	}
	img := image.NewGray(image.Rect(0, 0, e.Raster.Across, e.Raster.Up))
	for y := range e.Raster.Up {
		row := e.data[(e.Raster.Up-y)*e.size.X+1:]
		copy(img.Pix[y*img.Stride:][:e.Raster.Across], row)
	}
	var b bytes.Buffer
	if png.Encode(&b, img) != nil {
		return nil
	}
	return []outFile{{in.path, b.Bytes()}}
}
