package desk

import (
	"openwork/pattern/symmetry"
	"openwork/wasm/editor/desk/say"
)

// GroupCard is a row of the static list of the seventeen.
type GroupCard struct {
	Number   int      `json:"number"`
	Symbol   string   `json:"symbol"`
	Older    string   `json:"older"`
	Orbifold string   `json:"orbifold"`
	Family   string   `json:"family"`
	Line     string   `json:"line"`
	About    []string `json:"about"` // three sentences
}

// groupLines tells what each group does, in one plain line.
var groupLines = map[string]string{
	"p1":   "Repeated by moving only.",
	"p2":   "Half-turns about points.",
	"pm":   "Mirrored across upright lines.",
	"pg":   "Each row mirrored and moved half a cell up.",
	"cm":   "Mirrored, in rows that stand half a cell over.",
	"p2mm": "Mirrored both ways.",
	"p2mg": "Mirrored one way, half-turns between.",
	"p2gg": "Half-turns and glides both ways, no mirror.",
	"c2mm": "Mirrored both ways, in rows that stand half a cell over.",
	"p4":   "Quarter-turns.",
	"p4mm": "Quarter-turns with mirrors through them.",
	"p4gm": "Quarter-turns with mirrors between them.",
	"p3":   "Third-turns.",
	"p3m1": "Third-turns with mirrors through every one.",
	"p31m": "Third-turns, some of them off the mirrors.",
	"p6":   "Sixth-turns.",
	"p6mm": "Sixth-turns with mirrors: a kaleidoscope.",
}

// GroupCards returns the seventeen in the Tables' order.
func GroupCards() []GroupCard {
	var out []GroupCard
	for _, g := range symmetry.Groups() {
		about := say.GroupAbout[g.Symbol]
		out = append(out, GroupCard{g.Number, g.Symbol, g.Older, g.Orbifold, string(g.System), groupLines[g.Symbol], about[:]})
	}
	return out
}
