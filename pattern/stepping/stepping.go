// Package stepping makes the stepping sheet of a field that is larger than the shop's bed: a piece with whole repeats
// that is laid again and again, moved by the cell's translations, until the field is full. It carries registration
// holes that fall on their own marks from one place to the next, a map of the places, and an order in which no place is
// laid on or beside wet paste. That the places' openings together are the field's, and none is laid twice, is measured
// before a sheet is handed over.
package stepping

import (
	"fmt"
	"math"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/progress"
)

// Options of a stepping sheet. Lengths in mm.
type Options struct {
	// what the machine takes, either way round; nil: the draft's, and when that is not said, anything
	Bed *draft.Bed `json:"bed"`
	// cells along a and b on the sheet; zeros: the smallest piece that holds whole repeats
	Repeats [2]int          `json:"repeats"`
	Most    bool            `json:"most"`   // as many cells as fit the bed, in place of Repeats
	Margin  float64         `json:"margin"` // of sheet round the openings; 0: 20
	Cut     cutplan.Options `json:"cut"`    // of the cut file; Holes.Diameter is of the registration holes, 0: 4
}

// Stepping is a stepping sheet and how it is laid. Places on the panel are in panel mm, places on the sheet in mm from
// the sheet's lower left corner.
type Stepping struct {
	Width    float64       `json:"width"`
	Height   float64       `json:"height"`
	Turn     float64       `json:"turn"`    // degrees, counter-clockwise, by which the sheet lies turned on the panel
	Repeats  int           `json:"repeats"` // of the smallest repeats on it
	Steps    [2][2]float64 `json:"steps"`   // the shortest moves from a place to the next, on the panel
	Openings []Opening     `json:"openings"`
	Holes    [][2]float64  `json:"holes"` // on the sheet
	Diameter float64       `json:"diameter"`
	Places   []Place       `json:"places"`
	Passes   [][]int       `json:"passes"` // numbers of the places that are laid before the paste must dry
	// the most cells along a and b that fit the bed; zeros where it was not said or takes none
	Most    [2]int  `json:"most"`
	Missing float64 `json:"missing"`
	// mm² of the field not laid, and laid that is not the field's or was laid before: rounding
	Twice float64  `json:"twice"`
	Notes []string `json:"notes"`

	l     *pattern.Layout
	o     Options
	sheet *sheet
	laid  []laid

	turned map[*geometry.Shape]*geometry.Shape
}

// Opening of the sheet: its number, and the middle of its box.
type Opening struct {
	Number int        `json:"number"`
	At     [2]float64 `json:"at"`
}

// Place is where the sheet is laid once. At is where its lower left corner comes to lie.
type Place struct {
	Number int          `json:"number"`
	At     [2]float64   `json:"at"`
	Pass   int          `json:"pass"` // from 1
	From   int          `json:"from"` // the place before it whose marks it is laid by; 0: by measure
	Whole  int          `json:"whole"`
	Part   []int        `json:"part"`  // openings of which the edge keeps a part; the rest is masked
	Mask   []int        `json:"mask"`  // openings that are masked
	Marks  [][2]float64 `json:"marks"` // where the holes come to lie
	cell   cell
}

// sheet is the piece itself, in its frame: field directions, or the panel's.
type sheet struct {
	f     *field
	steps steps
	frame geometry.Map // field mm → the frame
	slots []slot
	box   orb.Bound // of the openings
	rect  orb.Bound // of the sheet
	reg   registration
}

// at returns a slot's opening's place: the kind's shape moved by it, field mm.
func (sh *sheet) at(s slot) orb.Point {
	return geometry.Add(sh.f.kinds[s.kind].at, sh.f.fine.at(s.cell))
}

// clearance returns how far a point, in field mm, is from the sheet's own openings, up to limit mm.
func (sh *sheet) clearance(p orb.Point, limit float64) float64 {
	for _, s := range sh.slots {
		at := sh.at(s)
		if b := moved(sh.f.kinds[s.kind].shape.Bound(), at).Pad(limit); b.Contains(p) {
			limit = roomAt(sh.f.kinds[s.kind].shape, geometry.Sub(p, at), limit)
		}
	}
	return limit
}

