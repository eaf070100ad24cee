package jobsheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/measure"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/panel"
	"openwork/pattern/sheet/sentences"
)

// Made is what a job sheet says, in figures. Lengths in mm, areas in mm².
type Made struct {
	Pages int  `json:"pages"`
	Bytes int  `json:"bytes"`
	Sound bool `json:"sound"`
	// Faults and Warnings are sentences, each with the first place where it is so and how many there are; FaultPlaces
	// are all places of faults, and Verdict says in a sentence whether the sheet holds, and else how many faults it
	// has.
	Verdict     string   `json:"verdict"`
	Faults      []string `json:"faults"`
	FaultPlaces int      `json:"faultPlaces"`
	Warnings    []string `json:"warnings"`

	Openings  int        `json:"openings"`
	CutLength float64    `json:"cutLength"`
	Travel    float64    `json:"travel"`
	Piercings int        `json:"piercings"`
	Outline   string     `json:"outline"` // of the sheet where it is not cut: what becomes of it
	Order     string     `json:"order"`   // of cutting, in words, with the reason
	Kerf      float64    `json:"kerf"`
	KerfTaken string     `json:"kerfTaken"` // who allows for it
	Tolerance float64    `json:"tolerance"` // mm, of the file's curves
	Checksum  string     `json:"checksum"`  // of what is cut, as the cut file has it
	Page      [2]float64 `json:"page"`      // width and height of the cut file's page, mm
	CutSpeed  float64    `json:"cutSpeed"`  // mm/s
	Seconds   float64    `json:"seconds"`   // of the machine, without setting up
	Cost      *float64   `json:"cost"`      // nil: no rate is known
	Density   float64    `json:"density"`   // kg/m³; 0: not known
	Weight    *float64   `json:"weight"`    // g, of the sheet without its openings; nil: no density is known
	// Bridge and Opening are the narrowest after cutting, which are those drawn, for the kerf is allowed for; nil:
	// there is none.
	Bridge  *float64 `json:"bridge"`
	Opening *float64 `json:"opening"`
	// Under says which of the two is less than what is asked for.
	Under     []string    `json:"under"`
	Holes     []orb.Point `json:"holes"`     // middles of registration holes or marks, panel mm
	Positions []Position  `json:"positions"` // where the sheet is laid
	Lacks     string      `json:"lacks"`     // letters of the title that are left out
	Code      bool        `json:"code"`      // whether there is a QR code
	Notes     []string    `json:"notes"`     // what the cut file left out or had no room for, and why there is no code
}

// Position is one place where the sheet is laid: its middle, in panel mm, and how far it is turned.
type Position struct {
	Middle orb.Point `json:"middle"`
	Turn   float64   `json:"turn"` // degrees counter-clockwise
}

// positions returns where the sheet is laid, in order. It covers the panel and is laid once; a sheet that is stepped
// over a larger panel has more of them.
func positions(d draft.Draft) []Position {
	return []Position{{Middle: d.PanelBound().Center()}}
}

// Parts of the work done, as they are reported; roughly.
const partChecked, partBuilt, partMeasured = 0.4, 0.8, 0.95

