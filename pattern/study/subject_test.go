package study_test

import (
	"bytes"
	"image/png"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/study"
)

// In a picture the subject is in front, its room is bare ground where openings stop at it, and has openings where the
// pattern runs on behind.
func TestPictureOfASubject(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 0))
	for _, edge := range []draft.Edge{draft.Crop, draft.Whole, draft.Behind} {
		d := patterntest.Demo(t)
		d.Subjects = []draft.Subject{{ID: "subject1", Name: "Stone", Scale: 1, Room: 30, Edge: edge,
			Outline: patterntest.Smooth(r, 150, 200), At: [2]float64{280, 470}}}
		l, err := pattern.NewLayout(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		var file bytes.Buffer
		if err := study.Picture(l, study.Options{Width: 600, Flat: true}, &file); err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(&file)
		if err != nil {
			t.Fatal(err)
		}
		room, err := l.RoomOf(d.Subjects[0])
		if err != nil {
			t.Fatal(err)
		}
		subject := geometry.NewShape(d.Subjects[0].Placed())
		clear := func(s *geometry.Shape, p orb.Point) bool { return !s.Nearer(p, 2) } // of edges, which are mixed
		seen := map[string]map[uint32]int{"subject": {}, "room": {}, "field": {}}
		for y := 1; y < 900; y += 3 {
			for x := 1; x < 600; x += 3 {
				p := orb.Point{float64(x) + 0.5, 900 - float64(y) - 0.5}
				red, green, blue, _ := img.At(x, y).RGBA()
				c := red>>8<<16 | green>>8<<8 | blue>>8
				switch {
				case !clear(subject, p) || !clear(room, p):
				case subject.Contains(p):
					seen["subject"][c]++
				case room.Contains(p):
					seen["room"][c]++
				default:
					seen["field"][c]++
				}
			}
		}
		if len(seen["subject"]) != 1 || len(seen["field"]) < 2 {
			t.Errorf("%s: %d colours in the subject, %d in the field", edge, len(seen["subject"]), len(seen["field"]))
		}
		if bare := len(seen["room"]) == 1; bare != (edge != draft.Behind) {
			t.Errorf("%s: %d colours in the room", edge, len(seen["room"]))
		}
	}
}
