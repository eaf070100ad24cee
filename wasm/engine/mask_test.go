//go:build !js

package main

import (
	"bytes"
	"regexp"
	"slices"
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// The files of stencil and mask have their registration marks at the same places, to the character, and the mask's
// file the outline of the subject alone.
func TestMaskHasTheStencilsMarks(t *testing.T) {
	d := patterntest.Demo(t)
	heron := d.Silhouettes[0].ID
	for _, c := range []pattern.Command{{Name: "subject", ID: heron, Values: map[string]float64{"scale": 4}},
		{Name: "subjectEdge", ID: "subject1", Text: string(draft.Behind)}} {
		next, err := pattern.Apply(d, c)
		if err != nil {
			t.Fatal(err)
		}
		d = next
	}
	marks := regexp.MustCompile(`<path class="registration"[^>]*>`)
	var found [2][]string
	for i, mask := range []bool{false, true} {
		in := new(cutInput).usual()
		in.draft, in.Mask, in.Growth = d, mask, 1
		in.draft.Sheet.Cut = draft.Knife // which parts waste by lines
		out, err := in.run(nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range marks.FindAll(out.data, -1) {
			found[i] = append(found[i], string(m))
		}
		if mask && out.Openings != 1 {
			t.Errorf("the mask's file has %d openings", out.Openings)
		}
		if mask && (bytes.Contains(out.data, []byte(`class="weeding"`)) || out.Made.Piercings != 2) {
			t.Errorf("the mask is cut into: %d contours are cut", out.Made.Piercings)
		}
	}
	if len(found[0]) != 9 || !slices.Equal(found[0], found[1]) {
		t.Errorf("the stencil has the marks %v, the mask %v", found[0], found[1])
	}
}
