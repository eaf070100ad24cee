package pattern_test

import (
	"strings"
	"testing"

	"openwork/pattern"
)

// What a layout must hold is bounded: a draft whose copies in one cell have too many points together is none.
func TestPointsOfACellAreBounded(t *testing.T) {
	outline := ellipse(20, 10, 20000)
	d := onOnePlace(outline, 16)
	if err := d.Check(); err != nil {
		t.Errorf("3.84 million points: %v", err)
	}
	d = onOnePlace(outline, 17)
	if err := d.Check(); err == nil || !strings.Contains(err.Error(), "4080000 points") {
		t.Errorf("4.08 million points: %v", err)
	}
	d.Repeat.Group = "p6"
	if err := d.Check(); err != nil {
		t.Errorf("half as many: %v", err)
	}
	if _, err := pattern.Apply(d, pattern.Command{Name: "group", Text: "p6mm"}); err == nil {
		t.Error("a command goes over the limit")
	}
}

// Motifs on one place are told apart where they differ by more than SameSlack, and are one where they do not, in
// whatever order they are looked at: boxes decide only what outlines would.
func TestSameImagesByBoxes(t *testing.T) {
	for _, c := range []struct {
		name string
		b    float64 // the shorter half axis; the longer is 20
		turn float64
		same bool
	}{
		{"a disc turned", 20, 7, true},
		{"nearly a disc, by 0.01 mm", 19.99, 90, true},
		{"by 0.019 mm", 19.981, 90, true},
		{"by 0.05 mm", 19.95, 90, false},
		{"an ellipse turned by little", 10, 0.02, true},
		{"an ellipse turned by more", 10, 0.3, false},
		{"an ellipse turned half round", 10, 180, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := onOnePlace(ellipse(20, c.b, 400), 2)
			d.Repeat.Group, d.Repeat.Gamma = "p1", 90
			d.Motifs[1].Turn = c.turn
			l, err := pattern.NewLayout(d, nil)
			if err != nil {
				t.Fatal(err)
			}
			if same := l.Orbits[1].SameAs == 0; same != c.same {
				t.Errorf("they are one: %v", same)
			}
		})
	}
}
