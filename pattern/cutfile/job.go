// Package cutfile writes what a cutting shop asks for: closed contours in millimetres at true scale, smooth curves, the kerf
// allowed for, in the order of cutting, with registration, label and check bar, as SVG, DXF or PDF. Every file is read back
// before it is handed over.
package cutfile

import (
	"errors"
	"fmt"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/progress"
)

// Layer says what is done along a contour.
type Layer string

// The layers.
const (
	Cut   Layer = "cut"
	Score Layer = "score"
	Mark  Layer = "mark"
)

// layers in the order in which a machine does them: what is cut out can no longer be marked.
var layers = []Layer{Mark, Score, Cut}

// Classes of contours.
const (
	classOpening      = "opening" // of an opening's outer rings
	classIsland       = "island"  // of what drops out of an opening
	classSheet        = "sheet"
	ClassRegistration = "registration" // of registration holes, and of marks: their circles, which are closed, and crosses
	classLabel        = "label"
	classBar          = "bar"
	classNote         = "note"
)

// Contour is one line of the job: Path under Map, in panel mm, from its piece Start on. Copies share their path.
type Contour struct {
	Layer Layer
	Class string
	Path  *curve.Path
	Map   geometry.Map
	Start int
	unit  int // contours of one opening have one number
}

// Pieces appends the contour's pieces to dst, in panel mm, and returns the point it begins at with them.
func (c Contour) Pieces(dst []curve.Piece) (orb.Point, []curve.Piece) {
	return c.Path.Append(dst, c.Map, c.Start)
}

// at returns the point where the contour begins and, being closed, ends.
func (c Contour) at() orb.Point { return c.Map.Apply(c.Path.From(c.Start)) }

// Job is all that a file says: contours in the order of cutting, marks first, and what is told beside them.
type Job struct {
	Title    string
	Page     orb.Bound // the sheet and half the kerf around, panel mm: the file's extents
	Contours []Contour
	Colours  Colours
	Unsound  []string // why the sheet does not hold
	// Unchecked: nobody has looked whether it does.
	Unchecked bool
	Made      Made
}

// Colours of the layers as #rrggbb; empty means the default.
type Colours struct {
	Cut   string `json:"cut"`
	Score string `json:"score"`
	Mark  string `json:"mark"`
}

// Default colours tell the layers apart on screen; the person sets those that the shop asks for.
const (
	cutColour   = "#c00000"
	scoreColour = "#008000"
	markColour  = "#0000c0"
)

func (c Colours) filled() (Colours, error) {
	for _, f := range []struct {
		name   string
		colour *string
		usual  string
	}{{"cut", &c.Cut, cutColour}, {"score", &c.Score, scoreColour}, {"mark", &c.Mark, markColour}} {
		if *f.colour == "" {
			*f.colour = f.usual
		}
		if _, err := rgb(*f.colour); err != nil {
			return c, fmt.Errorf("the colour of the layer %s: %w", f.name, err)
		}
	}
	return c, nil
}

func (c Colours) of(l Layer) string {
	switch l {
	case Score:
		return c.Score
	case Mark:
		return c.Mark
	}
	return c.Cut
}

// rgb reads #rrggbb.
func rgb(s string) (c [3]uint8, err error) {
	if len(s) == 7 && s[0] == '#' {
		for i := range c {
			hi, lo := hex(s[1+2*i]), hex(s[2+2*i])
			if hi < 0 || lo < 0 {
				return c, fmt.Errorf("%q is no colour; write it as #rrggbb", s)
			}
			c[i] = uint8(16*hi + lo)
		}
		return c, nil
	}
	return c, fmt.Errorf("%.20q is no colour; write it as #rrggbb", s)
}

func hex(b byte) int {
	switch {
	case b >= '0' && b <= '9':
		return int(b - '0')
	case b >= 'a' && b <= 'f':
		return int(b-'a') + 10
	case b >= 'A' && b <= 'F':
		return int(b-'A') + 10
	}
	return -1
}

