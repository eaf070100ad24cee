package outline

import (
	"math"
	"testing"

	"openwork/geometry"
)

func TestKnownDrawingsComeBack(t *testing.T) {
	for _, dpi := range []float64{150, 300, 600} {
		for _, tr := range truths() {
			if tr.name != "spiral" && tr.name != "gear" && tr.name != "star" {
				continue
			}
			need := chordPoints(tr.outline, DefaultTolerance)
			for k, s := range spoils {
				r, err := Read(scan(tr, s, dpi, int64(k)), tr.name, Options{DPI: dpi})
				if err != nil {
					t.Errorf("%g dpi, %s, %s: %v", dpi, tr.name, s.name, err)
					continue
				}
				mp := whole(r)
				area := geometry.Area(mp)/geometry.Area(tr.outline) - 1
				px := mmPerInch / dpi
				away := farthest(mp, tr.outline, px/4) / px
				back := farthest(tr.outline, mp, px/4) / px
				miss := cornerMiss(tr.corners, mp) / px
				t.Logf("%3g dpi %-8s %-16s area %+.3f%% away %.2f px back %.2f corners %.2f px points %d of %d pieces %d", dpi, tr.name, s.name, 100*area, away, back, miss, geometry.Points(mp), need, len(r.Pieces))
				_ = math.Abs
			}
		}
	}
}
