package offset

import (
	"slices"

	"openwork/geometry/grow"
	"openwork/geometry/overlay"

	"github.com/paulmach/orb"
)

// polygon returns a polygon grown or shrunk: its rings without the closing point, the outer one counter-clockwise,
// holes clockwise.
func (b beside) polygon(rings [][]orb.Point) (orb.MultiPolygon, error) {
	points, crowded := 0, 0
	for _, r := range rings {
		points += len(r)
		crowded += b.crowded(r)
	}

	switch {
	case points <= manyPoints:
		b.through = true
	case crowded*crowdedShare > points:
		return b.byRuns(rings)
	}
	return b.atOnce(rings)
}

// atOnce takes the curves beside all rings together.
func (b beside) atOnce(rings [][]orb.Point) (orb.MultiPolygon, error) {
	raw := make([]orb.Ring, len(rings))
	for i, r := range rings {
		raw[i] = b.ring(r)
	}
	return overlay.Positive(raw)
}

// byRuns unites strips and sectors run by run before they are joined to the polygon or taken off it. Where the edges
// are short against the distance each strip crosses those of many neighbours; what lies under others is gone before it
// meets the rest.
func (b beside) byRuns(rings [][]orb.Point) (orb.MultiPolygon, error) {
	var runs [][]orb.Ring
	for _, r := range rings {
		corners := b.corners(r)
		for from := 0; from < len(r); from += runEdges {
			runs = append(runs, []orb.Ring{b.run(r, corners, from, min(runEdges, len(r)-from))})
		}
	}
	band, err := unite(runs)
	if err != nil {
		return nil, err
	}

	if b.distance < 0 {
		for _, r := range band {
			slices.Reverse(r)
		}
	}
	for _, r := range rings {
		band = append(band, append(slices.Clone(r), r[0]))
	}
	return overlay.Positive(band)
}

// run returns a ring that winds about the strips and sectors of a run of edges, and of the corners that they begin at,
// counter- clockwise for either sign of the distance. Where its first corner is passed at a crossing, the half of the
// kite that is left out lies in the strip that the run before ends with.
func (b beside) run(ring []orb.Point, corners []bool, from, edges int) orb.Ring {
	n := len(ring)
	var raw orb.Ring
	if in, _ := grow.Aside(ring[(from+n-1)%n], ring[from%n], b.distance); b.sharp > 0 {
		// A join of tangents does not begin where the strip before it ends.
		if out, _ := grow.Aside(ring[from%n], ring[(from+1)%n], b.distance); grow.TurnAt(in, out,
			b.distance)*b.distance > 0 {
			raw = append(raw, orb.Point{ring[from%n][0] + in[0], ring[from%n][1] + in[1]})
		}
	}
	for k := range edges {
		raw = b.corner(raw, ring, corners, (from+k)%n)
	}
	last := ring[(from+edges)%n]
	in, _ := grow.Aside(ring[(from+edges-1)%n], last, b.distance)
	raw = append(raw, orb.Point{last[0] + in[0], last[1] + in[1]})
	for k := edges; k >= 0; k-- {
		raw = append(raw, ring[(from+k)%n])
	}
	raw = append(raw, raw[0])
	if b.distance < 0 {
		slices.Reverse(raw)
	}
	return raw
}

// unite returns the outline of what the rings of at least one run wind about, neighbouring runs first.
func unite(runs [][]orb.Ring) ([]orb.Ring, error) {
	for first := true; first || len(runs) > 1; first = false {
		var next [][]orb.Ring
		for from := 0; from < len(runs); from += runsAtOnce {
			var rings []orb.Ring
			for _, r := range runs[from:min(from+runsAtOnce, len(runs))] {
				rings = append(rings, r...)
			}
			mp, err := overlay.Positive(rings)
			if err != nil {
				return nil, err
			}
			var outline []orb.Ring
			for _, p := range mp {
				outline = append(outline, p...)
			}
			next = append(next, outline)
		}
		runs = next
	}
	return runs[0], nil
}
