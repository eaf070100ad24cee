package draft_test

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"openwork/pattern/draft"
)

// edits are bad inputs: what is replaced in whole by what, and the beginning of the error that must come.
var edits = []struct{ old, new, want string }{
	// Writing.
	{whole, "", "the text is empty"},
	{whole, " \n\t", "the text is empty"},
	{whole, "\x89PNG\r\n\x1a\n", "this is not a draft: a draft begins with {, not with "},
	{whole, "[1]", "this is not a draft: a draft begins with {, not with a list"},
	{whole, "null", "this is not a draft"},
	{whole, "{", `a key in quotes belongs here, not the end of the text (line 1, character 2)`},
	{whole, whole[:200], "repeat: a text has no closing quote (line 7, character 17)"},
	{"}\n}\n", "}\n}\n}", `the draft ends before '}'; nothing may follow it (line 12, character 1)`},
	{"}\n}\n", "}\n}\nxyz", `the draft ends before "xyz"; nothing may follow it`},
	{"}\n}\n", "}\n}\n\x00", `the draft ends before`},
	{`"mm",`, `"mm"`, `a comma or } belongs here, not a text in quotes (line 5, character 3)`},
	{`"gamma": 90}`, `"gamma": 90,}`, "repeat: a comma stands before } with nothing between (line 7, "},
	{`[300, 450]`, `[300, 450,]`, "field.origin: a comma stands before ] with nothing between"},
	{`[300, 450]`, `[300 450]`, `field.origin: a comma or ] belongs here, not the number 450`},
	{`"units": "mm"`, `"units" "mm"`, `a colon belongs after the key "units"`},
	{`"units": "mm"`, `units: "mm"`, `a key in quotes belongs here, not "units"`},
	{`"Carp"`, `"Carp`, `silhouettes[0]: a comma or } belongs here, not "outline" (line 8, `},
	{`"Carp"`, "\"Ca\nrp\"", "silhouettes[0].name: a control character stands in a text"},
	{`"Carp"`, "\"C\\n\n\"", "silhouettes[0].name: a control character stands in a text"},
	{`"Carp"`, `"\q"`, "silhouettes[0].name: a backslash stands before a character that needs none"},
	{`"Carp"`, `"\ud83d"`, `silhouettes[0].name: \u needs four hexadecimal digits`},
	{`"Carp"`, `"\u12g4"`, `silhouettes[0].name: \u needs four hexadecimal digits`},
	{`"Carp"`, "\"\xff\"", "silhouettes[0].name: a text is not valid UTF-8"},
	{`"Carp"`, "\"\\t\xff\"", "silhouettes[0].name: a text is not valid UTF-8"},

	// Keys.
	{`"gamma": 90`, `"gamma": 90, "colour": "red"`,
		"repeat.colour: not a key of a draft (version 1); known here: group, a, b, gamma"},
	{`"title"`, `"titel"`, "titel: not a key of a draft (version 1); known here: openwork, title, "},
	{`"title"`, `"a key, with \"signs\""`, `"a key, with \"signs\"": not a key of a draft`},
	{`"title"`, `""`, `"": not a key of a draft`},
	{`"mirrored": true`, `"mirrored": true, "colour": {"a": [[[[`,
		"motifs[0].colour: not a key of a draft (version 1); known here: id, silhouette, at, turn, scale, mirrored"},
	{`"units": "mm"`, `"title": "x"`, "title: the key is there twice"},
	{`"scale": 1.5`, `"turn": 3`, "motifs[0].turn: the key is there twice"},
	{`"openwork": 1,`, ``, "openwork: missing; it must be there"},
	{`"panel": {"width": 600, "height": 900},`, ``, "panel: missing"},
	{`, "height": 900`, ``, "panel.height: missing"},
	{`"group": "p2gg", `, ``, "repeat.group: missing"},
	{`"at": [40, 30], `, ``, "motifs[0].at: missing"},
	{`"id": "carp", `, ``, "silhouettes[0].id: missing"},
	{`{"width": 900, "height": 1200}`, `{"width": 900}`, "sheet.bed.height: missing"},
	{`"openwork": 1`, `"openwork": 2`, "openwork: this draft is of version 2, and this program reads version 1"},
	{`"openwork": 1`, `"openwork": 0.5`, "openwork: 0.5 is not a version of drafts"},
	{`"openwork": 1`, `"openwork": "1"`, "openwork: not a number, but a text"},

	// Kinds of value.
	{`"turn": 15`, `"turn": NaN`, `motifs[0].turn: not a number: "NaN"`},
	{`"turn": 15`, `"turn": -Infinity`, `motifs[0].turn: not a number: "-Infinity"`},
	{`"turn": 15`, `"turn": "15"`, "motifs[0].turn: not a number, but a text in quotes"},
	{`"turn": 15`, `"turn": null`, "motifs[0].turn: not a number, but null"},
	{`"turn": 15`, `"turn": true`, `motifs[0].turn: not a number, but "true"`},
	{`"turn": 15`, `"turn": [15]`, "motifs[0].turn: not a number, but a list"},
	{`"turn": 15`, `"turn": {}`, "motifs[0].turn: not a number, but an object"},
	{`"turn": 15`, `"turn": `, "motifs[0].turn: a number belongs here, not ','"},
	{`"turn": 15`, `"turn": 015`, `motifs[0].turn: not a number: "015"`},
	{`"turn": 15`, `"turn": +15`, `motifs[0].turn: not a number: "+15"`},
	{`"turn": 15`, `"turn": 15.`, `motifs[0].turn: not a number: "15."`},
	{`"turn": 15`, `"turn": .5`, `motifs[0].turn: not a number: ".5"`},
	{`"turn": 15`, `"turn": 0x15`, `motifs[0].turn: not a number: "0x15"`},
	{`"turn": 15`, `"turn": 1_5`, `motifs[0].turn: not a number: "1_5"`},
	{`"turn": 15`, `"turn": 1e`, `motifs[0].turn: not a number: "1e"`},
	{`"turn": 15`, `"turn": 1e999`, `motifs[0].turn: not a number that can be kept: "1e999" is too large`},
	{`"turn": 15`, `"turn": 0.` + strings.Repeat("1", 1300),
		"motifs[0].turn: not a number that can be kept: it is longer than"},
	{`[80, 30]`, `[80, NaN]`, `silhouettes[0].outline[0][0][2][1]: not a number: "NaN"`},
	{`[80, 30]`, `[80, 30, 0]`, "silhouettes[0].outline[0][0][2]: a point has two numbers, x and y; here are more"},
	{`[80, 30]`, `[80]`, "silhouettes[0].outline[0][0][2]: a point has two numbers, x and y; here is one"},
	{`[80, 30]`, `[]`, "silhouettes[0].outline[0][0][2]: a point has two numbers, x and y; here is none"},
	{`[80, 30]`, `80`, "silhouettes[0].outline[0][0][2]: not a list in brackets, but the number 80"},
	{`[80, 30]`, `[[80, 30]]`, "silhouettes[0].outline[0][0][2][0]: not a number, but a list"},
	{`"Carp"`, `7`, "silhouettes[0].name: not a text in quotes, but the number 7"},
	{`"Carp"`, `null`, "silhouettes[0].name: not a text in quotes, but null"},
	{`"mirrored": true`, `"mirrored": 1`, "motifs[0].mirrored: not true or false, but the number 1"},
	{`"mirrored": true`, `"mirrored": null`, "motifs[0].mirrored: not true or false, but null"},
	{`"group": "p2gg"`, `"group": 8`, "repeat.group: not a text in quotes, but the number 8"},
	{`"group": "p2gg"`, `"group": "p5"`, `repeat.group: "p5" is not a plane group; the seventeen are p1, p2, `},
	{`{"width": 600, "height": 900}`, `[600, 900]`, "panel: not an object in braces, but a list in brackets"},
	{`[40, 30]`, `40`, "motifs[0].at: not a list in brackets, but the number 40"},
	{`{"width": 900, "height": 1200}`, `null`, "sheet.bed: not an object in braces, but null"},

	// Outlines.
	{`[[0, 0], [80, 0], [80, 30], [0, 0]]`, `[[0, 0], [80, 0]]`, "silhouettes[0].outline[0][0]: a ring of 2 points"},
	{`[[0, 0], [80, 0], [80, 30], [0, 0]]`, `[[0, 0], [80, 0], [80, 0], [0, 0]]`,
		"silhouettes[0].outline[0][0]: a ring of 4 points (3 without repeats)"},
	{`[[0, 0], [80, 0], [80, 30], [0, 0]]`, `[]`, "silhouettes[0].outline[0][0]: a ring of 0 points"},
	{`[[0, 0], [80, 0], [80, 30], [0, 0]]`, `[[0, 0], [80, 0], [80, 30], [0, 30]]`,
		"silhouettes[0].outline[0][0]: the ring is not closed"},
	{`[60, 10], [65, 15], [65, 10], [60, 10]`, `[60, 10], [65, 15], [65, 10], [60, 15], [60, 10]`,
		"silhouettes[0].outline[0][1]: the ring crosses itself near (62.5, 12.5) mm"},
	{`[60, 10], [65, 15], [65, 10], [60, 10]`, `[60, 10], [65, 55], [65, 10], [60, 10]`,
		"silhouettes[0].outline[0][1]: the ring crosses ring [0][0] near ("},
	{`[80, 30]`, `[80, 1e6]`, "silhouettes[0].outline[0][0][2]: a coordinate is over 100000 mm"},
	{`[[[[0, 0], [80, 0], [80, 30], [0, 0]], [[60, 10], [65, 15], [65, 10], [60, 10]]]]`, `[]`,
		"silhouettes[0].outline: the outline is empty"},
	{`[[[[0, 0], [80, 0], [80, 30], [0, 0]], [[60, 10], [65, 15], [65, 10], [60, 10]]]]`, `[[]]`,
		"silhouettes[0].outline[0]: a polygon needs a ring"},

	// Names.
	{`"silhouette": "carp"`, `"silhouette": "heron"`,
		`motifs[0].silhouette: no silhouette is called "heron"; there is "carp"`},
	{`"motifs": [`, `"motifs": [{"id": "m1", "silhouette": "carp", "at": [0, 0]}, `,
		`motifs[1].id: "m1" is the id of motifs[0] already`},
	{`"id": "m1"`, `"id": ""`, "motifs[0].id: an id must not be empty"},
	{`"id": "m1"`, `"id": "` + strings.Repeat("é", 65) + `"`,
		"motifs[0].id: the text has 65 characters; up to 64 are kept"},
}

