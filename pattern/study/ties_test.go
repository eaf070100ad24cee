package study

import (
	"bytes"
	"fmt"
	"image/color"
	"image/png"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
)

// The painted panel is bare where a tie lies, of the field or of a silhouette, and painted beside it.
func TestPictureLeavesTiesBare(t *testing.T) {
	d := draft.Default()
	d.Panel, d.Field.Origin = draft.Panel{Width: 200, Height: 200}, [2]float64{100, 100}
	d.Repeat = draft.Repeat{Group: "p2", A: 500, B: 500, Gamma: 90}
	d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "S",
		Outline: orb.MultiPolygon{{{{0, 0}, {60, 0}, {60, 40}, {0, 40}, {0, 0}}}}}}
	d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", Scale: 1}}
	// Two copies: (100, 100) to (160, 140), and turned about (100, 100).
	d.Ties = []draft.Tie{{From: [2]float64{15, -5}, To: [2]float64{15, 45}, Width: 4},
		{Silhouette: "s", From: [2]float64{45, -5}, To: [2]float64{45, 45}, Width: 4}}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := Picture(l, Options{Width: 400}, &b); err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		x, y float64
		bare bool
	}{
		{115, 120, true}, {145, 120, true}, {85, 80, true}, {55, 80, true},
		{105, 120, false}, {130, 120, false}, {155, 120, false}, {95, 80, false}, {70, 80, false}, {45, 80, false},
		{118.5, 120, false}, {30, 30, true},
	} {
		t.Run(fmt.Sprintf("at (%v, %v)", c.x, c.y), func(t *testing.T) {
			got := color.RGBAModel.Convert(img.At(int(2*c.x), int(2*(200-c.y)))).(color.RGBA)
			if want := map[bool]color.RGBA{true: groundColour, false: pasteColour}[c.bare]; got != want {
				t.Errorf("at (%g, %g) mm the picture is %v, want %v", c.x, c.y, got, want)
			}
		})
	}
	b.Reset()
	// one motif's outline, in two rectangles of one path, and two ties
	if err := SVG(l, &b); err != nil || strings.Count(b.String(), `d="M`) != 3 {
		t.Errorf("%d paths: %s (%v)", strings.Count(b.String(), `d="M`), b.String(), err)
	}
}
