//go:build !js

package main

import (
	"bytes"
	"encoding/json"
	"image"
	"image/color"
	"image/png"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/colouring"
	"openwork/pattern/draft"
)

// requestVerbs are the worker's verbs in the table's order, and one that is none.
func requestVerbs() []string {
	var out []string
	for _, v := range verbs {
		if _, ok := v.(pageSide); ok {
			out = append(out, v.called())
		}
	}
	return append(out, "paint")
}

// small is a draft that every verb is quick with: one square on a panel of 60 × 60 mm.
func small() draft.Draft {
	d := draft.Default()
	d.Panel, d.Field.Margin, d.Field.Origin = draft.Panel{Width: 60, Height: 60}, 5, [2]float64{30, 30}
	d.Repeat = draft.Repeat{Group: "p2", A: 30, B: 30, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Square",
		Outline: orb.MultiPolygon{{{{-3, -3}, {4, -3}, {4, 3}, {-3, 3}, {-3, -3}}}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{7, 8}, Scale: 1}}
	return d
}

// dot is a picture of a disc.
func dot() []byte {
	img := image.NewGray(image.Rect(0, 0, 80, 80))
	for y := range 80 {
		for x := range 80 {
			c := color.Gray{255}
			if (x-40)*(x-40)+(y-40)*(y-40) < 700 {
				c.Y = 0
			}
			img.SetGray(x, y, c)
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		panic(err) // a slip in a test
	}
	return b.Bytes()
}

// sentence says what is wrong with a refusal; empty when it is one that a person may be shown.
func sentence(err error) string {
	text := pattern.Sentence(err.Error())
	switch {
	case len(text) < 12 || !strings.HasSuffix(text, ".") && !strings.HasSuffix(text, "?"):
		return "no sentence"
	case strings.Contains(text, "in the engine went wrong") || strings.Contains(text, "runtime error"):
		return "a panic"
	}
	return ""
}

// Each verb of the worker answers what the page asks it, and refuses what it cannot have in a sentence.
func TestRequests(t *testing.T) {
	text := string(small().Encode())
	bed := `{"bed": {"width": 40, "height": 45}}`
	for _, c := range []struct {
		verb, args string
		in         []byte
		want       string // in the answer, or in the refusal
		refused    bool
	}{
		{"check", `{}`, nil, `"sound":true`, false},
		{"mend", `{}`, nil, `"added":0`, false},
		{"recognise", `{}`, nil, `"chosen":"p2"`, false},
		{"colourings", `{"symbol": "p3", "k": 3}`, nil, `"kept":"p1","class":1`, false},
		{"colourings", `{"symbol": "p3", "k": 2}`, nil, `[]`, false},
		{"colourings", `{"symbol": "p5", "k": 2}`, nil, "not a plane group; the seventeen are p1, p2", true},
		{"colourings", `{"k": 2}`, nil, "not a plane group", true},
		{"colourings", `{"symbol": "p4", "k": 13}`, nil, "from 1 to 12 colours, not 13", true},
		{"colourings", `{"symbol": "p4", "k": -1}`, nil, "from 1 to 12 colours, not -1", true},
		{"colourings", `{"symbol": "p4", "k": 2.5}`, nil, "could not read what it was asked", true},
		{"pictures", `{"width": 20, "height": 20}`, nil, `"symbol":"p6mm"`, false},
		{"steps", `{}`, nil, `"mapFrom":`, false},
		{"join", `{"sheets": ` + bed + `}`, nil, `"files":[`, false},
		{"mends", `{}`, nil, `[]`, false},
		{"cut", `{"cut": {"unchecked": true}}`, nil, `"openings":`, false},
		{"picture", `{"picture": {"width": 40}}`, nil, `image/png`, false},
		{"study", `{}`, nil, `"pages":`, false},
		{"job", `{}`, nil, `"pages":`, false},
		{"trace", `{"name": "dot.png"}`, dot(), `"pieces":`, false},
		{"varnish", `{}`, nil, "no verb called varnish", true},
		{"paint", `{}`, nil, `"tubs":1`, false},
		{"coloured", `{"k": 2, "width": 20, "height": 20}`, nil, `"taken":false`, false},
		{"coloured", `{"k": 13, "width": 20, "height": 20}`, nil, "from 1 to 12 colours, not 13", true},
		{"coloured", `{"k": 2}`, nil, "a small picture is from 8 to 1000 px", true},
		{"match", `{"colour": "#17564a", "tubes": [{"name": "a", "colour": "#102030"}]}`, nil, `"mix":null`, false},
		{"match", `{"colour": "#17564a"}`, nil, "there are no tubes", true},
		{"paint", `{"panels": 0}`, nil, "for 1 to 10000 panels, not for 0", true},
		{"pictures", `{"width": "wide"}`, nil, "could not read what it was asked", true},
		{"cut", `{"format": 7}`, nil, "could not read what it was asked", true},
		{"cut", `[`, nil, "could not read what it was asked", true},
		{"cut", `{"draft": "{}"}`, nil, "missing", true},
		{"cut", `{"cut": 7}`, nil, "the choices for the cut file", true},
		{"cut", `{"cut": {"tolerance": 1e-9}}`, nil, "no machine cuts finer than 0.001 mm", true},
		{"trace", `{"options": {"tolerance": 1e-9}}`, dot(), "the tolerance is 1e-09", true},
		{"cut", `{"format": "doc"}`, nil, "there is no format", true},
		{"pictures", `{"width": 1000000000, "height": 1000000000}`, nil, "cannot be had", true},
		{"pictures", `{}`, nil, "cannot be had", true},
		{"picture", `{"picture": {"width": 1000000000}}`, nil, "8000", true},
		{"remake", `{"motif": "none"}`, nil, "there is no motif", true},
		{"trace", `{}`, nil, "empty", true},
	} {
		t.Run(c.verb+" "+c.args, func(t *testing.T) {
			var args map[string]any
			sent := []byte(c.args)
			if err := json.Unmarshal(sent, &args); err == nil {
				if _, ok := args["draft"]; !ok {
					args["draft"] = text
				}
				if sent, err = json.Marshal(args); err != nil {
					t.Fatal(err)
				}
			}
			got, data, err := reply(c.verb, sent, c.in, nil)
			switch {
			case c.refused && (err == nil || !strings.Contains(err.Error(), c.want) || sentence(err) != ""):
				t.Errorf("%v", err)
			case !c.refused && (err != nil || !strings.Contains(got, c.want) || !json.Valid([]byte(got))):
				t.Errorf("%.200s (%d bytes), %v", got, len(data), err)
			}
		})
	}
}

// A painted draft is recognised with its colours, one without colours as ever.
func TestRecognisedWithColours(t *testing.T) {
	d := small()
	d.Silhouettes[0].Outline[0][0][2] = orb.Point{5, 4} // no longer symmetrical
	ask := func() string {
		t.Helper()
		sent, err := json.Marshal(map[string]string{"draft": string(d.Encode())})
		if err != nil {
			t.Fatal(err)
		}
		text, _, err := reply("recognise", sent, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	if got := ask(); strings.Contains(got, "kept") || strings.Contains(got, "permutes") {
		t.Errorf("without colours: %s", got)
	}

	d.Swatches = []draft.Swatch{{ID: "rust", Name: "Rust", Colour: "#8a3b1c"},
		{ID: "bone", Name: "Bone", Colour: "#eee8d8"}}
	p := draft.NewPaint()
	p.Colours = []string{"rust", "bone"}
	p.Perms = &colouring.Perms{A: []int{1, 0}, B: []int{0, 1}, Ops: [][]int{{0, 1}, {1, 0}}}
	d.Paint = p
	want := `"permutes":"p2","keptOne":"p2","kept":"p2","keptCells":2`
	if got := ask(); !strings.Contains(got, want) {
		t.Errorf("half turns and steps along a change colours: %s, want %s", got, want)
	}
	p.ByHand = &draft.ByHand{Cells: [2]int{1, 3},
		Copies: []draft.HandColour{{Motif: "m", Cell: [2]int{0, 2}, Colour: 1}}}
	want = `"permutes":"p1","keptOne":"p1","kept":"p1","keptCells":6`
	if got := ask(); !strings.Contains(got, want) {
		t.Errorf("and one copy in six cells changed by hand: %s, want %s", got, want)
	}
}

// A request is answered with JSON, or refused in a sentence; nothing in it ends the worker.
func FuzzRequest(f *testing.F) {
	names := requestVerbs()
	text := string(small().Encode())
	for k, args := range []string{`{}`, `{"width": 20, "height": 20}`,
		`{"sheets": {"bed": {"width": 40, "height": 45}}}`, `{"cut": {"apart": 5, "unchecked": true}, "format": "dxf"}`,
		`{"motif": "m", "way": "keep"}`, `{"study": {"paper": "A3"}}`, `{"job": {"rate": 60}}`,
		`{"picture": {"width": 40, "base": "#102030"}}`,
		`{"options": {"pencil": true, "specks": 2, "crop": [1, 2, 70, 60]}, "name": "dot.png"}`,
		`{"unsound": ["An island drops out."]}`} {
		for verb := range names {
			if (verb+k)%3 == 0 {
				f.Add(byte(verb), args, text, []byte(nil))
			}
		}
	}
	tracing := byte(slices.Index(names, "trace"))
	f.Add(tracing, `{"name": "dot.png"}`, text, dot())
	f.Add(tracing, `{"name": "a.svg"}`, text,
		[]byte(`<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40">`+
			`<path d="M5 5h30v30H5z"/></svg>`))
	f.Fuzz(func(t *testing.T, verb byte, args, given string, in []byte) {
		sent := []byte(args)
		var object map[string]json.RawMessage
		if json.Unmarshal(sent, &object) == nil && object != nil {
			if _, has := object["draft"]; !has {
				quoted, err := json.Marshal(given)
				if err != nil {
					t.Fatal(err)
				}
				object["draft"] = quoted
			}
			var err error
			if sent, err = json.Marshal(object); err != nil {
				t.Fatal(err)
			}
		}
		got, _, err := reply(names[int(verb)%len(names)], sent, in, nil)
		if err != nil {
			if wrong := sentence(err); wrong != "" {
				t.Fatalf("%s: %v", wrong, err)
			}
			return
		}
		if !json.Valid([]byte(got)) {
			t.Fatalf("the answer is no JSON: %.200s", got)
		}
	})
}
