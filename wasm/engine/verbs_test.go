//go:build !js

package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern/draft"
	"openwork/pattern/link"
)

// tried is a way to ask for a verb with which it must answer.
type tried struct {
	page  string // what the page sends beside the draft; empty: the verb is not the page's
	bytes []byte // and with it
	// the command line after the verb, DIR a folder to write in, DRAFT and PICTURE files; nil: it has none
	line  []string
	files []string // that it writes to DIR
}

// tries are ways to ask for each verb of the table.
func tries(t *testing.T) map[string]tried {
	t.Helper()
	address, err := link.Encode(small())
	if err != nil {
		t.Fatal(err)
	}
	tubes := filepath.Join(t.TempDir(), "tubes.json")
	if err := os.WriteFile(tubes, []byte(`[{"name": "a", "colour": "#102030"}]`), 0o644); err != nil {
		t.Fatal(err)
	}
	const bed = `{"sheets": {"bed": {"width": 40, "height": 45}}}`
	return map[string]tried{
		"groups":     {line: []string{}},
		"copies":     {line: []string{"DRAFT"}},
		"trace":      {page: `{"name": "dot.png"}`, bytes: dot(), line: []string{"PICTURE"}},
		"check":      {page: `{}`, line: []string{"DRAFT"}},
		"mends":      {page: `{}`},
		"mend":       {page: `{}`, line: []string{"DRAFT"}},
		"recognise":  {page: `{}`, line: []string{"DRAFT"}},
		"colourings": {page: `{"symbol": "p3", "k": 3}`, line: []string{"p3", "-k", "3"}},
		"fit":        {page: `{"effort": 1, "width": 20, "height": 20}`, line: []string{"DRAFT", "-effort", "1"}},
		"settle":     {page: `{"motif": "` + small().Motifs[0].ID + `"}`},
		"evenness": {page: `{"width": 20, "height": 20}`, line: []string{"DRAFT", "-o", "DIR/a.png"},
			files: []string{"a.png"}},
		"paint": {page: `{"panels": 3}`, line: []string{"DRAFT", "-panels", "2"}},
		"match": {page: `{"colour": "#17564a", "tubes": [{"name": "a", "colour": "#102030"}]}`,
			line: []string{"#17564a", "-tubes", tubes}},
		"coloured": {page: `{"k": 2, "width": 20, "height": 20}`},
		"remake":   {page: `{"motif": "centred", "way": "gather"}`},
		"cut":      {page: `{"format": "dxf"}`, line: []string{"DRAFT", "-o", "DIR/a.dxf"}, files: []string{"a.dxf"}},
		"figure":   {page: `{"units": "in"}`, line: []string{"DRAFT"}},
		"study":    {page: `{}`, line: []string{"DRAFT", "-o", "DIR/a.pdf"}, files: []string{"a.pdf"}},
		"job":      {page: `{}`, line: []string{"DRAFT", "-o", "DIR/a.pdf"}, files: []string{"a.pdf"}},
		"speeds":   {page: `{}`, line: []string{}},
		"steps": {page: `{}`, line: []string{"DRAFT", "-o", "DIR/a.svg", "-map", "DIR/a.pdf"},
			files: []string{"a.svg", "a.pdf"}},
		"join": {page: bed, line: []string{"DRAFT", "-bed", "40x45", "-o", "DIR/a.svg", "-map", "DIR/a.pdf"},
			files: []string{"a-1.svg", "a-2.svg", "a.pdf"}},
		"nest": {page: `{"stock": {"width": 120, "height": 120}, "copies": 2}`,
			line:  []string{"DRAFT", "-stock", "120x120", "-copies", "2", "-with", "DRAFT=1", "-o", "DIR/a.svg"},
			files: []string{"a-1.svg"}},
		"picture":  {page: `{}`, line: []string{"DRAFT", "-o", "DIR/a.png"}, files: []string{"a.png"}},
		"pictures": {page: `{"width": 20, "height": 20}`},
		"link":     {line: []string{"DRAFT"}},
		"open":     {line: []string{address}},
	}
}