// Options of a cut file. The zero value is the contours alone, as curves.
type Options struct {
	Polygons  bool     `json:"polygons"`  // straight edges only
	Tolerance float64  `json:"tolerance"` // mm that curves may lie from the outlines, from 0.001; 0: 0.02
	Colours   Colours  `json:"colours"`
	Apart     float64  `json:"apart"` // mm that two contours cut one after the other lie apart, so that none is hot; 0: no care
	Holes     Holes    `json:"holes"`
	Label     Label    `json:"label"`
	Bar       bool     `json:"bar"`     // a check bar of 100 mm
	Unsound   []string `json:"unsound"` // why the sheet does not hold; the file carries it
	// Unchecked: nobody has looked whether the sheet holds; the file carries that.
	Unchecked bool `json:"unchecked"`

	Progress progress.Func `json:"-"` // is told how far the work has come
}

// Holes are the registration holes or marks.
type Holes struct {
	Diameter float64     `json:"diameter"` // mm; 0: none
	Layer    Layer       `json:"layer"`    // cut, or mark ("" too) for marks with a cross
	At       []orb.Point `json:"at"`       // middles in panel mm; nil: found in the margin
}

// Label is what is written in the margin.
type Label struct {
	Height float64 `json:"height"` // mm of its capitals at most; 0: no label
	Date   string  `json:"date"`
	Layer  Layer   `json:"layer"` // mark ("" too), score or cut
}

// Defaults returns the usual furniture: registration marks of 4 mm, a label of 3 mm and a check bar, all on the layer mark.
func Defaults() Options {
	return Options{Holes: Holes{Diameter: 4, Layer: Mark}, Label: Label{Height: 3, Layer: Mark}, Bar: true}
}

// Made tells what a cut file holds. Lengths in mm, areas in mm².
type Made struct {
	Openings  int      `json:"openings"`  // written, those that run out over the sheet's edge among them
	Lost      int      `json:"lost"`      // openings that the kerf would take whole
	Notches   int      `json:"notches"`   // openings that run out over the sheet's edge; they are part of its outline
	Area      float64  `json:"area"`      // that the openings' contours enclose, holes taken off, before the beam widens them
	SheetArea float64  `json:"sheetArea"` // of the rectangle the sheet is cut from
	CutLength float64  `json:"cutLength"`
	Travel    float64  `json:"travel"`    // between cuts, from the sheet's lower left corner on
	Piercings int      `json:"piercings"` // closed contours on the layer cut
	Pieces    int      `json:"pieces"`
	Points    int      `json:"points"`    // corners of the polygons that the contours answer
	Deviation float64  `json:"deviation"` // greatest distance of curves and polygons from each other
	Near      int      `json:"near"`      // cuts nearer than Options.Apart to the one before, where it could not be helped
	Holes     int      `json:"holes"`     // registration holes or marks
	Kerf      float64  `json:"kerf"`
	Notes     []string `json:"notes"` // what was left out, what did not fit
}

// Build makes the job of a layout's sheet, with cubic curves or arcs. It fails as panel.Openings does, where a stock must
// not meet a laser, and where there is no opening to cut.
func Build(l *pattern.Layout, o Options, kind curve.Kind) (*Job, error) {
	b, err := newBuild(l, o, kind)
	if err != nil {
		return nil, err
	}
	j, err := b.run()
	if err == nil && b.made.Openings == 0 {
		return nil, nothingToCut(b.made.Lost)
	}
	return j, err
}

