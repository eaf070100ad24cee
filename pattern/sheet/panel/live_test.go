package panel

import (
	"flag"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/sheet"
	"openwork/pattern/symmetry"
)

var liveDrafts = flag.Int("live-drafts", 34,
	"random drafts on which the live check of the cell is held against the panel's")

// Away from the edges of field and sheet the live check tells what the check of the panel tells, and nothing else.
func TestLiveTellsWhatThePanelTells(t *testing.T) {
	const seed = 1103
	t.Logf("seed %d", seed)
	compared, refused := map[sheet.Total]int{}, 0
	groups := symmetry.Groups()
	for i := range *liveDrafts {
		r := rand.New(rand.NewPCG(seed, uint64(i)))
		d := patterntest.Varied(r, groups[i%len(groups)].Symbol, i/len(groups)%5)
		if err := d.Check(); err != nil {
			t.Fatalf("draft %d (%s): %v", i, d.Title, err)
		}
		l, depth := onLargePanel(t, d)
		live := sheet.Check(l, &sheet.Within{})
		if live.Partial {
			continue
		}
		report, err := Check(l)
		if err != nil {
			t.Logf("draft %d (%s): %v", i, d.Title, err)
			refused++
			continue
		}
		c := newAgreement(t, i, l, depth, live, report)
		c.compare()
		for _, p := range c.live {
			compared[sheet.Total{Kind: p.Kind, Severity: p.Severity}]++
		}
	}
	t.Logf("compared: %v", compared)
	if refused > 1+*liveDrafts/100 {
		t.Errorf("the check of the panel refused %d drafts", refused)
	}
	for _, kind := range []sheet.Kind{sheet.Overlap, sheet.Bridge, sheet.Island, sheet.Opening} {
		if compared[sheet.Total{Kind: kind, Severity: sheet.Fault}] < *liveDrafts/20 {
			t.Errorf("too few of kind %s were compared", kind)
		}
	}
}

// onLargePanel puts a draft on a panel on which every place of the cell shows far from the edges, and returns how far
// that is: two sizes of the largest copy and a bridge.
func onLargePanel(t *testing.T, d draft.Draft) (l *pattern.Layout, depth float64) {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range l.Orbits {
		for _, image := range o.Images {
			b := image.Bound()
			depth = max(depth, math.Hypot(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]))
		}
	}
	depth = 2*depth + d.Sheet.Bridge + 1
	side := 2*(d.Field.Margin+depth) + 1.2*(math.Hypot(l.A[0], l.A[1])+math.Hypot(l.B[0], l.B[1]))
	d.Panel = draft.Panel{Width: math.Ceil(side), Height: math.Ceil(side)}
	d.Field.Origin = [2]float64{side / 2, side / 2}
	if l, err = pattern.NewLayout(d, nil); err != nil {
		t.Fatal(err)
	}
	return l, depth
}

// problem is one problem of either check. at is its middle in field mm.
type problem struct {
	sheet.Problem
	at     orb.Point
	motifs [2]int
	within bool // one copy
}

// agreement holds the two checks' problems against each other.
type agreement struct {
	t           *testing.T
	draft       int
	l           *pattern.Layout
	live, panel []problem
	report      sheet.Report
	meets       map[int]bool // motifs with copies that touch or run into others
	edge        float64      // longest edge of an outline, mm
}

func newAgreement(t *testing.T, d int, l *pattern.Layout, depth float64, live sheet.Live,
	report sheet.Report) *agreement {
	a := &agreement{t: t, draft: d, l: l, report: report, meets: map[int]bool{}}
	for i, o := range l.Orbits {
		for _, p := range o.Shape.Outline() {
			for _, ring := range p {
				for k := range ring[1:] {
					edge := math.Hypot(ring[k+1][0]-ring[k][0], ring[k+1][1]-ring[k][1])
					a.edge = max(a.edge, edge*l.Draft.Motifs[i].Scale)
				}
			}
		}
	}
	a.ofLive(live)
	a.ofPanel(report, depth)
	return a
}

