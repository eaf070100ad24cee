// Package geostest puts questions about outlines to GEOS, by way of Debian's python3-shapely, and is meant for tests
// only.
package geostest

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"fmt"
	"os/exec"
	"slices"
	"testing"

	"github.com/paulmach/orb"
)

//go:embed oracle.py
var oracle string

// Case is one question. Op is union, difference, intersection or buffer.
type Case struct {
	Name      string             `json:"-"`
	Op        string             `json:"op"`
	Shapes    []orb.MultiPolygon `json:"shapes"`
	Result    orb.MultiPolygon   `json:"result"`             // ours, to be judged
	Sliver    float64            `json:"sliver,omitempty"`   // mm: rings thinner than it on the mean are not counted
	Distance  float64            `json:"distance,omitempty"` // mm, of a buffer
	Segs      int                `json:"segs,omitempty"`     // segments of a quarter circle, of a buffer
	Hausdorff bool               `json:"hausdorff,omitempty"`
}

// Answer is what GEOS found. Input is why the question could not be answered; Invalid why our result is not valid.
type Answer struct {
	Input                 string
	Area, OurArea         float64
	Polygons, Holes       int
	OurPolygons, OurHoles int
	Difference            float64 // area in mm² that lies in only one of the two results
	Hausdorff             float64 // mm, between the two boundaries, at vertices
	Invalid               string
}

// Ask answers all cases in one process. It fails the test when shapely is missing.
func Ask(t testing.TB, cases []Case) []Answer {
	t.Helper()
	for i := range cases {
		// An empty outline has to be written as one, not as null.
		cases[i].Result = append(orb.MultiPolygon{}, cases[i].Result...)
		cases[i].Shapes = slices.Clone(cases[i].Shapes)
		for k := range cases[i].Shapes {
			cases[i].Shapes[k] = append(orb.MultiPolygon{}, cases[i].Shapes[k]...)
		}
	}

	in, err := json.Marshal(cases)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command("/usr/bin/python3", "-c", oracle)
	cmd.Stdin = bytes.NewReader(in)
	var out, msg bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &msg
	if err := cmd.Run(); err != nil {
		t.Fatalf("GEOS could not be asked; the Debian package python3-shapely is needed for this test: %v\n%s", err,
			msg.String())
	}
	var answers []Answer
	if err := json.Unmarshal(out.Bytes(), &answers); err != nil {
		t.Fatal(err)
	}
	if len(answers) != len(cases) {
		t.Fatal(fmt.Errorf("GEOS answered %d of %d questions", len(answers), len(cases)))
	}
	return answers
}
