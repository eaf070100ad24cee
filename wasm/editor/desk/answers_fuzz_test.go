package desk

import (
	"encoding/json"
	"math/rand/v2"
	"testing"

	"openwork/pattern"
	"openwork/pattern/patterntest"
)

// FuzzAnswers gives the desk texts as the engine's answers, and as what the page read from a picture or sends as a command:
// whatever they say, they are taken or refused, and what the desk shows can be shown.
func FuzzAnswers(f *testing.F) {
	r := rand.New(rand.NewPCG(68, 0))
	data := make([]byte, 4000)
	for i := range data {
		data[i] = byte(r.Uint32())
	}
	c := &caller{k: New(pattern.Default()), s: patterntest.NewStream(data)}
	for range 6 {
		f.Add(c.report(), int8(0))
		f.Add(c.mends(), int8(0))
		f.Add(c.found(), int8(1))
	}
	for _, text := range []string{"", "null", "[]", "{}", "[null]", `{"problems":[null]}`, `{"problems":null,"weak":[{}]}`, `{"weak":[{"inPlane":1}]}`, `[{"command":{"name":"cell"}}]`,
		`[{"kinds":["bridge"],"command":{"name":"size"},"before":2,"after":1}]`, `[{"outline":[[[[0,0],[9,0],[0,9],[0,0]]]]}]`, `[{"outline":[[[]]]}]`,
		`[{"outline":[null,[null]]}]`, `{"name":"draw","outline":[[[[0,0],[9,0],[0,9],[0,0]]]]}`, `{"name":"retie"}`, `{"name":"ties","ties":[{}]}`} {
		f.Add(text, int8(2))
	}
	first := patterntest.Draft(rand.New(rand.NewPCG(69, 0)), "p2")
	f.Fuzz(func(t *testing.T, text string, which int8) {
		k := New(first)
		k.Resize(800, 600)
		c := &caller{t: t, k: k, said: "answers"}
		was := string(k.Draft().Encode())
		token := k.State().Check.Token
		taken := []error{k.Answer(token, text), k.Mends(token, text), k.Recognised(token, text)}
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
		if string(k.Draft().Encode()) != was {
			t.Fatal("an answer changed the draft")
		}

		var err error
		switch which & 3 {
		case 0:
			err = k.Mend(0)
		case 1:
			err = k.Pieces(text, []int{0}, "add")
		case 2:
			err = k.Pieces(text, []int{0, 1}, "replace:"+first.Silhouettes[0].ID)
		case 3:
			var cmd pattern.Command
			if err = json.Unmarshal([]byte(text), &cmd); err == nil {
				err = k.Do(cmd)
			}
		}
		if bad := k.Draft().Check(); bad != nil {
			t.Fatal(bad)
		}
		if k.layout == nil {
			t.Fatal("the draft cannot be laid out")
		}
		if after := string(k.Draft().Encode()); after != was {
			if err != nil {
				t.Fatalf("it is refused, %v, and yet changed the draft", err)
			}
			c.undoes(was, after)
		}
	})
}