func (a *agreement) ofLive(live sheet.Live) {
	need := a.l.Draft.Sheet
	add := func(p, q orb.Point, motif, other int, within bool, what sheet.Problem) {
		if what.Severity == "" {
			what.Severity = sheet.Fault
		}
		a.live = append(a.live, problem{what, orb.Point{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2}, [2]int{motif, other},
			within})
	}
	for _, m := range live.Overlaps {
		a.meets[m.Motif], a.meets[m.Other] = true, true
		add(m.P, m.Q, m.Motif, m.Other, false, sheet.Problem{Kind: sheet.Overlap, Measured: m.Area})
	}
	for _, m := range live.Bridges {
		if m.D <= touchSlack {
			a.meets[m.Motif], a.meets[m.Other] = true, true
		}
		within := m.Motif == m.Other && m.Op == 0 && m.Cell == [2]int{}
		add(m.P, m.Q, m.Motif, m.Other, within, sheet.Problem{Kind: sheet.Bridge, Measured: m.D, Required: need.Bridge})
	}
	place := func(n sheet.Place, kind sheet.Kind, measured, required float64) {
		p := sheet.Problem{Kind: kind, Measured: measured, Required: required}
		if n.Hangs {
			p.Severity = sheet.Warning
			if kind == sheet.Bridge {
				p.Kind = sheet.Tip
			}
		}
		add(n.P, n.Q, n.Motif, n.Motif, true, p)
	}
	for _, n := range live.Necks {
		place(n, sheet.Bridge, n.Width, need.Bridge)
	}
	for _, n := range live.Narrow {
		place(n, sheet.Opening, n.Width, need.Opening)
	}
	for _, n := range live.Lost {
		if required := need.Opening; n.Lost == sheet.LostToKerf {
			place(n, sheet.Opening, 0, need.Kerf)
		} else {
			place(n, sheet.Opening, 0, required)
		}
	}
	for _, n := range live.Islands {
		place(n, sheet.Island, n.Area, 0)
	}
}

// ofPanel takes the panel's problems that lie depth mm inside the field and the sheet.
func (a *agreement) ofPanel(report sheet.Report, depth float64) {
	copies, err := a.l.Copies()
	if err != nil {
		a.t.Fatal(err)
	}
	back := a.l.Draft.FieldMap().Rigid()
	field, box := a.l.Draft.FieldBound().Pad(-depth), a.l.Draft.SheetBound().Pad(-depth)
	for _, p := range report.Problems {
		if !field.Contains(p.At) || !box.Contains(p.At) || p.Between == nil {
			continue
		}
		i, j := copies[p.Between[0]], copies[p.Between[1]]
		a.panel = append(a.panel, problem{p, back.Apply(p.At), [2]int{i.Motif, j.Motif}, p.Between[0] == p.Between[1]})
	}
}

// compared reports whether both checks must tell a problem: overlaps always, a bridge between two copies where one of
// them meets nothing, all else of motifs whose copies meet nothing.
func (a *agreement) compared(p problem) bool {
	one, two := a.meets[p.motifs[0]], a.meets[p.motifs[1]]
	switch {
	case p.Kind == sheet.Overlap:
		return true
	case p.Kind == sheet.Bridge && !p.within:
		return !one || !two
	}
	return !one
}

func (a *agreement) compare() {
	for _, p := range a.panel {
		if a.compared(p) && !a.has(a.live, p) {
			a.t.Errorf("draft %d (%s): the live check does not tell the panel's %s %s of %.9g at %.6g", a.draft,
				a.l.Draft.Title, p.Severity, p.Kind, p.Measured, p.at)
			break // it has many images
		}
	}
	for _, p := range a.live {
		if a.compared(p) && !a.has(a.panel, p) && !a.unlisted(p) {
			a.t.Errorf("draft %d (%s): the panel does not tell the live check's %s %s of %.9g at %.6g", a.draft,
				a.l.Draft.Title, p.Severity, p.Kind, p.Measured, p.at)
		}
	}
}

// unlisted reports whether the report lists so many problems of the kind that this one may only be counted.
func (a *agreement) unlisted(p problem) bool {
	return a.report.Of(p.Kind, p.Severity).Count > sheet.MaxListed
}

// has reports whether a problem is among others: of its kind, severity and figure, and in its place but for an
// operation of the group. Edges that face each other are as far apart along the whole of them; a place that tapers is
// measured halfway along one of its two sides, which of them depends on how it is turned or mirrored, and so does where
// the middle of a shape lies that its centre is no part of. Openings that stand in an island and meet each other are
// one on the panel, so that then the island's area is another.
func (a *agreement) has(all []problem, p problem) bool {
	for _, o := range all {
		figure := 1e-6 * (1 + p.Measured)
		if p.Kind == sheet.Island && len(a.meets) > 0 {
			figure = math.Inf(1)
		}
		if o.Kind != p.Kind || o.Severity != p.Severity || math.Abs(o.Measured-p.Measured) > figure ||
			o.Required != p.Required && p.Kind != sheet.Overlap {
			continue
		}
		slack := 1e-3
		switch {
		case p.Kind == sheet.Bridge && !p.within:
			slack += a.edge
		case p.Severity == sheet.Warning:
			slack += p.Measured / 2
		case p.Kind == sheet.Overlap, p.Kind == sheet.Island, p.Measured == 0:
			slack = math.Inf(1)
		}
		if a.sameOrbit(o.at, p.at, slack) {
			return true
		}
	}
	return false
}

// sameOrbit reports whether an operation of the group carries the field point p to within slack of q.
func (a *agreement) sameOrbit(p, q orb.Point, slack float64) bool {
	for op := range a.l.Group.Ops {
		r := a.l.Op(op, 0, 0).Apply(p)
		d := orb.Point{q[0] - r[0], q[1] - r[1]}
		if v := a.l.NearestLattice(d); math.Hypot(d[0]-v[0], d[1]-v[1]) < slack {
			return true
		}
	}
	return false
}