// Each verb of the table says what it must, answers the page and the command line where it is theirs, and only there.
func TestTheTableOfVerbs(t *testing.T) {
	all := tries(t)
	names := map[string]bool{}
	for _, v := range verbs {
		name := v.called()
		t.Run(name, func(t *testing.T) {
			if names[name] || name == "" {
				t.Errorf("the name %q is there already, or none", name)
			}
			names[name] = true
			row := reflect.ValueOf(v).Elem()
			for k := range row.NumField() {
				if row.Field(k).IsZero() {
					t.Errorf("the row has no %s", row.Type().Field(k).Name)
				}
			}

			try, known := all[name]
			_, page := v.(pageSide)
			_, line := v.(lineSide)
			if !known || page != (try.page != "") || line != (try.line != nil) {
				t.Fatalf("the row is for the page (%v) and the command line (%v), and the test tries %+v", page, line,
					try)
			}
			askThePage(t, name, try)
			askTheLine(t, v, try)
		})
	}
	if len(all) != len(names) {
		t.Errorf("%d verbs are tried, the table has %d", len(all), len(names))
	}
}

func askThePage(t *testing.T, name string, try tried) {
	t.Helper()
	if try.page == "" {
		if _, _, err := reply(name, []byte(`{}`), nil, nil); err == nil ||
			!strings.Contains(err.Error(), "no verb called") {
			t.Errorf("the worker answers what is not the page's: %v", err)
		}
		return
	}

	d := small()
	// A triangle with its middle on a rotation point, for remake.
	d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: "t",
		Outline: orb.MultiPolygon{{{{0, 0}, {6, 0}, {0, 6}, {0, 0}}}}})
	d.Motifs = append(d.Motifs, draft.Motif{ID: "centred", Silhouette: "t", At: [2]float64{13, 13}, Scale: 1})
	var args map[string]any
	if err := json.Unmarshal([]byte(try.page), &args); err != nil {
		t.Fatal(err)
	}
	args["draft"] = string(d.Encode())
	sent, err := json.Marshal(args)
	if err != nil {
		t.Fatal(err)
	}
	if text, _, err := reply(name, sent, try.bytes, nil); err != nil || !json.Valid([]byte(text)) {
		t.Errorf("the page is answered %.100q, %v", text, err)
	}
}

func askTheLine(t *testing.T, v verb, try tried) {
	t.Helper()
	name := v.called()
	if try.line == nil {
		if err := run([]string{name}, &bytes.Buffer{}); !errors.Is(err, errUsage) ||
			!strings.Contains(err.Error(), "no verb") {
			t.Errorf("the command line answers what is not its own: %v", err)
		}
		return
	}

	if use, about := words(v.(lineSide)); !strings.HasPrefix(use, name) ||
		!strings.Contains(usage(), use+"\n      "+about+"\n") {
		t.Errorf("the help does not say %q, %q", use, about)
	}
	dir := t.TempDir()
	picture := filepath.Join(dir, "dot.png")
	if err := os.WriteFile(picture, dot(), 0o644); err != nil {
		t.Fatal(err)
	}
	at := strings.NewReplacer("DRAFT", saved(t, small()), "PICTURE", picture, "DIR", dir)
	args := []string{name}
	for _, a := range try.line {
		args = append(args, at.Replace(a))
	}
	var out bytes.Buffer
	if err := run(args, &out); err != nil || out.Len() == 0 && name != "picture" {
		t.Errorf("%q prints %d bytes, %v", args, out.Len(), err)
	}
	for _, name := range try.files {
		if info, err := os.Stat(filepath.Join(dir, name)); err != nil || info.Size() < 500 {
			t.Errorf("the file %s: %v", name, err)
		}
	}
}
