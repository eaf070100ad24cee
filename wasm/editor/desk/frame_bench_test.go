package desk

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// BenchmarkFrame is one step of a drag of a copy of the demonstration with the marks that the canvas is painted with:
// plain, with twelve colours, with a subject of 1,000 points that crops, and with both. In a frame with words, which
// some ten in a second are, the page is given its state as well.
func BenchmarkFrame(b *testing.B) {
	for _, c := range []struct {
		name                   string
		colours, figure, words bool
	}{{"plain", false, false, false}, {"colours", true, false, false}, {"subject", false, true, false},
		{"both", true, true, false}, {"plain with words", false, false, true}, {"both with words", true, true, true}} {
		b.Run(c.name, func(b *testing.B) {
			d := patterntest.Demo(b)
			if c.colours {
				d.Paint = draft.NewPaint()
				hand := &draft.ByHand{Cells: [2]int{3, 4}}
				for i := range 12 {
					id := fmt.Sprintf("c%d", i)
					d.Swatches = append(d.Swatches,
						draft.Swatch{ID: id, Name: id, Colour: fmt.Sprintf("#%02x4080", 20*i)})
					d.Paint.Colours = append(d.Paint.Colours, id)
					hand.Copies = append(hand.Copies,
						draft.HandColour{Motif: d.Motifs[0].ID, Cell: [2]int{i % 3, i / 3}, Colour: i})
				}
				d.Paint.ByHand = hand
			}
			if c.figure {
				d.Subjects = []draft.Subject{{ID: "subject1", Name: "Stone", Scale: 1, Room: 10, Edge: draft.Crop,
					Outline: patterntest.Smooth(rand.New(rand.NewPCG(4, 4)), d.Panel.Width/3, 1000),
					At:      [2]float64{d.Panel.Width / 2, d.Panel.Height / 2}}}
			}
			if err := d.Check(); err != nil {
				b.Fatal(err)
			}
			k := New(d)
			k.Resize(900, 700)
			all, err := k.Session.layout.Copies()
			if err != nil {
				b.Fatal(err)
			}
			var p orb.Point
			for _, copied := range all {
				if p = centre(k, copied); copied.Op == 0 {
					if _, ok := k.copies.Hit(p); ok {
						break
					}
				}
			}
			k.Pointer("down", 1, p[0], p[1], 0, "mouse")
			k.Pointer("move", 1, p[0]+8, p[1], 0, "mouse")
			i := 0
			for b.Loop() {
				i++
				k.Pointer("move", 1, p[0]+8*math.Cos(float64(i)/20), p[1]+8*math.Sin(float64(i)/20), 0, "mouse")
				if c.words {
					k.State()
				}
				k.Session.Show(func() { k.Session.Marks() })
			}
			k.Pointer("up", 1, p[0], p[1], 0, "mouse")
		})
	}
}