// Steps makes the stepping sheet of a layout. It fails where openings run together without end, where the sheet does
// not fit the bed, where the field has no copy, and where what is laid is not the field.
func Steps(l *pattern.Layout, o Options, told progress.Func) (*Stepping, error) {
	o, err := o.filled(l)
	if err != nil {
		return nil, err
	}
	copies, err := l.Copies()
	if err != nil {
		return nil, err
	}
	if len(copies) == 0 {
		return nil, fmt.Errorf("the field holds no copy, so there is nothing to step; place a silhouette or make the " +
			"field larger")
	}
	f, err := newField(l)
	if err != nil {
		return nil, err
	}
	told.At(0.2)
	s := &Stepping{Notes: []string{}, l: l, o: o}
	if o.Bed != nil {
		s.Most = f.largest(o)
	}
	if o.Most {
		if o.Repeats = s.Most; s.Most == [2]int{} {
			return nil, fmt.Errorf("not one whole cell fits the bed; give a larger bed, or ask for the smallest piece")
		}
	}
	if s.sheet, err = f.sheet(o); err != nil {
		return nil, err
	}
	told.At(0.4)
	s.register()
	told.At(0.6)
	s.describe()
	if err := s.place(copies); err != nil {
		return nil, err
	}
	told.At(0.7)
	if err := s.prove(told.Within(0.7, 1)); err != nil {
		return nil, err
	}
	s.explain()
	told.At(1)
	return s, nil
}

// filled returns the options with what they leave open, or says what is wrong with them.
func (o Options) filled(l *pattern.Layout) (Options, error) {
	if o.Bed == nil {
		o.Bed = l.Draft.Sheet.Bed
	}
	if b := o.Bed; b != nil && !(b.Width > 0 && b.Height > 0 && b.Width <= draft.MaxSize && b.Height <= draft.MaxSize) {
		return o, fmt.Errorf("a bed of %g × %g mm is none; both sides lie between 0 and %g mm", b.Width, b.Height,
			float64(draft.MaxSize))
	}
	if o.Most && o.Bed == nil {
		return o, fmt.Errorf("as many repeats as fit the bed can be found only when the bed's size is given")
	}
	for _, n := range o.Repeats {
		if n < 0 || n > 1000 || (n == 0) != (o.Repeats == [2]int{}) {
			return o, fmt.Errorf("%d × %d repeats cannot be had; both numbers lie between 1 and 1000", o.Repeats[0],
				o.Repeats[1])
		}
	}
	if o.Margin == 0 {
		o.Margin = usualMargin
	}
	if minMargin := l.Draft.Sheet.Bridge; !(o.Margin >= minMargin && o.Margin <= 1000) {
		return o, fmt.Errorf("a margin of %g mm round the stepping sheet's openings cannot be had; it lies between "+
			"the bridge of %g mm and 1000", o.Margin, minMargin)
	}
	if o.Cut.Holes.Diameter == 0 {
		o.Cut.Holes.Diameter = cutplan.Defaults().Holes.Diameter
	}
	if d := o.Cut.Holes.Diameter; !(d >= minHole && d <= 100) {
		return o, fmt.Errorf("registration holes of %g mm cannot be had; they lie between %g and 100 mm", d, minHole)
	}
	return o, nil
}

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

// sheet chooses the openings in the frame that gives the smaller sheet: the field's own, or the panel's.
func (f *field) sheet(o Options) (*sheet, error) {
	s := f.steps(o.Repeats)
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
	r := f.l.Draft.FieldBound()
	across := math.Hypot(r.Max[0]-r.Min[0], r.Max[1]-r.Min[1])
	useful := func(side float64) int { return max(1, min(maxRepeats, int(across/side)+1)) }
	var largest [2]int
	up := useful(f.l.Cell.B)
	for k := 1; k <= useful(f.l.Cell.A) && up > 0; k++ {
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
			o.Repeats = [2]int{k, n}
			if float64(k*n)*f.openArea() > o.Bed.Width*o.Bed.Height {
				continue
			}
			if _, err := f.sheet(o); err == nil {
				if k*n > largest[0]*largest[1] {
					largest = o.Repeats
				}
				break
			}
		}
	}
	return largest
}

// openArea returns the openings' area in a cell of the draft.
func (f *field) openArea() float64 {
	sum := 0.0
	for _, k := range f.kinds {
		sum += k.shape.Area()
	}
	return sum * float64(f.steps([2]int{1, 1}).count())
}

func area(b orb.Bound) float64 { return (b.Max[0] - b.Min[0]) * (b.Max[1] - b.Min[1]) }

// short writes a length for a sentence: two decimals at most.
func short(v float64) string { return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64) }
