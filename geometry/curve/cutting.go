package curve

import "github.com/paulmach/orb"

// cutting is what only cut files need: arcs, and short edges drawn together. It is linked where ForCutting is called,
// and so not by the editor, which fits cubics to what is drawn by hand and must stay small.
var cutting struct {
	arcs   func(b *builder, js []joint) bool
	bends  func(g *ring)
	tidied func(pts []orb.Point, least, tolerance float64, thoroughly bool) []knot
	facets func(r orb.Ring, o Options) (Path, float64)
}

// ForCutting makes Options.Shortest and the kind Arc work. It is called once, before either is used.
func ForCutting() {
	cutting.arcs = (*builder).arcs
	cutting.bends = (*ring).findBends
	cutting.tidied = tidied
	cutting.facets = facets
}
