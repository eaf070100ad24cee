package panel

// groups tells which of n things belong together (a union-find with path halving).
type groups struct{ parent []int }

func newGroups(n int) *groups {
	g := &groups{parent: make([]int, n)}
	for i := range g.parent {
		g.parent[i] = i
	}
	return g
}

func (g *groups) find(i int) int {
	for g.parent[i] != i {
		g.parent[i] = g.parent[g.parent[i]]
		i = g.parent[i]
	}
	return i
}

func (g *groups) join(i, j int) { g.parent[g.find(j)] = g.find(i) }

// all returns the groups in the order of their first members, each in rising order.
func (g *groups) all() [][]int {
	var out [][]int
	index := map[int]int{}
	for i := range g.parent {
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
