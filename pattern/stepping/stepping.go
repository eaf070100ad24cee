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
	"openwork/pattern/letters"
	"openwork/pattern/progress"
)

// Options of a stepping sheet. Lengths in mm.
type Options struct {
	// what the machine takes, either way round; nil: the draft's, and when that is not said, anything
	Bed *draft.Bed `json:"bed"`
	// cells along a and b on the sheet; zeros: the smallest piece that holds whole repeats
	Repeats [2]int          `json:"repeats"`
	Most    bool            `json:"most"`   // as many cells as fit the bed, in place of Repeats
	Lays    string          `json:"lays"`   // Fewest: the cells on a sheet that fits the bed and is laid least often
	Margin  float64         `json:"margin"` // of sheet round the openings; 0: 20
	Units   string          `json:"units"`  // of the map and of sentences: mm ("" too), or in
	Plates  bool            `json:"plates"` // a sheet for each colour; cells are then those after which colours repeat
	Cut     cutplan.Options `json:"cut"`    // of the cut file; Holes.Diameter is of the registration holes, 0: 4

	// Lettering is what of the title is drawn on the map, because no font here has it.
	Lettering []letters.Drawn `json:"lettering"`
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
	Holes    [][2]float64  `json:"holes"` // on the sheet, four or none
	// More are further holes of a large sheet, which do not fall on each other's marks.
	More     [][2]float64 `json:"more"`
	Diameter float64      `json:"diameter"`
	// Surround is how wide a board or tape lies round the panel, level with it, so that every place has two marks that
	// can be set; 0: all are on the panel.
	Surround float64 `json:"surround"`
	Places   []Place `json:"places"`
	Passes   [][]int `json:"passes"` // numbers of the places that are laid before the paste must dry
	// Choices are the smallest sheet and the one that is laid least often, where the bed is known; Trade says in words
	// what the one costs against the other.
	Choices []Choice `json:"choices"`
	Trade   string   `json:"trade"`
	Chosen  []string `json:"chosen"` // for the job sheet: what is cut, and how often it is laid
	// the most cells along a and b that fit the bed; zeros where it was not said or takes none
	Most    [2]int  `json:"most"`
	Missing float64 `json:"missing"`
	// mm² of the field not laid, and laid that is not the field's or was laid before: rounding
	Twice float64  `json:"twice"`
	Notes []string `json:"notes"`
	// Plates are the sheets by colour, where they were asked for: each has some of the openings. Key says in which
	// colour each opening is laid where, of a field in several colours.
	Plates []Plate `json:"plates"`
	Key    []Key   `json:"key"`

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
	Number int        `json:"number"`
	At     [2]float64 `json:"at"`
	Pass   int        `json:"pass"` // from 1
	From   int        `json:"from"` // the place before it whose marks it is laid by; 0: by measure
	Whole  int        `json:"whole"`
	Part   []int      `json:"part"` // openings of which the edge keeps a part; the rest is masked
	Mask   []int      `json:"mask"` // openings that are masked
	// where the holes come to lie, the further ones last; without holes, the sheet's corners
	Marks [][2]float64 `json:"marks"`
	Use   []int        `json:"use"` // of Marks, from 0: those on the panel or its surround, two at least
	cell  cell

	colours map[int]int // of the openings that are laid, by slot
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
	more  []orb.Point // further holes, field mm
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
	if l, err = behind(l); err != nil {
		return nil, err
	}
	var parted repeated
	if o.Plates {
		if len(l.Draft.PaintOf().Colours) < 2 {
			return nil, errOneColour
		}
		if parted, err = unfolded(l); err != nil {
			return nil, err
		}
		l = parted.l
	}
	copies, err := l.Copies()
	if err != nil {
		return nil, err
	}
	if len(copies) == 0 {
		return nil, fmt.Errorf("the field holds no copy, so there is nothing to step; place a silhouette or make the " +
			"field larger")
	}
	var f *field
	if o.Plates {
		f, err = newParted(parted)
	} else {
		f, err = newField(l)
	}
	if err != nil {
		return nil, err
	}
	open, err := f.opened(copies)
	if err != nil {
		return nil, err
	}
	told.At(0.1)
	asked, most, err := f.asked(o, open)
	if err != nil {
		return nil, err
	}
	told.At(0.3)
	s, err := f.stepping(o, asked, open)
	if err != nil {
		return nil, err
	}
	s.Most = most
	s.choices(open)
	told.At(0.7)
	if err := s.prove(told.Within(0.7, 1)); err != nil {
		return nil, err
	}
	if o.Plates {
		if s.Plates, err = s.parted(); err != nil {
			return nil, err
		}
	}
	if len(l.Draft.PaintOf().Colours) > 1 {
		s.Key = s.keyed()
	}
	s.explain()
	told.At(1)
	return s, nil
}

// asked returns the cells along a and b that the options ask for, and the most that fit the bed.
func (f *field) asked(o Options, open []*opened) (repeats, most [2]int, err error) {
	repeats = o.Repeats
	if o.Bed != nil {
		most = f.largest(o)
	}
	none := most == [2]int{}
	switch {
	case o.Most && none:
		err = fmt.Errorf("not one whole cell fits the bed; give a larger bed, or ask for the smallest piece")
	case o.Most:
		repeats = most
	case o.Lays == Fewest:
		var ok bool
		if repeats, ok = f.fewest(o, open); !ok {
			_, err = f.sheet(o, repeats) // says why
		}
	}
	return repeats, most, err
}

// stepping makes a sheet of so many cells along a and b and lays it, without the proof and the notes on laying.
func (f *field) stepping(o Options, repeats [2]int, open []*opened) (*Stepping, error) {
	s := &Stepping{Notes: []string{}, Choices: []Choice{}, Plates: []Plate{}, Key: []Key{}, l: f.l, o: o}
	sh, err := f.sheet(o, repeats)
	if err != nil {
		return nil, err
	}
	s.sheet = sh.fewestLays(open)
	if err := s.place(open); err != nil {
		return nil, err
	}
	s.register()
	s.describe()
	return s, s.number()
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
	if o.Lays != "" && o.Lays != Fewest {
		return o, fmt.Errorf("there are no lays called %.20q; leave it out, or ask for the %s", o.Lays, Fewest)
	}
	if o.Lays == Fewest && o.Bed == nil {
		return o, fmt.Errorf("the sheet with the fewest lays can be found only when the bed's size is given")
	}
	if o.Units == "" {
		o.Units = o.Cut.Units
	}
	if err := letters.CheckDrawn(o.Lettering); err != nil {
		return o, err
	}
	if o.Units != "" && o.Units != "mm" && o.Units != "in" {
		return o, fmt.Errorf("lengths are written in mm or in, not in %.20q", o.Units)
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

// short writes a length for a sentence: two decimals at most.
func short(v float64) string { return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64) }
