package desk

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
)

// report is an answer of the check's, of the shape it has, with figures of any size.
func (c *caller) report() string {
	kinds := []sheet.Kind{sheet.Overlap, sheet.Bridge, sheet.Tip, sheet.Island, sheet.Opening,
		sheet.Edge, sheet.Size, sheet.Empty, sheet.Unclear, "other", ""}
	r := sheet.Report{Sound: c.s.Flag(), OpenArea: c.number(), SheetArea: c.number()}
	if c.s.Flag() {
		v := c.number()
		r.NarrowestBetween = &v
	}
	for range c.s.Pick(6) {
		p := sheet.Problem{Kind: kinds[c.s.Pick(len(kinds))], Severity: sheet.Severity(c.s.Text("fault", "warning")),
			At: [2]float64{c.number(), c.number()}, Measured: c.number(), Required: c.number(),
			Text: c.s.Text("A place.")}
		if c.s.Flag() {
			p.Ends = &[2][2]float64{{c.number(), c.number()}, {c.number(), c.number()}}
		}
		r.Problems = append(r.Problems, p)
	}
	for range c.s.Pick(5) {
		strip := sheet.Strip{At: [2]float64{c.number(), c.number()}, Width: c.number(), Length: c.number(),
			Free: c.s.Flag()}
		if c.s.Flag() {
			v := c.number()
			strip.InPlane = &v
			if c.s.Flag() {
				strip.Lifted = &v
			}
		}
		r.Weak = append(r.Weak, strip)
	}
	return c.torn(c.odd(r))
}

// number is one that the engine may send: JSON holds it, and places and sizes are far below what a float64 holds.
func (c *caller) number() float64 {
	const most = 1e15
	if v := c.s.Number(); math.Abs(v) <= most {
		return v
	}
	return most
}

// odd writes a value as JSON, now and then with a member taken out or made something else.
func (c *caller) odd(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		c.t.Fatal(err)
	}
	if c.s.Pick(4) > 0 {
		return string(b)
	}
	var m any
	if json.Unmarshal(b, &m) != nil {
		return string(b)
	}
	if list, ok := m.([]any); ok && len(list) > 0 {
		m = list[0]
	}
	if object, ok := m.(map[string]any); ok {
		for name := range object {
			if c.s.Pick(4) == 0 {
				object[name] = []any{nil, -1e300, "text", []any{}, map[string]any{}}[c.s.Pick(5)]
			}
		}
	}
	b, _ = json.Marshal(m)
	return string(b)
}

func (c *caller) found() string {
	return c.torn(c.odd(Found{Chosen: c.s.Text("p1", "p2", "pm"), Actual: c.s.Text("p1", "p4", "p6mm"),
		Primitive: [2][2]float64{{c.number(), c.number()}, {c.number(), c.number()}}}))
}

func (c *caller) mends() string {
	var list []sheet.Mend
	for range c.s.Pick(4) {
		v := c.number()
		m := sheet.Mend{Kinds: []sheet.Kind{sheet.Bridge, "other"}, Command: c.s.Command(c.k.Session.Draft()),
			Before: c.s.Pick(9), After: c.s.Pick(9), Narrowest: &v}
		if _, err := json.Marshal(m); err == nil { // it has no number that is none
			list = append(list, m)
		}
	}
	return c.torn(c.odd(list))
}

// FuzzAnswers gives the desk texts as the engine's answers, and as what the page read from a picture or sends as a
// command: whatever they say, they are taken or refused, and what the desk shows can be shown.
func FuzzAnswers(f *testing.F) {
	r := rand.New(rand.NewPCG(68, 0))
	data := make([]byte, 4000)
	for i := range data {
		data[i] = byte(r.Uint32())
	}
	c := &caller{k: New(draft.Default()), s: patterntest.NewStream(data)}
	for range 6 {
		f.Add(c.report(), int8(0))
		f.Add(c.mends(), int8(0))
		f.Add(c.found(), int8(1))
	}
	for _, text := range []string{"", "null", "[]", "{}", "[null]",
		`{"problems":[null]}`, `{"problems":null,"weak":[{}]}`,
		`{"weak":[{"inPlane":1}]}`, `[{"command":{"name":"cell"}}]`,
		`[{"kinds":["bridge"],"command":{"name":"size"},"before":2,"after":1}]`,
		`[{"outline":[[[[0,0],[9,0],[0,9],[0,0]]]]}]`, `[{"outline":[[[]]]}]`, `[{"outline":[null,[null]]}]`,
		`{"name":"draw","outline":[[[[0,0],[9,0],[0,9],[0,0]]]]}`, `{"name":"retie"}`, `{"name":"ties","ties":[{}]}`} {
		f.Add(text, int8(2))
	}
	first := patterntest.Draft(rand.New(rand.NewPCG(69, 0)), "p2")
	f.Fuzz(func(t *testing.T, text string, which int8) {
		k := New(first)
		k.Resize(800, 600)
		c := &caller{t: t, k: k, said: "answers"}
		was := string(k.Session.Draft().Encode())
		token := k.State().Check.Token
		taken := []error{k.Session.Answer(token, text), k.Session.Mends(token, text), k.Session.Recognised(token, text)}
		if !json.Valid([]byte(text)) {
			for i, err := range taken {
				if err == nil {
					t.Fatalf("answer %d is no JSON and is taken", i)
				}
			}
		}
		for i := range 3 {
			k.Goto(i)
			c.look()
		}
		if string(k.Session.Draft().Encode()) != was {
			t.Fatal("an answer changed the draft")
		}

		var err error
		switch which & 3 {
		case 0:
			err = k.Mend(0)
		case 1:
			err = k.Pieces(text, []int{0}, "add", true)
		case 2:
			err = k.Pieces(text, []int{0, 1}, "replace:"+first.Silhouettes[0].ID, false)
		case 3:
			var cmd pattern.Command
			if err = json.Unmarshal([]byte(text), &cmd); err == nil {
				err = k.Do(cmd)
			}
		}
		if bad := k.Session.Draft().Check(); bad != nil {
			t.Fatal(bad)
		}
		if k.Session.layout == nil {
			t.Fatal("the draft cannot be laid out")
		}
		if after := string(k.Session.Draft().Encode()); after != was {
			if err != nil {
				t.Fatalf("it is refused, %v, and yet changed the draft", err)
			}
			c.undoes(was, after)
		}
	})
}
