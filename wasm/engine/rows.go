//go:build !js

package main

import (
	"encoding/json"
	"io"

	"openwork/pattern"
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

// groupRows is the answer of groups.
func groupRows() []groupRow {
	var out []groupRow
	for _, g := range symmetry.Groups() {
		row := groupRow{g.Number, g.Symbol, g.Older, g.Orbifold, string(g.System), g.Order, nil}
		for _, op := range g.Ops {
			row.Ops = append(row.Ops, opRow{op.W, [2]string{op.T[0].Ratio(), op.T[1].Ratio()}})
		}
		out = append(out, row)
	}
	return out
}

// copyRow is one copy as the engine prints it: map and shift carry the silhouette's frame to panel mm.
type copyRow struct {
	Motif string        `json:"motif"`
	Op    int           `json:"op"`
	Cell  [2]int        `json:"cell"`
	Map   [2][2]float64 `json:"map"`
	Shift [2]float64    `json:"shift"`
}

// copyRows is the answer of copies.
func copyRows(d pattern.Draft) ([]copyRow, error) {
	l, err := layoutOf(d)
	if err != nil {
		return nil, err
	}
	copies, err := l.Copies()
	if err != nil {
		return nil, err
	}
	out := []copyRow{}
	for _, c := range copies {
		m := c.Map
		out = append(out, copyRow{d.Motifs[c.Motif].ID, c.Op, c.Cell,
			[2][2]float64{{m.A, m.B}, {m.C, m.D}}, [2]float64{m.X, m.Y}})
	}
	return out, nil
}

// printJSON writes v as one indented JSON value. Numbers are written so that reading gives the same float64 again.
func printJSON(out io.Writer, v any) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(v)
}
