package main

import (
	"bytes"

	"openwork/pattern"
	"openwork/pattern/cutfile"
	"openwork/pattern/joined"
	"openwork/pattern/progress"
	"openwork/pattern/stepping"
)

// stepsAnswer is the answer of steps: the map of the places, and what the cut file holds.
type stepsAnswer struct {
	*stepping.Stepping
	Type string       `json:"type"`
	Made cutfile.Made `json:"made"`
	Map  int          `json:"mapFrom"` // where in the block of bytes the map, a PDF, begins: after the cut file
}

// steps makes a draft's stepping sheet: its cut file and its map, end to end.
func steps(d pattern.Draft, o stepping.Options, f cutfile.Format, paper string, told progress.Func) (stepsAnswer, []byte, error) {
	l, err := layoutOf(d)
	if err != nil {
		return stepsAnswer{}, nil, err
	}
	s, err := stepping.Steps(l, o, told.Within(0, 0.8))
	if err != nil {
		return stepsAnswer{}, nil, err
	}
	var b bytes.Buffer
	made, err := s.Write(&b, f)
	if err != nil {
		return stepsAnswer{}, nil, err
	}
	from := b.Len()
	if paper == "" {
		paper = "A4"
	}
	if err := s.Map(&b, paper); err != nil {
		return stepsAnswer{}, nil, err
	}
	told.At(1)
	return stepsAnswer{s, f.Type(), made, from}, b.Bytes(), nil
}

// joinAnswer is the answer of join: the parts, the joints, and where in the block of bytes each part's cut file stands.
type joinAnswer struct {
	*joined.Joined
	Type  string     `json:"type"`
	Files []joinFile `json:"files"`
}

// joinFile is the cut file of one part.
type joinFile struct {
	Part   int          `json:"part"`
	Offset int          `json:"offset"`
	Length int          `json:"length"`
	Made   cutfile.Made `json:"made"`
}

// join divides a draft's sheet, and returns the parts' cut files end to end.
func join(d pattern.Draft, o joined.Options, f cutfile.Format, told progress.Func) (joinAnswer, []byte, error) {
	l, err := layoutOf(d)
	if err != nil {
		return joinAnswer{}, nil, err
	}
	j, err := joined.Join(l, o, told.Within(0, 0.7))
	if err != nil {
		return joinAnswer{}, nil, err
	}
	out := joinAnswer{Joined: j, Type: f.Type(), Files: []joinFile{}}
	var all bytes.Buffer
	for k, p := range j.Parts {
		from := all.Len()
		made, err := j.Write(k, &all, f)
		if err != nil {
			return joinAnswer{}, nil, err
		}
		out.Files = append(out.Files, joinFile{p.Number, from, all.Len() - from, made})
		told.Within(0.7, 1).Of(k+1, len(j.Parts))
	}
	return out, all.Bytes(), nil
}
