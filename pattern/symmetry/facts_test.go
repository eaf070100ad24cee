package symmetry

import "testing"

// recognition is the recognition table of D. Schattschneider, "The Plane Symmetry Groups: Their Recognition and
// Notation", American Mathematical Monthly 85 (1978) 439–450, typed from memory of what it says: highest order of
// rotation, mirrors, glides that are not mirrors, generating region as a share of the unit; and where it says them as
// distinguishing properties, the ways mirrors run and whether highest-order points lie on mirrors. Where it does not,
// ways is 0 and on is empty.
var recognition = map[string]struct {
	order   int
	mirrors bool
	glides  bool
	region  Fraction
	ways    int
	on      Share
}{
	"p1":   {1, false, false, Frac(1, 1), 0, ""},
	"p2":   {2, false, false, Frac(1, 2), 0, ""},
	"pm":   {1, true, false, Frac(1, 2), 0, ""},
	"pg":   {1, false, true, Frac(1, 2), 0, ""},
	"cm":   {1, true, true, Frac(1, 2), 0, ""},
	"p2mm": {2, true, false, Frac(1, 4), 0, ""},
	"p2mg": {2, true, true, Frac(1, 4), 1, ""}, // parallel
	"p2gg": {2, false, true, Frac(1, 4), 0, ""},
	"c2mm": {2, true, true, Frac(1, 4), 2, ""}, // perpendicular
	"p4":   {4, false, false, Frac(1, 4), 0, ""},
	"p4mm": {4, true, true, Frac(1, 8), 0, All},
	"p4gm": {4, true, true, Frac(1, 8), 0, None},
	"p3":   {3, false, false, Frac(1, 3), 0, ""},
	"p3m1": {3, true, true, Frac(1, 6), 0, All},
	"p31m": {3, true, true, Frac(1, 6), 0, Some}, // "not all"
	"p6":   {6, false, false, Frac(1, 6), 0, ""},
	"p6mm": {6, true, true, Frac(1, 12), 0, ""},
}

func TestFactsAgreeWithTheRecognitionTable(t *testing.T) {
	seen := map[Facts]string{}
	for _, g := range Groups() {
		f, want := g.Facts(), recognition[g.Symbol]
		if f.Order != want.order || f.Mirrors != want.mirrors || f.Glides != want.glides || f.Region != want.region {
			t.Errorf("%s: %+v, the table has %+v", g.Symbol, f, want)
		}
		if want.ways != 0 && f.MirrorWays != want.ways {
			t.Errorf("%s: mirrors run %d ways, want %d", g.Symbol, f.MirrorWays, want.ways)
		}
		if want.on != "" && f.OnMirrors != want.on {
			t.Errorf("%s: highest-order points on mirrors: %s, want %s", g.Symbol, f.OnMirrors, want.on)
		}
		// What the table is for: the facts tell all seventeen apart.
		if other, taken := seen[f]; taken {
			t.Errorf("%s and %s have the same facts %+v", g.Symbol, other, f)
		}
		seen[f] = g.Symbol
	}
}
