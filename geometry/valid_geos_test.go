package geometry

import (
	"bytes"
	"encoding/json"
	"errors"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/paulmach/orb"
)

// shapely says of each outline, one JSON list a line, whether GEOS takes it for valid, and if not why.
const shapely = `
import json, sys
from shapely.geometry import MultiPolygon
from shapely.validation import explain_validity
for line in sys.stdin:
    print(explain_validity(MultiPolygon([(p[0], p[1:]) for p in json.loads(line)])))
`

func TestCheckOutlineAgainstGEOS(t *testing.T) {
	const seed = 44
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var in bytes.Buffer
	var all []orb.MultiPolygon
	for len(all) < 5000 {
		mp := gridOutline(r)
		if r.IntN(2) == 0 {
			mp = Transform(mp, Turn(r.Float64()))
		}
		all = append(all, mp)
		if err := json.NewEncoder(&in).Encode(mp); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.Command("/usr/bin/python3", "-c", shapely)
	cmd.Stdin, cmd.Stderr = &in, os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("GEOS did not answer; this test needs Debian's package python3-shapely: %v", err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(all) {
		t.Fatalf("%d answers for %d outlines", len(lines), len(all))
	}
	good := 0
	for i, mp := range all {
		err := CheckOutline(mp)
		var e *OutlineError
		if errors.As(err, &e) && (strings.Contains(e.Reason, "area") || strings.Contains(e.Reason, "clockwise")) {
			continue // GEOS does not ask
		}
		if strings.HasPrefix(lines[i], "Interior is disconnected") {
			continue // holes may touch so that they cut the inside in two: GEOS alone forbids it, and says so first
		}
		want := lines[i] == "Valid Geometry"
		if (err == nil) != want {
			t.Errorf("%v: %v; GEOS says %s", mp, err, lines[i])
		}
		if want {
			good++
		}
	}
	if t.Logf("%d of %d outlines were good", good, len(all)); good < 300 {
		t.Errorf("only %d good outlines", good)
	}
}
