// Package cutplan plans what a machine cuts: closed contours in millimetres at true scale, smooth curves, the kerf
// allowed for, in the order of cutting, with registration, label and check bar. Its input is a small value,
// Sheet, and knows no file format.
package cutplan

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern/letters"
)

// Layer says what is done along a contour.
type Layer string

// The layers.
const (
	Cut   Layer = "cut"
	Score Layer = "score"
	Mark  Layer = "mark"
)

// Layers in the order in which a machine does them: what is cut out can no longer be marked.
var Layers = []Layer{Mark, Score, Cut}

// Classes of contours.
const (
	ClassOpening = "opening" // of an opening's outer rings
	ClassIsland  = "island"  // of what drops out of an opening
	ClassSheet   = "sheet"
	// of registration holes, and of marks: their circles, which are closed, and crosses
	ClassRegistration = "registration"
	ClassFixing       = "fixing" // holes for pins, hanging, a frame
	ClassLabel        = "label"
	ClassBar          = "bar"
	ClassNote         = "note"
	ClassFacts        = "facts"   // stock, kerf and checksum beside the label
	ClassWeeding      = "weeding" // of cuts that part the waste
)

// Contour is one line of a plan: Path under Map, in panel mm, from its piece Start on. Copies share their path.
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

// Plan is all that a cut file says: contours in the order of cutting, marks first, and the figures beside them.
type Plan struct {
	Title string
	Page  orb.Bound // the box of the sheet's outline as it is cut, mm: the file's extents
	// Outline is the outer ring of the sheet's outline as it is cut, within outlineWithin mm, from Page's lower left
	// corner on; further rings where openings at the edge part it. A plan put together has none.
	Outline  []orb.Ring
	Contours []Contour
	Lines    Lines    // filled in
	Unsound  []string // why the sheet does not hold
	// Unchecked: nobody has looked whether it does.
	Unchecked bool
	Facts     []Fact // what a shop asks about the file
	Made      Made
}

// Standing says why the sheet does not hold, or that nobody has looked; empty for a sheet that holds.
func (p *Plan) Standing() string {
	switch {
	case len(p.Unsound) > 0:
		return "This sheet does not hold: " + strings.Join(p.Unsound, " ")
	case p.Unchecked:
		return NotChecked
	}
	return ""
}

