package panel

import "openwork/geometry"

// groups is which of n things belong together.
type groups struct{ sets geometry.Sets }

func newGroups(n int) *groups {
	return &groups{geometry.NewSets(n)}
}

func (g *groups) find(i int) int {
	return int(g.sets.Root(int32(i)))
}

func (g *groups) join(i, j int) { g.sets.Join(int32(i), int32(j)) }

// all returns the groups in the order of their first members, each in rising order.
func (g *groups) all() [][]int {
	var out [][]int
	index := map[int]int{}
	for i := range g.sets {
		r := g.find(i)
		k, ok := index[r]
		if !ok {
			k = len(out)
			index[r] = k
			out = append(out, nil)
		}
		out[k] = append(out[k], i)
	}
	return out
}
