package desk

import (
	"errors"
	"math"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/wasm/editor/desk/copies"
	"openwork/wasm/editor/desk/say"
)

// heldState is what is in hand, by name: a copy, a subject, a tie, or the swatch that colours copies. Where it lies is
// where it is seen to lie on the panel, mm and degrees counter-clockwise; they are 0 for a tie and a swatch.
type heldState struct {
	Kind     string  `json:"kind"` // "copy", "subject", "tie", "swatch", "" for nothing
	Name     string  `json:"name"`
	Which    string  `json:"which"` // which of them, and of what group, in words
	X        float64 `json:"x"`
	Y        float64 `json:"y"`
	Turn     float64 `json:"turn"`
	Scale    float64 `json:"scale"`
	Mirrored bool    `json:"mirrored"`

	Copy copyName `json:"copy"` // of a copy
}

// copyName names a copy: its motif, its operation's place in the group, and its cell.
type copyName struct {
	Motif string `json:"motif"`
	Op    int    `json:"op"`
	Cell  [2]int `json:"cell"`
}

// heldState returns what is in hand. motifs are the draft's, as they are named.
func (k *Desk) heldState(motifs []motifState) (out heldState) {
	d, swatch := k.Session.Draft(), k.swatchInHand()
	switch s, ok := k.subjects.Chosen(); {
	case ok:
		return heldState{Kind: "subject", Name: s.Name, Which: "subject, in front of the pattern", X: s.At[0],
			Y: s.At[1], Turn: s.Turn, Scale: s.Scale, Mirrored: s.Mirrored}
	case k.ties.On:
		out.Kind, out.Name, out.Which = "tie", "Ties", "none of them taken up"
		if i := k.ties.Chosen; i >= 0 && i < len(d.Ties) {
			out.Name, out.Which = "A tie", "across the pattern's field"
			if o, ok := d.Silhouette(d.Ties[i].Silhouette); ok {
				out.Which = "across " + o.Name
			}
		}
		return out
	}

	i := d.Motif(k.Session.sel.ID)
	if i < 0 {
		if swatch != "" {
			out.Kind, out.Name, out.Which = "swatch", swatch, "a press on a copy colours it"
		}
		return out
	}
	out = k.copyState(i, k.Session.sel.Held)
	out.Name = motifs[i].Name
	out.Which += "; group " + d.Repeat.Group
	if swatch != "" {
		out.Which += "; with the swatch " + swatch
	}
	return out
}

// swatchInHand names the swatch that colours copies by hand, "" for none.
func (k *Desk) swatchInHand() string {
	if !k.brush.On() {
		return ""
	}
	if s, ok := k.Session.Draft().Swatch(k.brush.Swatch()); ok {
		return s.Name
	}
	return "Wipes"
}

// copyState says which copy of a motif is meant, and where it lies.
func (k *Desk) copyState(i int, h copies.Held) heldState {
	m := k.Session.Draft().Motifs[i]
	out := heldState{Kind: "copy", Copy: copyName{m.ID, h.Op, h.Cell}, Scale: m.Scale, Mirrored: m.Mirrored,
		X: m.At[0], Y: m.At[1], Turn: m.Turn}
	l := k.Session.layout
	if l == nil || i >= len(l.Orbits) {
		return out
	}

	out.Which = carriedTo(l, i, h.Op)
	seen := h.Map(l).After(m.Map())
	at := h.Map(l).Apply(m.At)
	out.X, out.Y, out.Mirrored = geometry.Snap(at[0]), geometry.Snap(at[1]), seen.Det() < 0
	turn := math.Atan2(seen.C, seen.A)
	if out.Mirrored { // the mirror comes first, and turns x about
		turn = math.Atan2(-seen.C, -seen.A)
	}
	out.Turn = math.Round(turn*180/math.Pi*1e4) / 1e4
	return out
}

// carriedTo says which image of a motif that of an operation is.
func carriedTo(l *pattern.Layout, i, op int) string {
	o := l.Orbits[i]
	if o.SameAs >= 0 {
		return "on another motif's copies"
	}
	number := 1
	for n, image := range o.Images {
		if image.Op == op {
			number = n + 1
		}
	}

	// A mirror with a move by cells is a mirror still: the least move along the line counts.
	const reach = 2
	g, moved := l.Op(op, 0, 0), math.Inf(1)
	along := math.Atan2(g.C, g.A) / 2
	for m := -reach; m <= reach; m++ {
		for n := -reach; n <= reach; n++ {
			g := l.Op(op, m, n)
			moved = math.Min(moved, math.Abs(g.X*math.Cos(along)+g.Y*math.Sin(along)))
		}
	}
	return say.Copy(number, len(o.Images), say.Carried(g, moved))
}

var errNothing = errors.New("nothing is in hand; press a copy or a subject on the panel, or take one from the list")

// PlaceHeld sets where the copy or the subject in hand is seen to lie: x and y on the panel in mm, its turn in degrees
// or its scale, as one entry of the history. The motif goes where the copy's operation has it go.
func (k *Desk) PlaceHeld(name string, v float64) error {
	if s, ok := k.subjects.Chosen(); ok {
		return k.Do(pattern.Command{Name: "subjectPlace", ID: s.ID, Values: map[string]float64{name: v}})
	}
	i, l := k.Session.Draft().Motif(k.Session.sel.ID), k.Session.layout
	if i < 0 || l == nil {
		return errNothing
	}

	m, op := k.Session.Draft().Motifs[i], k.Session.sel.Map(l)
	seen, values := k.copyState(i, k.Session.sel.Held), map[string]float64{}
	switch name {
	case "x", "y":
		by := orb.Point{v - seen.X, 0}
		if name == "y" {
			by = orb.Point{0, v - seen.Y}
		}
		by = op.Rigid().Vector(by)
		values["x"], values["y"] = m.At[0]+by[0], m.At[1]+by[1]
	case "turn":
		by := v - seen.Turn
		if op.Det() < 0 {
			by = -by
		}
		values["turn"] = m.Turn + by
	default:
		values[name] = v
	}
	return k.Do(pattern.Command{Name: "place", ID: m.ID, Values: values})
}

// MirrorHeld turns the copy or the subject in hand the other way round.
func (k *Desk) MirrorHeld() error {
	if s, ok := k.subjects.Chosen(); ok {
		return k.Do(pattern.Command{Name: "subjectMirror", ID: s.ID, Flag: !s.Mirrored})
	}
	return k.mirror()
}
