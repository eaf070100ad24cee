package stepping

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// Fewest asks for the sheet that is laid least often.
const Fewest = "fewest"

// Choice is a stepping sheet that could be made.
type Choice struct {
	Name    string  `json:"name"`    // smallest: of all sheets; fewest: that are laid, on the bed
	Repeats [2]int  `json:"repeats"` // cells along a and b; zeros: the smallest piece that holds whole repeats
	Width   float64 `json:"width"`   // mm
	Height  float64 `json:"height"`
	Lays    int     `json:"lays"`
	Passes  int     `json:"passes"`
}

// fewest returns the cells along a and b on the sheet that fits the bed and is laid least often; of several the
// smallest sheet. False when none fits.
func (f *field) fewest(o Options, open []*opened) (repeats [2]int, ok bool) {
	all := [][2]int{{}}
	across, up := f.useful()
	for k := 1; k <= across; k++ {
		for n := 1; n <= up; n++ {
			if float64(k*n)*f.openArea() <= o.Bed.Width*o.Bed.Height {
				all = append(all, [2]int{k, n})
			}
		}
	}
	// Those that may be laid least often come first; then most of the others cannot be better.
	bound := func(r [2]int) int {
		on := f.steps(r).count() * len(f.kinds)
		return (len(open) + on - 1) / on
	}
	slices.SortStableFunc(all, func(r, q [2]int) int { return bound(r) - bound(q) })

	lays, size := math.MaxInt, 0.0
	for _, r := range all {
		if bound(r) > lays {
			break
		}
		sh, err := f.sheet(o, r)
		if err != nil {
			continue
		}
		n := len(sh.fewestLays(open).lays(open))
		if n < lays || n == lays && area(sh.rect) < size {
			repeats, lays, size, ok = r, n, area(sh.rect), true
		}
	}
	return repeats, ok
}

// fewestLays returns the sheet with its openings moved together by the lattice's vector that lets it be laid least
// often: where the field ends between two places, it may as well end after one.
func (sh *sheet) fewestLays(open []*opened) *sheet {
	best, fewest := cell{}, math.MaxInt
	tried := 0
	for i := range sh.steps.a {
		for j := range sh.steps.d {
			if tried += len(open); tried > maxMoves && tried > len(open) {
				break
			}
			if n := sh.count(open, cell{i, j}); n < fewest {
				best, fewest = cell{i, j}, n
			}
		}
	}
	if best == (cell{}) {
		return sh
	}

	out := *sh
	out.slots = slices.Clone(sh.slots)
	for i := range out.slots {
		out.slots[i].cell = out.slots[i].cell.plus(best)
	}
	v := sh.frame.Vector(sh.f.fine.at(best))
	out.box, out.rect = moved(sh.box, v), moved(sh.rect, v)
	return &out
}

// count returns at how many places the sheet is laid once its openings are moved together.
func (sh *sheet) count(open []*opened, by cell) int {
	from := map[slot]cell{}
	for _, t := range sh.slots {
		from[slot{t.kind, sh.steps.residue(t.cell)}] = t.cell
	}
	places := map[cell]bool{}
	for _, o := range open {
		c := o.cell.minus(by)
		places[sh.steps.of(c.minus(from[slot{o.kind, sh.steps.residue(c)}]))] = true
	}
	return len(places)
}

// choices sets the smallest sheet and the one that is laid least often, where the bed is known and takes them, and says
// what the one costs against the other.
func (s *Stepping) choices(open []*opened) {
	if s.o.Bed == nil {
		return
	}
	f := s.sheet.f
	add := func(name string, repeats [2]int) {
		c, err := f.stepping(s.o, repeats, open)
		if err != nil {
			return // it fits no bed, or is laid too often
		}
		s.Choices = append(s.Choices, Choice{name, repeats, c.Width, c.Height, len(c.Places), len(c.Passes)})
	}
	add("smallest", [2]int{})
	if repeats, ok := f.fewest(s.o, open); ok {
		add(Fewest, repeats)
	}
	if len(s.Choices) < 2 {
		return
	}

	small, few := s.Choices[0], s.Choices[1]
	u := s.unit()
	if small.Lays <= few.Lays {
		s.Trade = fmt.Sprintf("The smallest sheet, %s, is laid %s, and no larger one that fits the bed is laid less "+
			"often.", u.Size(small.Width, small.Height), times(small.Lays))
		return
	}
	s.Trade = fmt.Sprintf("The smallest sheet is %s and is laid %s in %s; the one that is laid least often is %s: %s "+
		"in %s, with %.1f times the stock.", u.Size(small.Width, small.Height), times(small.Lays),
		counted(small.Passes, "pass", "passes"), u.Size(few.Width, few.Height), times(few.Lays),
		counted(few.Passes, "pass", "passes"), few.Width*few.Height/(small.Width*small.Height))
}

// times says how often.
func times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}

// counted is a number with its noun.
func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

func area(b orb.Bound) float64 { return (b.Max[0] - b.Min[0]) * (b.Max[1] - b.Min[1]) }