func TestDecodeRefuses(t *testing.T) {
	for _, c := range edits {
		if !strings.Contains(whole, c.old) {
			t.Errorf("the draft does not have %q", c.old)
			continue
		}
		text := strings.Replace(whole, c.old, c.new, 1)
		d, err := draft.Decode(strings.NewReader(text))
		var place *draft.PlaceError
		if !errors.As(err, &place) {
			t.Errorf("%.60q: got %v", c.new, err)
			continue
		}
		if !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%.60q:\n got %s\nwant %s", c.new, err, c.want)
		}
		if !reflect.DeepEqual(d, draft.Draft{}) {
			t.Errorf("%.60q: a draft came with the error", c.new)
		}
	}
}

func TestDecodeTooMany(t *testing.T) {
	var b strings.Builder
	for i := range 201 {
		fmt.Fprintf(&b, `,{"id":"s%d","outline":[[[[0,0],[1,0],[1,1],[0,0]]]]}`, i)
	}
	silhouettes := strings.Replace(whole, `[{"id": "carp"`, "["+b.String()[1:]+`,{"id":"carp"`, 1)
	b.Reset()
	for i := range 500 {
		fmt.Fprintf(&b, `{"id":"n%d","silhouette":"carp","at":[0,0]},`, i)
	}
	motifs := strings.Replace(whole, `[{"id": "m1"`, "["+b.String()+`{"id":"m1"`, 1)
	b.Reset()
	for i := range 200001 {
		fmt.Fprintf(&b, "[%d,%d],", i%90000, i/90000)
	}
	points := strings.Replace(whole, `[80, 30],`, b.String(), 1)
	for _, c := range []struct{ text, want string }{
		{silhouettes, "silhouettes: there are more than 200 silhouettes"},
		{motifs, "motifs: there are more than 500 motifs"},
		{points, "silhouettes: the outlines have more than 200000 points together"},
		{strings.Replace(whole, `[80, 30],`, strings.Repeat("[80,30],[81,31],", 200001), 1),
			"silhouettes[0].outline[0][0][400000]: the outlines have more than 200000 points together"},
		{strings.Replace(whole, `[80, 30]`, strings.Repeat("[", 1<<20), 1),
			"silhouettes[0].outline[0][0][2][0]: not a number, but a list"},
	} {
		t.Run(c.want, func(t *testing.T) {
			if _, err := draft.DecodeBytes([]byte(c.text)); err == nil || !strings.HasPrefix(err.Error(), c.want) {
				t.Errorf("got %v, want %s", err, c.want)
			}
		})
	}
}
