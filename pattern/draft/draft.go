// Package draft is the open document and its file: the types, the schema that says all there is to say of each member
// once (members.go), and the reader, the writer and the validator, which go by it.
//
// A draft holds choices only: silhouettes, where motifs stand in one cell, the repeat, the panel and the sheet. Copies
// are derived by layout and never stored. Lengths are millimetres with y upward, angles degrees counter-clockwise.
// Drafts are plain values: a command makes a new one, and outlines are shared between them, never changed in place.
package draft

import (
	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/symmetry"
)

// Version is the number under the key "openwork" in a draft's file.
const Version = 1

// Draft is the open document, in the shape of its file.
type Draft struct {
	Openwork    int          `json:"openwork"`
	Title       string       `json:"title"`
	Units       string       `json:"units"`
	Panel       Panel        `json:"panel"`
	Field       Field        `json:"field"`
	Repeat      Repeat       `json:"repeat"`
	Silhouettes []Silhouette `json:"silhouettes"`
	Motifs      []Motif      `json:"motifs"`
	Ties        []Tie        `json:"ties,omitempty"`
	Sheet       Sheet        `json:"sheet"`
	Swatches    []Swatch     `json:"swatches,omitempty"`
	Paint       *Paint       `json:"paint,omitempty"` // nil: none
	Subjects    []Subject    `json:"subjects,omitempty"`

	Trail any `json:"-"` // what package pattern keeps of how the draft came to its plane group; never in a file
}

// Panel is what is painted on, lower left corner at (0, 0), in mm.
type Panel struct {
	Width  float64 `json:"width"`
	Height float64 `json:"height"`
}

// Field is the part of the panel that holds openings: the panel less Margin on every side. A field point q lies on the
// panel at Origin + R(Turn)·q.
type Field struct {
	Margin float64    `json:"margin"`
	Origin [2]float64 `json:"origin"`
	Turn   float64    `json:"turn"`
	Edge   Edge       `json:"edge"`
}

// Edge says what becomes of copies at the field's edge.
type Edge string

// The edge rules of the field. A subject's are crop and whole too, and Behind.
const (
	Crop     Edge = "crop"     // openings stop at the margin
	Whole    Edge = "whole"    // only copies that lie wholly inside the margin
	Touching Edge = "touching" // every copy that touches the field is kept whole
)

// Repeat is the plane group and its cell.
type Repeat struct {
	Group string  `json:"group"`
	A     float64 `json:"a"`
	B     float64 `json:"b"`
	Gamma float64 `json:"gamma"`
}

// Cell returns the repeat's cell.
func (r Repeat) Cell() symmetry.Cell { return symmetry.Cell{A: r.A, B: r.B, Gamma: r.Gamma} }

// Silhouette is one closed shape, drawn once, in its own frame.
type Silhouette struct {
	ID      string           `json:"id"`
	Name    string           `json:"name"`
	Outline orb.MultiPolygon `json:"outline"`
}

// Motif is a silhouette placed in the repeat: it carries the silhouette's point p to At + R(Turn)·Scale·M(p), where M
// mirrors x when Mirrored.
type Motif struct {
	ID         string     `json:"id"`
	Silhouette string     `json:"silhouette"`
	At         [2]float64 `json:"at"`
	Turn       float64    `json:"turn"`
	Scale      float64    `json:"scale"`
	Mirrored   bool       `json:"mirrored"`
}

// Map returns the motif as a map from the silhouette's frame to field coordinates.
func (m Motif) Map() geometry.Map {
	f := geometry.TurnDegrees(m.Turn).After(geometry.Scale(m.Scale))
	if m.Mirrored {
		f = f.After(geometry.MirrorX)
	}
	return f.Moved(m.At[0], m.At[1])
}

// Sheet is the stock and what it asks for, in mm. Width and Height are those of the sheet, centred on the panel; zero
// means the panel's own.
type Sheet struct {
	Stock     string  `json:"stock"`
	Thickness float64 `json:"thickness"`
	Kerf      float64 `json:"kerf"`
	Bridge    float64 `json:"bridge"`
	Opening   float64 `json:"opening"`
	Width     float64 `json:"width,omitempty"`
	Height    float64 `json:"height,omitempty"`
	Bed       *Bed    `json:"bed,omitempty"`
	Cut       How     `json:"cut,omitempty"` // empty: by laser
}

// How says how a sheet is cut.
type How string

// The ways of cutting.
const (
	Laser    How = "laser"
	Knife    How = "knife"    // a drag knife or a plotter: it takes no material away
	Waterjet How = "waterjet" // with abrasive
)

// How returns how the sheet is cut.
func (s Sheet) How() How {
	if s.Cut == "" {
		return Laser
	}
	return s.Cut
}

// KerfTaken returns the width in mm that cutting takes away: the kerf, and nothing where a knife cuts.
func (s Sheet) KerfTaken() float64 {
	if s.How() == Knife {
		return 0
	}
	return s.Kerf
}

// Bed is the largest sheet the shop's machine takes, in mm, either way round; nil means not said.
type Bed struct {
	Width  float64 `json:"width"`
	Height float64 `json:"height"`
}

// Default returns an empty draft with the defaults of the schema.
func Default() Draft {
	d := Draft{Openwork: Version}
	Schema.fill(&d)
	d.Field.Origin = d.panelCentre()
	return d
}

// fill gives an object's members their defaults, and those of the objects it always has.
func (o *Object) fill(owner any) {
	for _, m := range o.Members {
		switch v := m.Default.(type) {
		case float64:
			*m.at(owner).(*float64) = v
		case string:
			*m.at(owner).(*string) = v
		case bool:
			*m.at(owner).(*bool) = v
		}
		if m.Type == Record && !m.Optional {
			m.Of.fill(m.at(owner))
		}
	}
}

// Silhouette returns the silhouette with the given id.
func (d Draft) Silhouette(id string) (Silhouette, bool) {
	for _, s := range d.Silhouettes {
		if s.ID == id {
			return s, true
		}
	}
	return Silhouette{}, false
}

// Motif returns the index of the motif with the given id, −1 when there is none.
func (d Draft) Motif(id string) int {
	for i, m := range d.Motifs {
		if m.ID == id {
			return i
		}
	}
	return -1
}

// PanelBound returns the panel's rectangle in panel mm.
func (d Draft) PanelBound() orb.Bound {
	return orb.Bound{Max: orb.Point{d.Panel.Width, d.Panel.Height}}
}

// FieldBound returns the field's rectangle in panel mm.
func (d Draft) FieldBound() orb.Bound {
	m := d.Field.Margin
	return orb.Bound{Min: orb.Point{m, m}, Max: orb.Point{d.Panel.Width - m, d.Panel.Height - m}}
}

// SheetBound returns the sheet's rectangle in panel mm.
func (d Draft) SheetBound() orb.Bound {
	w, h := d.Sheet.Width, d.Sheet.Height
	if w == 0 {
		w = d.Panel.Width
	}
	if h == 0 {
		h = d.Panel.Height
	}
	x, y := (d.Panel.Width-w)/2, (d.Panel.Height-h)/2
	return orb.Bound{Min: orb.Point{x, y}, Max: orb.Point{x + w, y + h}}
}

// FieldMap returns the map from field coordinates to panel mm.
func (d Draft) FieldMap() geometry.Map {
	return geometry.TurnDegrees(d.Field.Turn).Moved(d.Field.Origin[0], d.Field.Origin[1])
}
