package pattern_test

import (
	"encoding/json"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
)

func TestTieCommands(t *testing.T) {
	base := tiedDraft()
	with := func(name string, kv ...any) pattern.Command { return pattern.Command{Name: name, Values: value(kv...)} }
	tie := func(c pattern.Command, id string) pattern.Command { c.ID = id; return c }
	all := value("fromX", 1.00004, "fromY", 2.0, "toX", 3.0, "toY", 9.0, "width", 1.5)
	for _, c := range []struct {
		name string
		c    pattern.Command
		want []draft.Tie // nil for an error
		text string      // how it begins
	}{
		{"of the field", pattern.Command{Name: "tie", Values: all},
			append(slices.Clone(base.Ties), draft.Tie{From: [2]float64{1, 2}, To: [2]float64{3, 9}, Width: 1.5}), ""},
		{"of a silhouette", pattern.Command{Name: "tie", ID: "leaf", Values: all},
			append(slices.Clone(base.Ties), draft.Tie{Silhouette: "leaf", From: [2]float64{1, 2}, To: [2]float64{3, 9},
				Width: 1.5}), ""},
		{"of none", pattern.Command{Name: "tie", ID: "heron", Values: all}, nil,
			"ties[2].silhouette: no silhouette is called"},
		{"half a tie", with("tie", "fromX", 1.0, "fromY", 2.0), nil, "a new tie needs toX"},
		{"no number", with("retie", "index", 0.0, "width", math.NaN()), nil, "width is not a number"},
		{"wider", with("retie", "index", 1.0, "width", 4.0),
			[]draft.Tie{base.Ties[0], {From: base.Ties[1].From, To: base.Ties[1].To, Width: 4}}, ""},
		{"moved", with("retie", "index", 0.0, "fromX", -1.0, "toX", -1.0),
			[]draft.Tie{{Silhouette: "frame", From: [2]float64{-1, 3}, To: [2]float64{-1, 11}, Width: 3}, base.Ties[1]},
			""},
		{"to nothing", with("retie", "index", 1.0, "toX", 55.0, "toY", 5.0), nil,
			"ties[1].to: the tie's ends lie on one place"},
		{"over everything", with("retie", "index", 0.0, "fromY", -50.0, "toY", 50.0, "width", 60.0), nil,
			"ties[0]: the ties leave nothing of their silhouette"},
		{"which", with("retie", "width", 4.0), nil, "which of the 2 ties is meant must be said"},
		{"a third", with("untie", "index", 2.0), nil, "there is no tie 2; they are counted from 0 to 1"},
		{"a half", with("untie", "index", 0.5), nil, "there is no tie 0.5"},
		{"away", with("untie", "index", 0.0), base.Ties[1:], ""},
		{"the list", pattern.Command{Name: "ties",
			Ties: []draft.Tie{{From: [2]float64{0.00004, 0}, To: [2]float64{5, 5}, Width: 1.00001}}},
			[]draft.Tie{{To: [2]float64{5, 5}, Width: 1}}, ""},
		{"a bad list", pattern.Command{Name: "ties", Ties: []draft.Tie{{To: [2]float64{5, math.NaN()}, Width: 1}}}, nil,
			"ties[0].to[1]: not a number"},
		{"no list", pattern.Command{Name: "ties"}, []draft.Tie{}, ""},
		{"silhouette gone", tie(pattern.Command{Name: "discard"}, "frame"), base.Ties[1:], ""},
		{"silhouette redrawn", pattern.Command{Name: "redraw", ID: "frame",
			Outline: orb.MultiPolygon{{{{0, 0}, {30, 0}, {30, 30}, {0, 0}}}}}, base.Ties, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := tiedDraft()
			was := string(d.Encode())
			h := pattern.NewHistory(d)
			err := h.Do(c.c)
			if string(d.Encode()) != was {
				t.Fatalf("the draft given was changed")
			}
			if c.want == nil {
				if err == nil || !strings.HasPrefix(err.Error(), c.text) {
					t.Errorf("got %v, want %s", err, c.text)
				}
				return
			}
			if err != nil {
				t.Errorf("%v", err)
				return
			}
			if got := h.Draft().Ties; !slices.Equal(got, c.want) {
				t.Errorf("got %v, want %v", got, c.want)
			}
			if h.UndoLabel() == "" || !h.Undo() || string(h.Draft().Encode()) != was {
				t.Errorf("it is not undone")
			}
		})
	}
}

// A command with ties passes through JSON, null and all.
func TestTiesAsJSON(t *testing.T) {
	c := pattern.Command{Name: "ties", Ties: tiedDraft().Ties}
	text, err := json.Marshal(c)
	if err != nil || !strings.Contains(string(text), `"silhouette":null`) {
		t.Fatal(string(text), err)
	}
	var back pattern.Command
	if err := json.Unmarshal(text, &back); err != nil || !reflect.DeepEqual(back, c) {
		t.Errorf("%+v, %v", back, err)
	}
}
