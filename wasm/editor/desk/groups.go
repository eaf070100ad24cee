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

// GroupCards returns the seventeen in the Tables' order.
func GroupCards() []GroupCard {
	var out []GroupCard
	for _, g := range symmetry.Groups() {
		about := say.GroupAbout[g.Symbol]
		out = append(out, GroupCard{
			g.Number, g.Symbol, g.Older, g.Orbifold, string(g.System), say.GroupLine[g.Symbol], about[:],
		})
	}
	return out
}
