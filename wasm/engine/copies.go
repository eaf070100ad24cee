package main

import "openwork/pattern/progress"

// copyRow is one copy as the engine prints it: map and shift carry the silhouette's frame to panel mm.
type copyRow struct {
	Motif string        `json:"motif"`
	Op    int           `json:"op"`
	Cell  [2]int        `json:"cell"`
	Map   [2][2]float64 `json:"map"`
	Shift [2]float64    `json:"shift"`
}

type copiesInput struct{ drafted }

func (*copiesInput) usual() *copiesInput { return &copiesInput{} }

// run lists the copies that the edge rule keeps.
func (in *copiesInput) run(progress.Func) ([]copyRow, error) {
	l, err := in.layout()
	if err != nil {
		return nil, err
	}
	kept, err := l.Copies()
	if err != nil {
		return nil, err
	}

	out := []copyRow{}
	for _, c := range kept {
		m := c.Map
		out = append(out, copyRow{in.draft.Motifs[c.Motif].ID, c.Op, c.Cell,
			[2][2]float64{{m.A, m.B}, {m.C, m.D}}, [2]float64{m.X, m.Y}})
	}
	return out, nil
}
