package say

import (
	"testing"

	"openwork/geometry"
)

func TestCarried(t *testing.T) {
	upright := geometry.MirrorX
	for _, c := range []struct {
		name  string
		op    geometry.Map
		moved float64
		want  string
	}{
		{"identity", geometry.Identity.Moved(30, 0), 0, "as it was placed"},
		{"half turn", geometry.TurnDegrees(180), 0, "turned by 180°"},
		{"third turn back", geometry.TurnDegrees(-120), 0, "turned by 240°"},
		{"sixth turn", geometry.TurnDegrees(60), 0, "turned by 60°"},
		{"mirror", upright, 0, "mirrored"},
		{"glide", upright.Moved(0, 45), 45, "mirrored and moved along"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Carried(c.op, c.moved); got != c.want {
				t.Errorf("%q, not %q", got, c.want)
			}
		})
	}
}
