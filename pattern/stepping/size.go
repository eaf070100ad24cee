package stepping

import (
	"fmt"
	"math"

	"openwork/geometry"
	"openwork/pattern/draft"
)

// bedFor returns what the sheet may measure: the bed less the kerf, by which the file's page is larger than the sheet;
// zero when anything is taken.
func (f *field) bedFor(o Options) draft.Bed {
	if o.Bed == nil {
		return draft.Bed{}
	}
	kerf := f.l.Draft.Sheet.KerfTaken()
	return draft.Bed{Width: math.Max(o.Bed.Width-kerf, minSide), Height: math.Max(o.Bed.Height-kerf, minSide)}
}

// steps returns the moves that the options ask for.
func (f *field) steps(repeats [2]int) steps {
	if repeats == [2]int{} {
		return newSteps(f.fine, cell{1, 0}, cell{0, 1})
	}
	return newSteps(f.fine, f.a.times(repeats[0]), f.b.times(repeats[1]))
}

// sheet returns a sheet of so many cells along a and b, one of its own each time; what it finds is kept, for options
// that differ in the cells alone.
func (f *field) sheet(o Options, repeats [2]int) (*sheet, error) {
	k, ok := f.known[repeats]
	if !ok {
		k.sheet, k.err = f.newSheet(o, repeats)
		if f.known == nil {
			f.known = map[[2]int]found{}
		}
		f.known[repeats] = k
	}
	if k.err != nil {
		return nil, k.err
	}
	own := *k.sheet
	return &own, nil
}

// found is a sheet, or why there is none.
type found struct {
	sheet *sheet
	err   error
}

// newSheet chooses the openings in the frame that gives the smaller sheet: the field's own, or the panel's.
func (f *field) newSheet(o Options, repeats [2]int) (*sheet, error) {
	s := f.steps(repeats)
	if n := float64(s.count()) * float64(len(f.kinds)); n > maxOpenings {
		return nil, fmt.Errorf("a stepping sheet of so many repeats would hold %.0f openings, and the limit is %d; "+
			"ask for fewer repeats", n, maxOpenings)
	}
	frames := []geometry.Map{geometry.Identity}
	if f.l.Draft.Field.Turn != 0 {
		frames = append(frames, geometry.TurnDegrees(f.l.Draft.Field.Turn))
	}
	bed := f.bedFor(o)
	inner := bed
	if o.Bed != nil {
		inner = draft.Bed{Width: math.Max(bed.Width-2*o.Margin, minSide),
			Height: math.Max(bed.Height-2*o.Margin, minSide)}
	}
	var best *sheet
	for _, m := range frames {
		sh := &sheet{f: f, steps: s, frame: m}
		sh.slots, sh.box = f.choose(s, m, inner)
		sh.rect = sh.box.Pad(o.Margin)
		if best == nil || fits(sh.rect, bed) && (!fits(best.rect, bed) || area(sh.rect) < area(best.rect)) {
			best = sh
		}
	}

	if r := best.rect; !fits(r, bed) {
		return nil, fmt.Errorf("the stepping sheet would measure %s × %s mm and the kerf, with its margin of %s mm, "+
			"and the bed takes %s × %s mm; "+
			"ask for fewer repeats, a narrower margin or a larger bed", short(r.Max[0]-r.Min[0]),
			short(r.Max[1]-r.Min[1]),
			short(o.Margin), short(o.Bed.Width), short(o.Bed.Height))
	}
	return best, nil
}

// most returns the most cells along a and b whose sheet fits the bed, no more than the field has use for.
func (f *field) largest(o Options) [2]int {
	var largest [2]int
	across, up := f.useful()
	for k := 1; k <= across && up > 0; k++ {
		// With more along a, no more fit along b than before.
		for n := up; ; n-- {
			if up = n; n == 0 {
				break
			}
			if k*n <= largest[0]*largest[1] && n < up {
				continue
			}

			// The sheet is larger than the cells' own area would be if they were all opening, so most are passed over
			// here.
			if float64(k*n)*f.openArea() > o.Bed.Width*o.Bed.Height {
				continue
			}
			if _, err := f.sheet(o, [2]int{k, n}); err == nil {
				if k*n > largest[0]*largest[1] {
					largest = [2]int{k, n}
				}
				break
			}
		}
	}
	return largest
}

// useful returns how many cells along a and b the field has use for at most.
func (f *field) useful() (a, b int) {
	r := f.l.Draft.FieldBound()
	across := math.Hypot(r.Max[0]-r.Min[0], r.Max[1]-r.Min[1])
	of := func(side float64) int { return max(1, min(maxRepeats, int(across/side)+1)) }
	return of(f.l.Cell.A), of(f.l.Cell.B)
}

// openArea returns the openings' area in a cell of the draft.
func (f *field) openArea() float64 {
	sum := 0.0
	for _, k := range f.kinds {
		sum += k.shape.Area()
	}
	return sum * float64(f.steps([2]int{1, 1}).count())
}
