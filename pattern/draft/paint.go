package draft

import (
	"cmp"
	"maps"
	"slices"

	"openwork/pattern/colouring"
)

// Swatch is a named colour of the painter's own: what it looks like, and how it is mixed.
type Swatch struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Colour string `json:"colour"` // sRGB as #rrggbb, small letters
	Note   string `json:"note,omitempty"`
}

// Paint says what the panel is painted with: which swatch lies under the field, which the openings are filled with, and
// what the painter reckons paste by. Drafts share it; it is never changed in place.
type Paint struct {
	Ground  string         `json:"ground,omitempty"`  // the swatch of the base coat, empty where none is named
	Colours []string       `json:"colours,omitempty"` // swatches; their places in the list are the colours' numbers
	Of      map[string]int `json:"of,omitempty"`      // the number of a motif's colour, 0 where it is not named
	// how the group's operations carry the first so many colours into each other; a motif of another colour keeps it
	Perms  *colouring.Perms `json:"perms,omitempty"`
	ByHand *ByHand          `json:"byHand,omitempty"` // copies coloured one by one, whatever the rest says

	Waste    float64 `json:"waste"`    // paste that is laid and not left on the panel, as a part of what is
	DryOfWet float64 `json:"dryOfWet"` // millilitres left of each of wet paste
	Density  float64 `json:"density"`  // g/ml of wet paste
	Tub      float64 `json:"tub"`      // ml of wet paste that one tub holds
}

// ByHand is copies coloured by hand in a block of cells, which repeats.
type ByHand struct {
	Cells  [2]int       `json:"cells"` // cells along a and b
	Copies []HandColour `json:"copies"`
}

// HandColour is the colour of one copy in the block, and of those that are it moved by whole blocks.
type HandColour struct {
	Motif  string `json:"motif"`
	Op     int    `json:"op"`   // index of its operation in the group
	Cell   [2]int `json:"cell"` // from (0, 0) to below the block's cells
	Colour int    `json:"colour"`
}

// NewPaint returns a paint that says nothing: the usual reckoning of paste, and no colour.
func NewPaint() *Paint {
	p := &Paint{}
	PaintObject.fill(p)
	return p
}

// Clone returns a paint of its own lists; a new one for nil.
func (p *Paint) Clone() *Paint {
	if p == nil {
		return NewPaint()
	}
	out := *p
	out.Colours, out.Of = slices.Clone(p.Colours), maps.Clone(p.Of)
	if p.Perms != nil {
		out.Perms = &colouring.Perms{A: slices.Clone(p.Perms.A), B: slices.Clone(p.Perms.B),
			Ops: slices.Clone(p.Perms.Ops)}
		for i, op := range out.Perms.Ops {
			out.Perms.Ops[i] = slices.Clone(op)
		}
	}
	if p.ByHand != nil {
		out.ByHand = &ByHand{p.ByHand.Cells, slices.Clone(p.ByHand.Copies)}
	}
	return &out
}

// Kept returns the paint as a draft keeps it: lists that hold nothing are none, numbers that are the usual ones of a
// motif are not named, copies coloured by hand stand in order, and a paint that says nothing is nil. It changes p.
func (p *Paint) Kept() *Paint {
	maps.DeleteFunc(p.Of, func(_ string, number int) bool { return number == 0 })
	if len(p.Of) == 0 {
		p.Of = nil
	}
	if len(p.Colours) == 0 {
		p.Colours = nil
	}
	if p.ByHand != nil && len(p.ByHand.Copies) == 0 {
		p.ByHand = nil
	}
	if p.ByHand != nil {
		slices.SortFunc(p.ByHand.Copies, func(a, b HandColour) int {
			return cmp.Or(cmp.Compare(a.Motif, b.Motif), cmp.Compare(a.Op, b.Op), slices.Compare(a.Cell[:], b.Cell[:]))
		})
	}
	for _, m := range PaintObject.Members {
		if m.Says(p) {
			return p
		}
	}
	return nil
}

// PaintOf returns the draft's paint, or one that says nothing. It must not be changed.
func (d Draft) PaintOf() *Paint {
	if d.Paint == nil {
		return NewPaint()
	}
	return d.Paint
}

// Swatch returns the swatch with the given id.
func (d Draft) Swatch(id string) (Swatch, bool) {
	if i := d.SwatchIndex(id); i >= 0 {
		return d.Swatches[i], true
	}
	return Swatch{}, false
}

// SwatchIndex returns where the swatch with the given id stands, −1 when there is none.
func (d Draft) SwatchIndex(id string) int {
	return slices.IndexFunc(d.Swatches, func(s Swatch) bool { return s.ID == id })
}

