package draft

import (
	"math"

	"github.com/paulmach/orb"
)

// Outlined returns a draft on the same panel and sheet whose one opening is an outline on the panel, laid once: what is
// cut beside the stencil, as a sheet of its own. The id names its silhouette, and the field is d's but for its margin.
func (d Draft) Outlined(id, title string, outline orb.MultiPolygon, margin float64, edge Edge) Draft {
	out := Default()
	out.Title, out.Panel, out.Sheet = title, d.Panel, d.Sheet
	out.Field = Field{Margin: margin, Edge: edge}
	far := outline.Bound().Union(d.PanelBound())
	side := 2*math.Max(far.Max[0]-far.Min[0], far.Max[1]-far.Min[1]) + 100
	out.Repeat = Repeat{Group: "p1", A: side, B: side, Gamma: 90}
	out.Silhouettes = []Silhouette{{ID: id, Name: title, Outline: outline}}
	out.Motifs = []Motif{{ID: "m1", Silhouette: id, Scale: 1}}
	return out
}
