package panel

import (
	"math/rand/v2"
	"strconv"
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// benchDraft is 2,000 copies of 300 points each, of which one in twenty runs into another: twenty motifs in a p1 cell,
// a hundred cells, one motif pushed into the next. Or, different, as many motifs in a cell as a draft holds, 500, in
// four cells.
func benchDraft(different bool) draft.Draft {
	r := rand.New(rand.NewPCG(77, 1))
	d := draft.Default()
	d.Panel = draft.Panel{Width: 2040, Height: 1640}
	d.Field = draft.Field{Margin: 20, Origin: [2]float64{20, 20}, Edge: draft.Whole}
	d.Repeat = draft.Repeat{Group: "p1", A: 200, B: 160, Gamma: 90}
	across, down := 5, 4
	if different {
		d.Repeat.A, d.Repeat.B = 1000, 800
		across, down = 25, 20
	}
	for i := range 4 {
		d.Silhouettes = append(d.Silhouettes, draft.Silhouette{ID: string(rune('a' + i)),
			Outline: patterntest.Smooth(r, 15, 300)})
	}
	for i := range across * down {
		at := [2]float64{20 + 40*float64(i%across), 20 + 40*float64(i/across)}
		if i%20 == 7 {
			at[0] -= 28
		}
		d.Motifs = append(d.Motifs, draft.Motif{ID: "m" + strconv.Itoa(i), Silhouette: string(rune('a' + i%4)), At: at,
			Turn: float64(17 * i), Scale: 1})
	}
	return d
}

func BenchmarkPanel(b *testing.B)          { benchPanel(b, benchDraft(false)) }
func BenchmarkPanelDifferent(b *testing.B) { benchPanel(b, benchDraft(true)) }

func benchPanel(b *testing.B, d draft.Draft) {
	var overlaps, copies int
	for b.Loop() {
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			b.Fatal(err)
		}
		report, err := Check(l)
		if err != nil {
			b.Fatal(err)
		}
		overlaps, copies = 0, report.Counts.Copies
		for _, p := range report.Problems {
			if p.Kind == "overlap" {
				overlaps++
			}
		}
	}
	if copies < 1900 || overlaps < 90 {
		b.Fatalf("%d copies, %d overlaps", copies, overlaps)
	}
}

// BenchmarkSubject is the check of the demonstration, and of a panel of 2,000 copies, without and with a subject of
// 1,000 points before them, about half as wide as the panel.
func BenchmarkSubject(b *testing.B) {
	for name, d := range map[string]draft.Draft{"demo": patterntest.Demo(b), "large": benchDraft(false)} {
		d.Field.Edge = draft.Crop
		for _, edge := range []draft.Edge{"", draft.Crop, draft.Whole, draft.Behind} {
			if d.Subjects = nil; edge != "" {
				d.Subjects = []draft.Subject{{ID: "subject1", Name: "Stone", Scale: 1, Room: 10, Edge: edge,
					Outline: patterntest.Smooth(rand.New(rand.NewPCG(4, 4)), d.Panel.Width/3, 1000),
					At:      [2]float64{d.Panel.Width / 2, d.Panel.Height / 2}}}
			}
			b.Run(name+"-"+string(edge), func(b *testing.B) {
				for b.Loop() {
					l, err := pattern.NewLayout(d, nil)
					if err != nil {
						b.Fatal(err)
					}
					if _, err := Check(l); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
