//go:build compare

package overlay

import (
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"
	"time"

	"openwork/geometry"
	"openwork/geometry/overlay/geostest"

	"github.com/paulmach/orb"
	"github.com/tdewolff/canvas"
)

var (
	compareCases = flag.Int("compare", 1, "cases of each family that are put to both overlays")
	compareFile  = flag.String("compare-to", "", "file that the comparison is written to, as JSON")
)

const (
	// offLine in mm: a result is wrong when it differs from that of GEOS by more than a border of this width along all
	// outlines. Both overlays snap to 1e-8 mm, now and then several times over.
	offLine = 1e-6
	// tooLong is when an overlay counts as failed: the slowest of these cases take milliseconds.
	tooLong = 20 * time.Second
)

// tally is how one overlay did on the families.
type tally struct {
	Name    string  `json:"name"`
	Asked   int     `json:"asked"`   // questions that GEOS could judge
	Wrong   int     `json:"wrong"`   // another region than that of GEOS
	Invalid int     `json:"invalid"` // the right area, and rings that GEOS does not take for valid
	Failed  int     `json:"failed"`  // an error, a panic, or no answer in tooLong
	MS      float64 `json:"ms"`      // of all questions together
}

// contender answers one question.
type contender func(op string, shapes []orb.MultiPolygon) (orb.MultiPolygon, error)

func ours(op string, s []orb.MultiPolygon) (mp orb.MultiPolygon, err error) {
	switch op {
	case "union":
		mp, err = Union(s...)
	case "difference":
		mp, err = Difference(s[0], s[1])
	case "intersection":
		mp, err = Intersection(s[0], s[1])
	}
	return mp, err
}

// canvasSettle is the overlay of tdewolff/canvas. Its rings are nested by parity, for they do not say which are holes.
func canvasSettle(op string, s []orb.MultiPolygon) (orb.MultiPolygon, error) {
	paths := make([]*canvas.Path, len(s))
	for k, mp := range s {
		paths[k] = &canvas.Path{}
		for _, r := range geometry.Rings(mp) {
			paths[k].MoveTo(r[0][0], r[0][1])
			for _, v := range r[1 : len(r)-1] {
				paths[k].LineTo(v[0], v[1])
			}
			paths[k].Close()
		}
	}

	var result *canvas.Path
	switch op {
	case "union":
		all := &canvas.Path{}
		for _, p := range paths {
			all = all.Append(p)
		}
		result = all.Settle(canvas.NonZero)
	case "difference":
		result = paths[0].Not(paths[1])
	case "intersection":
		result = paths[0].And(paths[1])
	}

	var rings []orb.Ring
	for _, part := range result.Split() {
		var r orb.Ring
		for _, p := range part.Coords() {
			r = append(r, orb.Point{p.X, p.Y})
		}
		if len(r) > 0 && r[0] != r[len(r)-1] {
			r = append(r, r[0])
		}
		if len(r) >= 4 {
			rings = append(rings, r)
		}
	}
	return Nest(rings), nil
}

// inTime runs a contender, with a panic or too long a time as an error.
func inTime(c contender, op string, s []orb.MultiPolygon) (mp orb.MultiPolygon, took time.Duration, err error) {
	done := make(chan struct{})
	begun := time.Now()
	go func() {
		defer close(done)
		defer func() {
			if r := recover(); r != nil {
				err = fmt.Errorf("panic: %v", r)
			}
		}()
		mp, err = c(op, s)
	}()
	select {
	case <-done:
		return mp, time.Since(begun), err
	case <-time.After(tooLong):
		return nil, tooLong, fmt.Errorf("no answer in %v", tooLong)
	}
}

// TestOursBesideSettle puts the adversarial families to this overlay and to another library's, and both answers to
// GEOS. It fails where ours fails; how the other does is told, and written for ./build.sh bench.
func TestOursBesideSettle(t *testing.T) {
	rows := []tally{{Name: "ours"}, {Name: "tdewolff/canvas Settle"}}
	for k, c := range []contender{ours, canvasSettle} {
		cases := answersOf(t, &rows[k], c)
		for i, a := range geostest.Ask(t, cases) {
			if a.Input != "" {
				continue
			}
			rows[k].Asked++
			slack := offLine * perimeter(cases[i].Shapes)
			switch {
			case math.Abs(a.Area-a.OurArea) > slack, a.Invalid == "" && a.Difference > slack:
				rows[k].Wrong++
				t.Logf("%s, %s: %.9g mm², GEOS %.9g, %.3g in one only", rows[k].Name, cases[i].Name, a.OurArea, a.Area,
					a.Difference)
			case a.Invalid != "":
				rows[k].Invalid++
			}
		}
		t.Logf("%s: %d asked, %d wrong, %d not valid, %d failed, %.0f ms", rows[k].Name, rows[k].Asked, rows[k].Wrong,
			rows[k].Invalid, rows[k].Failed, rows[k].MS)
	}
	if r := rows[0]; r.Wrong > 0 || r.Invalid > 0 || r.Failed > 0 || r.Asked == 0 {
		t.Errorf("ours: %+v", r)
	}
	if *compareFile == "" {
		return
	}
	text, err := json.Marshal(rows)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(*compareFile, text, 0o644); err != nil {
		t.Fatal(err)
	}
}

// answersOf puts all families to one contender. It returns what is to be judged.
func answersOf(t *testing.T, row *tally, c contender) (cases []geostest.Case) {
	for n, families := range [][]family{pairFamilies, manyFamilies} {
		ops := [][]string{{"union", "difference", "intersection"}, {"union"}}[n]
		for _, f := range families {
			rng := rand.New(rand.NewPCG(seed, 3+uint64(n)))
			for k := range *compareCases {
				s := f.make(rng)
				for _, op := range ops {
					name := fmt.Sprintf("%s %d %s", f.name, k, op)
					mp, took, err := inTime(c, op, s)
					row.MS += took.Seconds() * 1000
					if err != nil {
						row.Failed++
						t.Logf("%s, %s: %v", row.Name, name, err)
						continue
					}
					cases = append(cases, geostest.Case{Name: name, Op: op, Shapes: s, Result: mp,
						Sliver: sliverWidth * gridStep})
				}
			}
		}
	}
	return cases
}
