package desk

import (
	"errors"
	"math"

	"openwork/pattern"
	"openwork/wasm/editor/desk/say"
)

var errNoSpecial = errors.New("this plane group has no mirror and no rotation point to stand on")

// siteState is what the page says about the place of a motif, and what it offers there.
type siteState struct {
	Text   string   `json:"text"`
	Offers []string `json:"offers"` // ways of making the silhouette symmetrical: "keep", "other", "gather"
}

// siteOf says where a motif stands: how many copies a cell holds, why when it is fewer than the group's operations, and
// what is wrong when it should be fewer.
func (s *Session) siteOf(i int) (inCell int, site siteState) {
	site.Offers = []string{}
	o := s.layout.Orbits[i]
	full := len(s.layout.Group.Ops)
	inCell = len(o.Images)
	if o.SameAs >= 0 {
		site.Text = say.Coincides
		return 0, site
	}
	text, offers := say.Site(s.layout.Site(i), inCell, full)
	return inCell, siteState{text, append([]string{}, offers...)}
}

// setOnto sets the motif in hand on the nearest mirror or rotation point, however far.
func (k *Desk) setOnto() error {
	i := k.Session.Draft().Motif(k.Session.sel.ID)
	if i < 0 || k.Session.layout == nil {
		return errNoMotif
	}

	m := k.Session.Draft().Motifs[i]
	at := k.copies.Onto(i, m.At, math.Inf(1))
	if math.Hypot(at[0]-m.At[0], at[1]-m.At[1]) < 1e-3 { // no more than the draft's grid and the rounding on it
		if k.Session.layout.Site(i).Order > 1 {
			return errors.New("the motif stands on a mirror or a rotation point already")
		}
		return errNoSpecial
	}
	return k.Do(pattern.Command{Name: "place", ID: m.ID, Values: map[string]float64{"x": at[0], "y": at[1]}})
}
