package plates

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/offset"
	"openwork/geometry/overlay"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/sheet/panel"
)

const (
	// UsualLap in mm is how far a plate over ties reaches into the openings beside them, so that no line of ground is
	// left between the two layings (common practice).
	UsualLap = 1.0

	// MaxLap in mm bounds it.
	MaxLap = 20.0

	// lapTolerance in mm: the chords of a lap's arcs lie this near to them.
	lapTolerance = 0.02
)

// over returns the plate that opens the strips which ties leave across the openings of another one: each strip, and a
// lap of the openings beside it. It is laid in the same colour once that one is dry. The plate is checked as a sheet
// of its own, and says of how many strips it opens all.
func over(d draft.Draft, of *Plate, bare []orb.Polygon, lap float64) (Plate, error) {
	open := newOpenings(of.Sheet.Openings)
	var parts []orb.MultiPolygon
	for _, strip := range bare {
		part, err := lapped(strip, open, lap)
		if err != nil {
			return Plate{}, fmt.Errorf("the plate over the ties of plate %d, %s, could not be made: %w", of.Number,
				of.Name, err)
		}
		parts = append(parts, part)
	}
	outline, err := overlay.Union(parts...)
	if err != nil {
		return Plate{}, fmt.Errorf("the plate over the ties of plate %d, %s, could not be made: %w", of.Number, of.Name,
			err)
	}

	l, err := pattern.NewLayout(d.Outlined("ties", of.Name+", over its ties", outline, 0, draft.Touching), nil)
	if err != nil {
		return Plate{}, err
	}
	report, err := panel.Check(l)
	if err != nil {
		return Plate{}, err
	}
	s, err := cutplan.OfLayout(l)
	if err != nil {
		return Plate{}, err
	}
	s.Field = of.Sheet.Field
	out := Plate{Over: of.Number, Swatch: of.Swatch, Name: of.Name, Value: of.Value, Openings: len(s.Openings),
		Sound: report.Sound, Reasons: []string{}, Sheet: s, Report: report}
	if !report.Sound {
		out.Reasons = append(out.Reasons, report.Reasons()...)
	}

	made := newOpenings(s.Openings)
	for _, strip := range bare {
		covered, err := made.cover(strip)
		if err != nil {
			return Plate{}, err
		}
		if covered {
			of.Ties.Over++
		}
	}
	of.Ties.Bare -= of.Ties.Over
	return out, nil
}

// lapped returns a strip with what of the openings beside it lies no further than lap mm from it.
func lapped(strip orb.Polygon, open *openings, lap float64) (orb.MultiPolygon, error) {
	mp := orb.MultiPolygon{strip}
	if lap == 0 {
		return mp, nil
	}
	grown, err := offset.Offset(mp, lap, lapTolerance)
	if err != nil {
		return nil, err
	}
	region, err := overlay.Union(append(open.near(grown.Bound()), mp)...)
	if err != nil {
		return nil, err
	}
	within, err := overlay.Intersection(grown, region)
	if err != nil {
		return nil, err
	}

	// An opening that lies near without touching the strip is no part of it.
	var out orb.MultiPolygon
	shape := geometry.NewShape(mp)
	for _, p := range within {
		if geometry.OverlapArea(shape, geometry.NewShape(orb.MultiPolygon{p}), orb.Point{}) > 0 {
			out = append(out, p)
		}
	}
	return out, nil
}