// figuresOf finds all that the sheet says.
func figuresOf(l *pattern.Layout, o Options) (Made, error) {
	d := l.Draft
	if err := pattern.RefuseStock(d.Sheet.Stock, d.Sheet.How()); err != nil {
		return Made{}, err
	}
	report, err := panel.CheckWithProgress(l, o.Progress.Within(0, partChecked))
	if err != nil {
		return Made{}, err
	}
	if o.Cut.Units == "" {
		o.Cut.Units = o.Units
	}
	if o.Cut.Lettering == nil {
		o.Cut.Lettering = o.Lettering
	}
	o.Cut.Progress = o.Progress.Within(partChecked, partBuilt)
	job, err := cutplan.ForLayout(l, o.Cut, curve.Cubic)
	if err != nil {
		return Made{}, err
	}
	m := Made{Sound: report.Sound, Openings: job.Made.Openings, CutLength: job.Made.CutLength, Travel: job.Made.Travel,
		Piercings: job.Made.Piercings, Order: job.Made.Order,
		Kerf: job.Made.Kerf, Notes: job.Made.Notes, Positions: positions(d), Holes: []orb.Point{}}
	m.KerfTaken, m.Checksum = job.KerfTaken(), job.Made.Checksum
	lines, _ := o.Cut.ShopLines() // checked before
	m.Outline = o.Cut.Trim.Said(lines.Mark.Name)
	m.Page = [2]float64{job.Page.Max[0] - job.Page.Min[0], job.Page.Max[1] - job.Page.Min[1]}
	if m.Tolerance = o.Cut.Tolerance; m.Tolerance == 0 {
		m.Tolerance = curve.DefaultTolerance
	}
	faults := sentences.Gather(report.Problems)
	m.Faults, m.Warnings = faultSentences(d, o.unit(), report, faults, sheet.Fault),
		faultSentences(d, o.unit(), report, faults, sheet.Warning)
	m.FaultPlaces, _ = report.Count(sheet.Fault)
	m.Verdict = verdict(report, faults)
	m.CutSpeed, _ = o.speed(d.Sheet)
	m.Seconds = o.machine(d.Sheet).TimesOf(job).Total()
	if o.Rate > 0 {
		cost := max(o.Minimum, (m.Seconds/3600+o.Setup/60)*o.Rate+o.Price)
		m.Cost = &cost
	}
	if m.Density = o.Density; m.Density == 0 {
		m.Density, _ = Density(d.Sheet.Stock)
	}
	if m.Density > 0 {
		const gram = 1e-6 // of a mm³ of a stock of 1 kg/m³
		weight := report.SheetArea * d.Sheet.Thickness * m.Density * gram
		m.Weight = &weight
	}
	m.Bridge = sentences.Narrowest(report)
	for _, c := range job.Contours {
		if c.Class == cutplan.ClassRegistration && c.Path.Closed() {
			at := c.Map.Apply(c.Path.Bound().Center())
			if o.Cut.Mirrored { // places are the panel's, seen from its front
				at[0] = job.Page.Min[0] + job.Page.Max[0] - at[0]
			}
			m.Holes = append(m.Holes, at)
		}
	}
	// As they were asked for, whatever the way of the cuts.
	asked := func(p orb.Point) int {
		return slices.IndexFunc(o.Cut.Holes.At, func(q orb.Point) bool {
			return math.Hypot(p[0]-q[0], p[1]-q[1]) < cutplan.Step
		})
	}
	slices.SortStableFunc(m.Holes, func(p, q orb.Point) int { return cmp.Compare(asked(p), asked(q)) })
	m.Opening, err = narrowest(l)
	m.Under = []string{}
	for _, f := range []struct {
		what  string
		found *float64
		asked float64
	}{{"bridge", m.Bridge, d.Sheet.Bridge}, {"opening", m.Opening, d.Sheet.Opening}} {
		if f.found != nil && *f.found < f.asked {
			m.Under = append(m.Under, f.what)
		}
	}
	o.Progress.At(partMeasured)
	return m, err
}

// verdict says in a sentence how the sheet stands.
func verdict(r sheet.Report, faults []sentences.Fault) string {
	switch {
	case r.Sound:
		return "The sheet holds."
	case r.Of(sheet.Empty, sheet.Fault).Count > 0:
		return "The sheet has no opening."
	case sentences.OnlyUnmeasured(r):
		return "It is not certain that the sheet holds: " + sentences.Unmeasured(r) + "."
	}
	return "The sheet does not hold: " + sentences.Places(r, faults, sheet.Fault) + "."
}

// faultSentences returns a sentence for each fault or warning, the worst first.
func faultSentences(d draft.Draft, u measure.Unit, r sheet.Report, faults []sentences.Fault,
	severity sheet.Severity) []string {
	w := sentences.Words{Words: sheet.Words{Draft: d, Unit: u.Unit}}
	out := []string{}
	for _, f := range faults {
		p := f.First
		if p.Severity != severity {
			continue
		}
		// of the sheet as a whole, and not of a place
		if p.Kind == sheet.Size || p.Kind == sheet.Empty || p.Kind == sheet.Subject {
			out = append(out, u.Said(p.Text))
			continue
		}
		at := "At " + u.Place(p.At[0], p.At[1])
		others := len(f.Places) - 1
		if f.More {
			others += max(0, r.Of(p.Kind, severity).Count-sheet.MaxListed)
		}
		switch {
		case others == 1:
			at += " and in one more place"
		case others > 1:
			at += " and in " + sheet.Number(others) + " more places"
		}
		out = append(out, at+": "+w.Fault(f))
	}
	return out
}

// narrowest returns the width of the narrowest place that parts an opening, of all openings; nil when none has such a
// place.
func narrowest(l *pattern.Layout) (*float64, error) {
	openings, err := panel.Openings(l)
	if err != nil {
		return nil, err
	}
	width, found := math.Inf(1), false
	seen := map[*geometry.Shape]bool{}
	for _, o := range openings {
		if seen[o.Shape] {
			continue
		}
		seen[o.Shape] = true
		if n, ok := o.Shape.NarrowestJoin(0, width, true); ok && n.Width < width {
			width, found = n.Width, true
		}
	}
	if !found {
		return nil, nil
	}
	return &width, nil
}

// duration writes seconds as people say them.
func duration(s float64) string {
	switch t := math.Round(s); {
	case t < 60:
		return fmt.Sprintf("%.0f\u00a0s", t)
	case t < 3600:
		return fmt.Sprintf("%.0f\u00a0min %02.0f\u00a0s", math.Floor(t/60), math.Mod(t, 60))
	default:
		m := math.Round(t / 60)
		return fmt.Sprintf("%.0f\u00a0h %02.0f\u00a0min", math.Floor(m/60), math.Mod(m, 60))
	}
}