// reasons returns why the sheet does not hold, each reason once, in the unit of the figures.
func (o Options) reasons() []string {
	var out []string
	for _, s := range o.Unsound {
		if s = o.unit().Said(s); !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// FactLines returns the facts, each on a line.
func (p *Plan) FactLines() []string {
	var out []string
	for _, f := range p.Facts {
		out = append(out, f.String())
	}
	return out
}

// NotChecked is what a file says of a sheet that nobody has looked at.
const NotChecked = "It was not checked whether this sheet holds."

// Together reports whether a contour belongs with the one before it in one path: what drops out of an opening is cut
// right before it.
func Together(a, b *Contour) bool {
	if a.Layer != Cut || b.Layer != Cut {
		return false
	}
	return a.Class == ClassSheet && b.Class == ClassSheet ||
		(a.Class == ClassIsland || a.Class == ClassOpening) && (b.Class == ClassIsland || b.Class == ClassOpening) &&
			a.unit == b.unit
}

// Made is what a cut file holds, in figures. Lengths in mm, areas in mm².
type Made struct {
	Openings int `json:"openings"` // written, those that run out over the sheet's edge among them
	Lost     int `json:"lost"`     // openings that the kerf would take whole
	Notches  int `json:"notches"`  // openings that run out over the sheet's edge; they are part of its outline
	// that the openings' contours enclose, holes taken off, before the beam widens them
	Area      float64 `json:"area"`
	SheetArea float64 `json:"sheetArea"` // of the rectangle the sheet is cut from
	CutLength float64 `json:"cutLength"`
	Travel    float64 `json:"travel"`    // between cuts, from the sheet's lower left corner on
	Piercings int     `json:"piercings"` // closed contours on the layer cut
	Pieces    int     `json:"pieces"`
	Points    int     `json:"points"`    // corners of the polygons that the contours answer
	Deviation float64 `json:"deviation"` // greatest distance of curves and polygons from each other
	Order     string  `json:"order"`     // of cutting, in words, with the reason
	// cuts nearer than they should be to the one before, where it could not be helped
	Near    int     `json:"near"`
	Holes   int     `json:"holes"`   // registration holes or marks
	Fixings int     `json:"fixings"` // holes for pins, hanging, a frame
	Kerf    float64 `json:"kerf"`
	// Checksum of what is cut, which the file and the label carry.
	Checksum string   `json:"checksum"`
	Notes    []string `json:"notes"` // what was left out, what did not fit
}

// New plans a sheet, with cubic curves or arcs. It fails where a stock must not meet a laser, where an option is out of
// its range, and, but for a part, where there is no opening to cut.
func New(s Sheet, o Options, kind curve.Kind) (*Plan, error) {
	b, err := begun(s, o, kind)
	if err != nil {
		return nil, err
	}
	if err := b.run(); err != nil {
		return nil, err
	}
	if !b.Part && b.made.Openings == 0 {
		return nil, nothingToCut(b.made.Lost)
	}
	return b.plan, nil
}

// Registration returns where the plan of a sheet has its registration holes or marks, their middles in the sheet's
// frame, without planning the rest.
func Registration(s Sheet, o Options) ([]orb.Point, error) {
	b, err := begun(s, o, curve.Line)
	if err == nil {
		err = b.holes()
	}
	if err != nil {
		return nil, err
	}
	return b.registration, nil
}

// begun returns the plan of a sheet with nothing in it yet.
func begun(s Sheet, o Options, kind curve.Kind) (*build, error) {
	if len(s.Outline) != 1 || len(s.Outline[0]) == 0 {
		return nil, fmt.Errorf("a sheet to cut is one piece; this one is %d", len(s.Outline))
	}
	o, err := o.filled(s.Stock, s.How)
	if err != nil {
		return nil, err
	}
	o.Unsound = o.reasons()
	if s.Part {
		s = s.toOrigin()
		o.Holes.At = append([]orb.Point{}, s.Holes...)
		if len(s.Holes) == 0 {
			o.Holes.Diameter = 0
		}
	}
	if o.Polygons {
		kind = curve.Line
	}

	box := s.Outline.Bound()
	b := &build{Sheet: s, o: o, kind: kind, box: box,
		plan: &Plan{Title: s.Title, Lines: o.Lines, Unsound: o.Unsound, Unchecked: o.Unchecked,
			Page: box}}
	b.made = &b.plan.Made
	b.made.Kerf = s.Kerf
	b.made.Notes = []string{}
	b.trimmable()
	b.made.Checksum = s.checksum(b.o)
	b.plan.Facts = b.facts()
	b.apart, b.why = o.spread(s)
	b.made.Order = b.ordered()
	b.widen()
	b.made.SheetArea = (box.Max[0] - box.Min[0]) * (box.Max[1] - box.Min[1])
	if !rectangular(s.Outline[0]) {
		b.shape = geometry.NewShape(s.Outline)
		b.made.SheetArea = geometry.Area(s.Outline)
	}
	return b, nil
}

// run makes the plan.
func (b *build) run() error {
	if err := b.openings(); err != nil {
		return err
	}
	b.o.Progress.At(partFitted)

	if err := b.furniture(); err != nil {
		return err
	}
	b.markFacts()
	b.markMirrored()
	b.noteLetters()
	b.order()
	b.byMethod()
	b.o.Progress.At(partOrdered)
	b.count()
	b.mirror()
	return nil
}

// script is what the title is marked in.
func (b *build) script() script { return script{b.o.Lettering} }

// noteLetters says what letters of the title cannot be marked, where it would be.
func (b *build) noteLetters() {
	if lacks := []rune(Lacks(b.Title, b.o.Lettering)); b.o.Label.Height > 0 && len(lacks) > 0 {
		b.note("The label leaves out %s of the title: letters are marked in single strokes, and there are none for "+
			"these. The file's own title has them.", letters.Named(lacks))
	}
}

// nothingToCut is the refusal of a sheet without an opening; lost are those that the kerf takes whole.
func nothingToCut(lost int) error {
	if lost > 0 {
		return fmt.Errorf("there is nothing to cut: every opening (%d in all) is narrower than the kerf everywhere",
			lost)
	}
	return errors.New("there is nothing to cut: no opening lies on this panel; move the motifs, or make the margin " +
		"smaller")
}

// count adds up the plan's figures.
func (b *build) count() {
	lengths := map[*curve.Path]float64{}
	at := b.box.Min
	for _, c := range b.plan.Contours {
		b.made.Pieces += len(c.Path.Pieces)
		if c.Layer != Cut {
			continue
		}
		from := c.at()
		if _, ok := lengths[c.Path]; !ok {
			lengths[c.Path] = c.Path.Length()
		}
		b.made.CutLength += lengths[c.Path]
		if b.apart > 0 && b.made.Piercings > 0 && c.Class != ClassSheet && gapOf(b.last, b.boxOf(c)) < b.apart {
			b.made.Near++
		}
		b.last = b.boxOf(c)
		b.made.Piercings++
		b.made.Travel += far(at, from)
		at = from
	}

	if b.made.Near > 0 && (b.o.Apart > 0 || b.o.Order == Spread) {
		b.note("%d cuts lie nearer than %g mm to the one before; there was no other order.", b.made.Near, b.apart)
	}
}

func (b *build) note(format string, a ...any) {
	b.made.Notes = append(b.made.Notes, b.o.unit().Said(fmt.Sprintf(format, a...)))
}

func init() { curve.ForCutting() }
