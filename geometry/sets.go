package geometry

// Sets are disjoint sets of the numbers 0 to n−1, to be joined two by two (union-find, with path halving: R. E. Tarjan,
// J. van Leeuwen, "Worst-case analysis of set union algorithms", Journal of the ACM 31, 1984). Each number leads to
// another of its set, the set's root to itself.
type Sets []int32

// NewSets returns n sets of one number each.
func NewSets(n int) Sets {
	s := make(Sets, n)
	for i := range s {
		s[i] = int32(i)
	}
	return s
}

// Root returns the number that stands for the set of i.
func (s Sets) Root(i int32) int32 {
	for s[i] != i {
		s[i] = s[s[i]]
		i = s[i]
	}
	return i
}

// Join joins the sets of i and j; the root of the set of i becomes that of both. It reports whether they were two.
func (s Sets) Join(i, j int32) bool {
	a, b := s.Root(i), s.Root(j)
	s[b] = a
	return a != b
}
