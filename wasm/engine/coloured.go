package main

import (
	"encoding/json"
	"slices"

	"openwork/pattern"
	"openwork/pattern/colouring"
	"openwork/pattern/colouring/subgroups"
	"openwork/pattern/progress"
	"openwork/pattern/study"
	"openwork/pattern/symmetry"
)

// colouredInput asks for small pictures, of a size in px, of a draft in the perfect colourings of its group by K
// colours: one of those that an affine map carries into each other, or with All every one.
type colouredInput struct {
	drafted
	K      int  `json:"k"`
	All    bool `json:"all"`
	Width  int  `json:"width"`
	Height int  `json:"height"`
}

// colouredOutput is the colourings, with where their pictures stand in a block of bytes.
type colouredOutput struct {
	Rows []colouredRow
	all  []byte
}

type colouredRow struct {
	subgroups.Class
	Taken  bool `json:"taken"` // the draft has it
	Offset int  `json:"offset"`
	Length int  `json:"length"`
}

func (*colouredInput) usual() *colouredInput { return &colouredInput{} }

// run finds the colourings and draws the draft in each.
func (in *colouredInput) run(report progress.Func) (*colouredOutput, error) {
	out := &colouredOutput{Rows: []colouredRow{}}
	g, err := symmetry.Find(in.draft.Repeat.Group)
	if err != nil {
		return nil, err
	}
	classes, err := subgroups.Of(g, in.K)
	if err != nil || len(in.draft.Motifs) == 0 {
		return out, err
	}
	cache := pattern.NewShapes()
	for i, c := range classes {
		report.Of(i, len(classes))
		taken := in.draft.Paint != nil && samePerms(in.draft.Paint.Perms, c.Perms)
		if i > 0 && classes[i-1].Class == c.Class && !in.All && !taken {
			continue
		}
		d, err := pattern.Apply(in.draft, pattern.Command{Name: "colouring", Perms: &c.Perms})
		if err != nil {
			return nil, err
		}
		img, err := study.Coloured(d, in.Width, in.Height, cache)
		if err != nil {
			return nil, err
		}
		from := len(out.all)
		if out.all, err = fastPNG(out.all, img); err != nil {
			return nil, err
		}
		out.Rows = append(out.Rows, colouredRow{c, taken, from, len(out.all) - from})
	}
	return out, nil
}

func samePerms(p *colouring.Perms, q colouring.Perms) bool {
	return p != nil && slices.Equal(p.A, q.A) && slices.Equal(p.B, q.B) &&
		slices.EqualFunc(p.Ops, q.Ops, func(a, b []int) bool { return slices.Equal(a, b) })
}

func (c *colouredOutput) MarshalJSON() ([]byte, error) { return json.Marshal(c.Rows) }

func (c *colouredOutput) block() []byte { return c.all }
