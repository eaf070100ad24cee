// Package joined divides a sheet that is larger than the shop's bed into sheets that are joined on the panel. The
// joints run through sheet only, never through an opening, straight where they can; each part fits the bed and carries
// registration holes at known places of the panel, and small notches on both sides of a joint show that it is closed.
// That the parts are the sheet and every opening is whole in one of them is measured before they are handed over.
package joined

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/geometry/overlay"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/letters"
	"openwork/pattern/plates"
	"openwork/pattern/progress"
	"openwork/pattern/sheet/panel"
)

// Options of joined sheets.
type Options struct {
	Bed    *draft.Bed `json:"bed"`    // what the machine takes, mm, either way round; nil: the draft's
	Plates bool       `json:"plates"` // the parts of each colour by themselves
	// with Plates: those of plates over ties too, and how far these reach into openings, as plates.Options says
	OverTies bool            `json:"overTies"`
	Lap      float64         `json:"lap"`
	Units    string          `json:"units"` // of labels, the map and sentences: mm ("" too), or in
	Cut      cutplan.Options `json:"cut"`   // of the cut files; Holes.Diameter is of the registration holes, 0: 4

	// Lettering is what of the title is drawn on the map, because no font here has it.
	Lettering []letters.Drawn `json:"lettering"`
}

// Joined is a sheet in parts. Places are in panel mm.
type Joined struct {
	Parts  []Part  `json:"parts"`
	Joints []Joint `json:"joints"`
	// Plates are the parts of each colour, where that is asked for, then those over ties; Parts have the openings of
	// all colours.
	Plates []Plate `json:"plates"`
	// Letters are cut into both parts where they meet.
	Letters []Letter `json:"letters"`
	Chosen  []string `json:"chosen"` // for the job sheet: what is cut, and how it is laid
	Notes   []string `json:"notes"`

	l       *pattern.Layout
	o       Options
	sheet   orb.Bound
	open    []panel.Opening // of all colours
	over    []plates.Plate  // the plates over ties
	room    *room           // round them all
	strips  []strip         // from left to right
	across  [][]cut         // the level joints of each, from below, the sheet's lower and upper edge among them
	upright []line
	reserve float64 // mm of the bed kept free for tabs
	// of a plate: what it is called, and its number
	plate       string
	plateNumber int
}

// Part is one sheet. At is where the lower left corner of its box lies, its tab in it; the holes are on the panel.
type Part struct {
	Number   int          `json:"number"`
	At       [2]float64   `json:"at"`
	Width    float64      `json:"width"`
	Height   float64      `json:"height"`
	Openings int          `json:"openings"`
	Holes    [][2]float64 `json:"holes"`
	Letters  []string     `json:"letters"` // of the joints that it meets
	Tab      bool         `json:"tab"`     // it has one for what there was no room for, to be cut off once it is laid

	outline orb.MultiPolygon // without its tab
	cut     orb.MultiPolygon // with it
	open    []panel.Opening
	written []cutplan.Written
	loose   bool // it has no three holes that are not in line
}

// Joint is a line along which parts meet.
type Joint struct {
	Line    [][2]float64 `json:"line"`
	Clear   float64      `json:"clear"`   // from the nearest opening, up to the bridge
	Notches [][2]float64 `json:"notches"` // middles
}

// cut is a joint across a strip, with how far along the strip's sides it begins and ends.
type cut struct {
	line          line
	before, after float64
}

// errNoWay is returned inside when no joint is found in a band.
var errNoWay = errors.New("no way")

// Join divides a layout's sheet. It fails where the bed is not said, where no line runs through sheet alone, and as
// panel.Openings does.
func Join(l *pattern.Layout, o Options, onProgress progress.Func) (*Joined, error) {
	o, err := o.filled(l)
	if err != nil {
		return nil, err
	}
	if o.Plates && len(l.Draft.PaintOf().Colours) < 2 {
		return nil, errOneColour
	}
	open, err := panel.Openings(l)
	if err != nil {
		return nil, err
	}
	if len(open) == 0 {
		return nil, errors.New("the field holds no opening, so there is nothing to join; place a silhouette or make " +
			"the field larger")
	}
	onProgress.At(0.1)
	j := &Joined{l: l, o: o, sheet: l.Draft.SheetBound(), open: open, Notes: []string{}}
	if o.Plates && o.OverTies {
		if j.over, err = overTies(l, o); err != nil {
			return nil, err
		}
		for _, p := range j.over {
			open = append(slices.Clip(open), p.Sheet.Openings...) // joints keep clear of these too
		}
	}
	j.room = newRoom(open)
	lacking, err := j.make(onProgress.Within(0.1, 0.8))
	if err == nil && len(lacking) > 0 {
		// Again with room for tabs.
		tabs := &Joined{l: l, o: o, sheet: j.sheet, open: j.open, over: j.over, room: newRoom(open), Notes: []string{},
			reserve: tabRoom}
		if still, e := tabs.make(nil); e == nil && len(still) < len(lacking) {
			j, lacking = tabs, still
		}
	}
	if err != nil {
		return nil, err
	}
	j.Plates = []Plate{}
	if o.Plates {
		if err := j.part(); err != nil {
			return nil, err
		}
		lacking = nil // the parts of all colours are not cut
	}
	j.explain(lacking)
	j.Chosen = j.chosen()
	onProgress.At(1)
	return j, nil
}

// make divides the sheet and makes the parts. It returns the numbers of those that have no room for what they are to be
// known by.
func (j *Joined) make(onProgress progress.Func) (lacking []string, err error) {
	if err := j.divide(onProgress.Within(0, 0.9)); err != nil {
		return nil, err
	}
	if err := j.assemble(); err != nil {
		return nil, err
	}
	if err := j.prove(); err != nil {
		return nil, err
	}
	return j.finish()
}

func (o Options) filled(l *pattern.Layout) (Options, error) {
	if o.Bed == nil {
		o.Bed = l.Draft.Sheet.Bed
	}
	if o.Bed == nil {
		return o, errors.New("say how large the bed is; joined sheets are made to fit it")
	}
	if b := o.Bed; !(b.Width > 0 && b.Height > 0 && b.Width <= draft.MaxSize && b.Height <= draft.MaxSize) {
		return o, fmt.Errorf("a bed of %g × %g mm is none; both sides lie between 0 and %g mm", b.Width, b.Height,
			float64(draft.MaxSize))
	}
	if o.Cut.Holes.Diameter == 0 {
		o.Cut.Holes.Diameter = cutplan.Defaults().Holes.Diameter
	}
	if d := o.Cut.Holes.Diameter; !(d > 0 && d <= 100) {
		return o, fmt.Errorf("registration holes of %g mm cannot be had; they lie between 0 and 100 mm", d)
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
	return o, nil
}

// finish sets notches, holes, what the parts are known by, and their figures.
func (j *Joined) finish() (lacking []string, err error) {
	notches := j.notches()
	for i := range j.Parts {
		p := &j.Parts[i]
		if len(notches) > 0 {
			rest, err := overlay.Difference(p.outline, notches)
			if err != nil || len(rest) != 1 {
				return nil, fmt.Errorf("the notches could not be taken off part %d: %w", p.Number, err)
			}
			p.outline = rest
		}
		p.cut = p.outline
		j.holes(p)
	}

	lacking = j.identify()
	j.measure()
	return lacking, nil
}

// short writes a length for a sentence: two decimals at most.
func short(v float64) string { return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64) }