var swatchObject = &Object{Members: []*Member{
	{Key: "id", Type: ID, Required: true, Max: MaxID, Link: Coding{Kind: "id", Expect: numbered("c")},
		at: func(o any) any { return &o.(*Swatch).ID }},
	{Key: "name", Type: Text, Max: MaxText, Words: "name",
		Link:    Coding{Kind: "text", Expect: func(_ *Draft, owner any, _ int) any { return owner.(*Swatch).ID }},
		missing: func(_ *Draft, owner any) { s := owner.(*Swatch); s.Name = s.ID },
		at:      func(o any) any { return &o.(*Swatch).Name }},
	{Key: "colour", Type: Colour, Required: true, Default: "#000000", Words: "colour",
		at: func(o any) any { return &o.(*Swatch).Colour }},
	{Key: "note", Type: Text, Optional: true, Max: MaxText, Words: "tube or mix",
		Link: Coding{Kind: "text", Expected: ""}, at: func(o any) any { return &o.(*Swatch).Note }},
}}

// PaintObject is the paint. The usual numbers are common practice, from memory: a quarter of the paste stays on the
// knife and on the sheet, heavy acrylic paste keeps some six tenths of its volume when it dries, and weighs some one
// and a half times as much as water.
var PaintObject = &Object{
	rule: (*checker).paintHoldsTogether,
	Members: []*Member{
		{Key: "ground", Type: Ref, To: Swatches, Optional: true, Words: "ground", Link: Coding{Kind: "no ground"},
			at: func(o any) any { return &o.(*Paint).Ground }},
		{Key: "colours", Type: Refs, To: Swatches, Optional: true, Max: MaxColours, Words: "colours",
			at: func(o any) any { return &o.(*Paint).Colours }},
		{Key: "of", Type: Numbers, To: Motifs, Optional: true, Max: MaxMotifs, Words: "colour of each motif",
			at: func(o any) any { return &o.(*Paint).Of }},
		{Key: "perms", Type: Record, Optional: true, Of: permsObject, Link: Coding{Kind: "perms"},
			at: func(owner any) any {
				if p := owner.(*Paint); p.Perms != nil {
					return p.Perms
				}
				return nil
			},
			add: func(owner any) any {
				p := owner.(*Paint)
				p.Perms = &colouring.Perms{}
				return p.Perms
			},
			drop: func(owner any) { owner.(*Paint).Perms = nil },
			none: &colouring.Perms{}},
		{Key: "byHand", Type: Record, Optional: true, Of: byHandObject, Link: Coding{Kind: "by hand"},
			at: func(owner any) any {
				if p := owner.(*Paint); p.ByHand != nil {
					return p.ByHand
				}
				return nil
			},
			add: func(owner any) any {
				p := owner.(*Paint)
				p.ByHand = &ByHand{}
				return p.ByHand
			},
			drop: func(owner any) { owner.(*Paint).ByHand = nil },
			none: &ByHand{}},
		reckoned("waste", "waste", "", 0.25, 0, MaxWaste, func(o any) any { return &o.(*Paint).Waste }),
		reckoned("dryOfWet", "dry from wet", "", 0.6, MinDryOfWet, MaxDryOfWet,
			func(o any) any { return &o.(*Paint).DryOfWet }),
		reckoned("density", "density", "g/ml", 1.5, MinDensity, MaxDensity,
			func(o any) any { return &o.(*Paint).Density }),
		reckoned("tub", "tub", "ml", 250, MinTub, MaxTub, func(o any) any { return &o.(*Paint).Tub }),
	},
}

// reckoned is a number that paste is reckoned by; it is left out of the file where it is the usual one.
func reckoned(key, words, unit string, usual, low, limit float64, at func(any) any) *Member {
	return &Member{Key: key, Usual: true, Default: usual, Min: low, Max: limit, Unit: unit, Words: words,
		Link: Coding{Kind: "number", Expected: usual}, at: at}
}

var permsObject = &Object{Members: []*Member{
	{Key: "a", Type: Row, Required: true, Max: MaxColours, at: func(o any) any { return &o.(*colouring.Perms).A }},
	{Key: "b", Type: Row, Required: true, Max: MaxColours, at: func(o any) any { return &o.(*colouring.Perms).B }},
	{Key: "ops", Type: Rows, Required: true, Max: MaxColours, at: func(o any) any { return &o.(*colouring.Perms).Ops }},
}}

var byHandObject = &Object{Members: []*Member{
	{Key: "cells", Type: Pair, Required: true, Min: 1, Max: MaxBlock,
		at: func(o any) any { return &o.(*ByHand).Cells }},
	items(Member{Key: "copies", Required: true, Max: MaxByHand, Of: handColourObject},
		func(h *ByHand) *[]HandColour { return &h.Copies }),
}}

var handColourObject = &Object{Members: []*Member{
	{Key: "motif", Type: Ref, To: Motifs, Required: true, at: func(o any) any { return &o.(*HandColour).Motif }},
	{Key: "op", Type: Integer, Required: true, Max: maxOps - 1, at: func(o any) any { return &o.(*HandColour).Op }},
	{Key: "cell", Type: Pair, Required: true, Max: MaxBlock - 1, at: func(o any) any { return &o.(*HandColour).Cell }},
	{Key: "colour", Type: Integer, Required: true, Max: MaxColours - 1,
		at: func(o any) any { return &o.(*HandColour).Colour }},
}}

// maxOps is how many operations the conventional cell of a plane group has at most (p6mm).
const maxOps = 12
