package main

import (
	"fmt"

	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
	"openwork/pattern/joined"
	"openwork/pattern/nest"
	"openwork/pattern/stepping"
)

// plans returns what is cut of each piece, and the pieces by their pages and outlines.
func (in *nestInput) plans(f cutfile.Format, cut cutplan.Options) (plans []*cutplan.Plan, pieces []nest.Piece,
	err error) {
	cut.Trim = cutplan.TrimCut // what is cut from a larger stock has none of its edge
	add := func(p *cutplan.Plan, copies int) {
		size := p.Page
		plans = append(plans, p)
		piece := nest.Piece{Name: p.Title, Width: size.Max[0] - size.Min[0], Height: size.Max[1] - size.Min[1],
			Count: copies, Outline: p.Outline}
		if piece.Boxed() {
			piece.Outline = nil
		}
		pieces = append(pieces, piece)
	}
	l, err := in.layout()
	if err != nil {
		return nil, nil, err
	}
	o := in.Sheets.options
	o.Cut = cut
	switch in.As {
	case "":
		if o.Plates {
			all, err := platePlans(l, cut, f)
			if err != nil {
				return nil, nil, err
			}
			for _, p := range all {
				add(p, in.Copies)
			}
			break
		}
		p, err := cutplan.ForLayout(l, cut, f.Curves())
		if err != nil {
			return nil, nil, err
		}
		add(p, in.Copies)
	case "steps":
		s, err := stepping.Steps(l, o, nil)
		if err != nil {
			return nil, nil, err
		}
		if len(s.Plates) == 0 {
			p, err := s.Plan(f)
			if err != nil {
				return nil, nil, err
			}
			add(p, in.Copies)
		}
		for _, plate := range s.Plates {
			p, err := s.PlatePlan(plate, f)
			if err != nil {
				return nil, nil, err
			}
			add(p, in.Copies)
		}
	case "join":
		j, err := joined.Join(l, joined.Options{Bed: o.Bed, Units: o.Units, Cut: cut, Plates: o.Plates}, nil)
		if err != nil {
			return nil, nil, err
		}
		for k := range j.Parts {
			if len(j.Plates) == 0 {
				p, err := j.Plan(k, f)
				if err != nil {
					return nil, nil, err
				}
				add(p, in.Copies)
			}
			for _, plate := range j.Plates {
				p, err := j.PlatePlan(plate, k, f)
				if err != nil {
					return nil, nil, err
				}
				add(p, in.Copies)
			}
		}
	default:
		return nil, nil, fmt.Errorf("%w: a sheet is made by steps or by join, not by %.20q", errUsage, in.As)
	}

	for _, a := range in.Also {
		if s, t := a.draft.Sheet, in.draft.Sheet; s.Stock != t.Stock || s.Thickness != t.Thickness {
			return nil, nil, fmt.Errorf("%.60q is of %.40s, %g mm thick, and %.60q of %.40s, %g mm; what is cut from "+
				"one sheet is of one stock", a.draft.Title, s.Stock, s.Thickness, in.draft.Title, t.Stock, t.Thickness)
		}
		l, err := layoutOf(a.draft)
		if err != nil {
			return nil, nil, err
		}
		p, err := cutplan.ForLayout(l, cut, f.Curves())
		if err != nil {
			return nil, nil, err
		}
		add(p, a.Copies)
	}
	return plans, pieces, nil
}