// newBuild begins a job, or says what keeps it from being one.
func newBuild(l *pattern.Layout, o Options, kind curve.Kind) (*build, error) {
	if err := pattern.RefuseStock(l.Draft.Sheet.Stock); err != nil {
		return nil, err
	}
	colours, err := o.Colours.filled()
	if err != nil {
		return nil, err
	}
	if err := o.check(); err != nil {
		return nil, err
	}
	if o.Tolerance == 0 {
		o.Tolerance = curve.DefaultTolerance
	}
	if o.Polygons {
		kind = curve.Line
	}
	d := l.Draft
	b := &build{l: l, o: o, kind: kind, sheet: d.SheetBound(), field: d.FieldBound(),
		job: &Job{Title: d.Title, Colours: colours, Unsound: o.Unsound, Unchecked: o.Unchecked, Page: d.SheetBound().Pad(d.Sheet.Kerf / 2)}}
	b.made = &b.job.Made
	b.made.Kerf = d.Sheet.Kerf
	b.made.Notes = []string{}
	b.made.SheetArea = (b.sheet.Max[0] - b.sheet.Min[0]) * (b.sheet.Max[1] - b.sheet.Min[1])
	return b, nil
}

// run makes the job.
func (b *build) run() (*Job, error) {
	if err := b.openings(); err != nil {
		return nil, err
	}
	b.o.Progress.At(partFitted)
	if err := b.furniture(); err != nil {
		return nil, err
	}
	b.order()
	b.o.Progress.At(partOrdered)
	b.count()
	return b.job, nil
}

// nothingToCut is the refusal of a sheet without an opening; lost are those that the kerf takes whole.
func nothingToCut(lost int) error {
	if lost > 0 {
		return fmt.Errorf("there is nothing to cut: every opening (%d in all) is narrower than the kerf everywhere", lost)
	}
	return errors.New("there is nothing to cut: no opening lies on this panel; move the motifs, or make the margin smaller")
}

// check says what is wrong with the numbers of the options.
func (o Options) check() error {
	for _, f := range []struct {
		what  string
		value float64
		most  float64
	}{{"the curves' tolerance", o.Tolerance, 1}, {"the distance of cuts in a row", o.Apart, 1e4},
		{"the registration holes' diameter", o.Holes.Diameter, 100}, {"the label's height", o.Label.Height, 100}} {
		if !(f.value >= 0 && f.value <= f.most) {
			return fmt.Errorf("%s is %g mm; it must lie between 0 and %g", f.what, f.value, f.most)
		}
	}
	if o.Tolerance > 0 && o.Tolerance < minTolerance {
		return fmt.Errorf("the curves' tolerance is %g mm; no machine cuts finer than %g mm, which is the least that may be asked for (0 takes the usual %g mm)",
			o.Tolerance, minTolerance, curve.DefaultTolerance)
	}
	for _, l := range []Layer{o.Holes.Layer, o.Label.Layer} {
		if l != "" && l != Cut && l != Score && l != Mark {
			return fmt.Errorf("there is no layer %.20q; there are cut, score and mark", string(l))
		}
	}
	if o.Holes.Layer == Score {
		return fmt.Errorf("registration holes are cut or marked, not scored")
	}
	return nil
}

// count adds up the job's figures.
func (b *build) count() {
	lengths := map[*curve.Path]float64{}
	at := b.sheet.Min
	for _, c := range b.job.Contours {
		b.made.Pieces += len(c.Path.Pieces)
		if c.Layer != Cut {
			continue
		}
		from := c.at()
		if _, ok := lengths[c.Path]; !ok {
			lengths[c.Path] = c.Path.Length()
		}
		b.made.CutLength += lengths[c.Path]
		if b.o.Apart > 0 && b.made.Piercings > 0 && c.Class != classSheet && gapOf(b.last, b.box(c)) < b.o.Apart {
			b.made.Near++
		}
		b.last = b.box(c)
		b.made.Piercings++
		b.made.Travel += far(at, from)
		at = from
	}
	if b.made.Near > 0 {
		b.note("%d cuts lie nearer than %g mm to the one before; there was no other order.", b.made.Near, b.o.Apart)
	}
}

func (b *build) note(format string, a ...any) {
	b.made.Notes = append(b.made.Notes, fmt.Sprintf(format, a...))
}
