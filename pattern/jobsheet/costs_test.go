package jobsheet

import (
	"fmt"
	"strings"
	"testing"

	"openwork/pattern/machine"
)

// Thick stock takes longer than thin; the shop's table goes before the usual one; a minimum charge is the least.
func TestTimeAndCost(t *testing.T) {
	d := squares()
	o := Defaults()
	o.Rate = 60
	film, _ := written(t, d, o)
	d.Sheet.Stock, d.Sheet.Thickness = "birch plywood", 3
	ply, path := written(t, d, o)
	if film.CutSpeed != 45 || ply.CutSpeed != 15 || ply.Seconds < 2*film.Seconds || ply.Seconds > 4*film.Seconds {
		t.Errorf("film at %g mm/s takes %g s, plywood at %g mm/s %g s", film.CutSpeed, film.Seconds, ply.CutSpeed,
			ply.Seconds)
	}
	if text := words(t, path); !strings.Contains(text, "15 mm/s, common practice for this stock") {
		t.Errorf("the speed is not in %q", text)
	}
	o.Speeds = []machine.Speed{{Stock: "birch", Thickness: 3, Speed: 30}}
	o.Minimum, o.Currency = 500, "kr"
	own, path := written(t, d, o)
	if own.CutSpeed != 30 || own.Seconds >= ply.Seconds || *own.Cost != 500 ||
		!strings.Contains(words(t, path), "Minimum charge 500.00 kr") {
		t.Errorf("at %g mm/s it takes %g s and costs %g", own.CutSpeed, own.Seconds, *own.Cost)
	}
}

func TestDuration(t *testing.T) {
	for s, want := range map[float64]string{0.4: "0 s", 59.4: "59 s", 59.7: "1 min 00 s", 3599.4: "59 min 59 s",
		3599.6: "1 h 00 min", 7170: "2 h 00 min", 5400: "1 h 30 min"} {
		t.Run(fmt.Sprintf("%v s", s), func(t *testing.T) {
			if got := strings.ReplaceAll(duration(s), "\u00a0", " "); got != want {
				t.Errorf("%g s is %q, want %q", s, got, want)
			}
		})
	}
}
