// Package joined divides a sheet that is larger than the shop's bed into sheets that are joined on the panel. The
// joints run through sheet only, never through an opening, straight where they can; each part fits the bed and carries
// registration holes at known places of the panel, and small notches on both sides of a joint show that it is closed.
// That the parts are the sheet and every opening is whole in one of them is measured before they are handed over.
package joined

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/geometry/overlay"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/letters"
	"openwork/pattern/progress"
	"openwork/pattern/sheet/panel"
)

// Options of joined sheets.
type Options struct {
	Bed   *draft.Bed      `json:"bed"`   // what the machine takes, mm, either way round; nil: the draft's
	Units string          `json:"units"` // of labels, the map and sentences: mm ("" too), or in
	Cut   cutplan.Options `json:"cut"`   // of the cut files; Holes.Diameter is of the registration holes, 0: 4

	// Lettering is what of the title is drawn on the map, because no font here has it.
	Lettering []letters.Drawn `json:"lettering"`
}

// Joined is a sheet in parts. Places are in panel mm.
type Joined struct {
	Parts  []Part  `json:"parts"`
	Joints []Joint `json:"joints"`
	// Letters are cut into both parts where they meet.
	Letters []Letter `json:"letters"`
	Chosen  []string `json:"chosen"` // for the job sheet: what is cut, and how it is laid
	Notes   []string `json:"notes"`

	l       *pattern.Layout
	o       Options
	sheet   orb.Bound
	room    *room
	strips  []strip // from left to right
	across  [][]cut // the level joints of each, from below, the sheet's lower and upper edge among them
	upright []line
	reserve float64 // mm of the bed kept free for tabs
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
	Tab      bool         `json:"tab"`     // it has one for what there was no room for; it is cut off when the part is laid

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
	open, err := panel.Openings(l)
	if err != nil {
		return nil, err
	}
	if len(open) == 0 {
		return nil, errors.New("the field holds no opening, so there is nothing to join; place a silhouette or make " +
			"the field larger")
	}
	onProgress.At(0.1)
	j := &Joined{l: l, o: o, sheet: l.Draft.SheetBound(), room: newRoom(open), Notes: []string{}}
	lacking, err := j.make(onProgress.Within(0.1, 0.8))
	if err == nil && len(lacking) > 0 {
		// Again with room for tabs.
		tabs := &Joined{l: l, o: o, sheet: j.sheet, room: newRoom(open), Notes: []string{}, reserve: tabRoom}
		if still, e := tabs.make(nil); e == nil && len(still) < len(lacking) {
			j, lacking = tabs, still
		}
	}
	if err != nil {
		return nil, err
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

// divide finds the joints, with the bed one way round and the other: the way that needs fewer parts.
func (j *Joined) divide(onProgress progress.Func) error {
	w, h := j.sheet.Max[0]-j.sheet.Min[0], j.sheet.Max[1]-j.sheet.Min[1]
	kerf := j.l.Draft.Sheet.KerfTaken() // the file's page is that much larger than the part
	ways := [][2]float64{{j.o.Bed.Width - kerf, j.o.Bed.Height - kerf - j.reserve},
		{j.o.Bed.Height - kerf, j.o.Bed.Width - kerf - j.reserve}}
	fewest := func(b [2]float64) float64 {
		if b[0] < minBand || b[1] < minBand {
			return math.Inf(1)
		}
		return math.Ceil(w/b[0]-same) * math.Ceil(h/b[1]-same)
	}
	if fewest(ways[1]) < fewest(ways[0]) {
		ways[0], ways[1] = ways[1], ways[0]
	}
	if n := fewest(ways[0]); n > maxParts {
		return fmt.Errorf("a bed of %s × %s mm would need more than %d parts for a sheet of %s × %s mm; use a larger "+
			"bed, or a stepping sheet",
			short(j.o.Bed.Width), short(j.o.Bed.Height), maxParts, short(w), short(h))
	}
	var best *Joined
	partsOf := func(k *Joined) (n int) {
		for _, a := range k.across {
			n += len(a) - 1
		}
		return n
	}
	for i, b := range ways {
		if fewest(b) > maxParts || best != nil && float64(partsOf(best)) <= fewest(b) {
			continue
		}
		try := *j
		if try.along(b, onProgress.Within(float64(i)/2, float64(i+1)/2)) == nil &&
			(best == nil || partsOf(&try) < partsOf(best)) {
			best = &try
		}
	}

	if best == nil {
		return fmt.Errorf("no line through sheet alone divides the field so that its parts fit a bed of %s × %s mm; "+
			"leave more sheet between the openings, take a larger bed, or make a stepping sheet", short(j.o.Bed.Width),
			short(j.o.Bed.Height))
	}
	*j = *best
	return nil
}

// along divides the sheet into upright strips, and these across, for parts of a given size at most.
func (j *Joined) along(size [2]float64, onProgress progress.Func) error {
	s := j.sheet
	swapped := j.room.swapped()
	low, high := line{{s.Min[1], s.Min[0]}, {s.Min[1], s.Max[0]}}, line{{s.Max[1], s.Min[0]}, {s.Max[1], s.Max[0]}}
	upright, err := parted(swapped, strip{low, high}, s.Min[0], s.Max[0], size[0], j.l.Draft.Sheet.Bridge)
	if err != nil {
		return err
	}
	j.upright, j.strips, j.across = nil, nil, nil
	side := line{s.Min, {s.Min[0], s.Max[1]}}
	for i := 0; i <= len(upright); i++ {
		next := line{{s.Max[0], s.Min[1]}, s.Max}
		if i < len(upright) {
			next = upright[i].swapped()
			j.upright = append(j.upright, next)
		}
		onProgress.Of(i, len(upright)+1)
		st := strip{side, next}
		level, err := parted(j.room, st, s.Min[1], s.Max[1], size[1], j.l.Draft.Sheet.Bridge)
		if err != nil {
			return err
		}
		cuts := []cut{{line{side[0], next[0]}, 0, 0}}
		for _, l := range level {
			_, before, _ := side.nearest(l[0])
			_, after, _ := next.nearest(l[len(l)-1])
			cuts = append(cuts, cut{l, before, after})
		}
		cuts = append(cuts, cut{line{side[len(side)-1], next[len(next)-1]}, side.length(), next.length()})
		j.strips, j.across = append(j.strips, st), append(j.across, cuts)
		side = next
	}
	return nil
}

// parted returns level lines that part a strip from low to high into stretches of at most size: as few as there can be,
// clear of the openings by a bridge or, where that cannot be had, by the next of the tiers.
func parted(r *room, s strip, low, high, size, bridge float64) ([]line, error) {
	fewest := max(1, int(math.Ceil((high-low)/size-same)))
	for n := fewest; n <= fewest+maxMore; n++ {
		for _, tier := range tiers {
			if out, err := cuts(r, s, low, high, size, tier*bridge, n); err == nil {
				return out, nil
			}
		}
	}
	return nil, errNoWay
}

// cuts returns n−1 lines, one after another: each so that the stretch before it is no higher than size and the rest can
// still be parted.
func cuts(r *room, s strip, low, high, size, clearance float64, n int) ([]line, error) {
	var out []line
	// of the stretch that the next line ends: its lowest point, and the highest of the line before
	floor, top := low, low
	for i := 1; i < n; i++ {
		b := band{left: s.left, right: s.right, inside: s,
			low:  math.Max(high-size*float64(n-i), top+math.Min(minBand, size/2)),
			high: math.Min(floor+size, high-math.Min(minBand, size/2))}
		if b.low > b.high+same {
			return nil, errNoWay
		}
		b.high = math.Max(b.high, b.low)
		b.wants = math.Max(b.low, math.Min(b.high, low+(high-low)*float64(i)/float64(n)))
		l, ok := b.straight(r, clearance)
		if !ok {
			l, ok = b.way(r, clearance)
		}
		if !ok {
			return nil, errNoWay
		}
		floor, top = l[0][1], l[0][1]
		for _, p := range l {
			floor, top = math.Min(floor, p[1]), math.Max(top, p[1])
		}
		out = append(out, l)
	}
	return out, nil
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
	for i := range j.Parts {
		p := &j.Parts[i]
		b := p.cut.Bound()
		p.At, p.Width, p.Height, p.Openings = b.Min, b.Max[0]-b.Min[0], b.Max[1]-b.Min[1], len(p.open)
	}
	return lacking, nil
}

// short writes a length for a sentence: two decimals at most.
func short(v float64) string { return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64) }
