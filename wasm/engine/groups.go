package main

import (
	"openwork/pattern/progress"
	"openwork/pattern/symmetry"
)

// groupRow is one plane group as the engine prints it.
type groupRow struct {
	Number   int     `json:"number"`
	Symbol   string  `json:"symbol"`
	Older    string  `json:"older"`
	Orbifold string  `json:"orbifold"`
	System   string  `json:"system"`
	Order    int     `json:"order"`
	Ops      []opRow `json:"ops"`
}

type opRow struct {
	W [2][2]int `json:"w"`
	T [2]string `json:"t"`
}

type groupsInput struct{}

func (*groupsInput) usual() *groupsInput { return &groupsInput{} }

// run lists the plane groups.
func (*groupsInput) run(progress.Func) ([]groupRow, error) {
	var out []groupRow
	for _, g := range symmetry.Groups() {
		row := groupRow{g.Number, g.Symbol, g.Older, g.Orbifold, string(g.System), g.Order, nil}
		for _, op := range g.Ops {
			row.Ops = append(row.Ops, opRow{op.W, [2]string{op.T[0].Ratio(), op.T[1].Ratio()}})
		}
		out = append(out, row)
	}
	return out, nil
}
