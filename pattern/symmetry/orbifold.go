package symmetry

import (
	"slices"
	"strconv"
	"strings"
)

// signature computes Conway's signature of the group from its operations and elements.
//
// Source of the notation: J. H. Conway, D. H. Huson, "The Orbifold Notation for Two-Dimensional Groups", Structural
// Chemistry 13 (2002). The signature describes the surface that the plane becomes when points carried into each other
// by the group are made one:
//   - a rotation point off the mirrors is a cone point: a number before any star;
//   - mirrors that meet, or are carried into such that meet, form one edge of the surface: a star, and after it the
//     orders of its corners, which are the rotation points on those mirrors;
//   - a glide line that no mirror crosses leads from one side of the surface to the other: the surface is one-sided. (A
//     mirror-free region is convex, so a glide carries it to itself exactly when the whole glide line lies in it.)
//
// How many crosses or rings follow from the surface's first Betti number. The surface's fundamental group is the plane
// group with everything that has a fixed point made trivial; over the rationals only translations count, and of these
// only what the point group leaves alone, so the number is the dimension of the vectors fixed by the point group. A
// surface with h rings and b edges has the number 2h, or 2h + b − 1 with edges; with k crosses k − 1, or k + b − 1.
func (g Group) signature() string {
	elements := g.Elements()
	var out strings.Builder
	for _, e := range elements {
		if e.Kind == Turn && !e.OnMirror && first(elements, e) {
			out.WriteString(strconv.Itoa(e.Order))
		}
	}
	edges := edges(elements)
	for _, corners := range edges {
		// The elements come with high orders first. With at most three corners every order is the same up to the way
		// round, and the one edge with four has all the same.
		out.WriteString("*")
		for _, order := range corners {
			out.WriteString(strconv.Itoa(order))
		}
	}

	loops := g.fixedDimension()
	if len(edges) > 0 {
		loops -= len(edges) - 1
	}
	if oneSided(elements) {
		if len(edges) == 0 {
			loops++
		}
		return out.String() + strings.Repeat("×", loops)
	}
	return strings.Repeat("o", loops/2) + out.String()
}

// first says whether e is the first listed of its class.
func first(elements []Element, e Element) bool {
	return elements[slices.IndexFunc(elements, e.sameClass)] == e
}

// sameClass says whether the group carries e into f.
func (e Element) sameClass(f Element) bool {
	return e.Kind == f.Kind && e.Order == f.Order && e.Class == f.Class
}

// through says whether a line, or one of its images under the cell's translations, goes through a point.
func (e Element) through(p [2]Fraction) bool {
	x, y := p[0].Plus(e.At[0].Times(-1)), p[1].Plus(e.At[1].Times(-1))
	return y.Times(e.Along[0]).Plus(x.Times(-e.Along[1])).Den == 1
}

// edges returns the edges of the surface, each as the orders of its corners. Lines that go through one rotation point,
// and lines of one class, belong to the same edge.
func edges(elements []Element) [][]int {
	edge := map[int]int{} // the class of a mirror → the least class in its edge
	for _, e := range elements {
		if e.Kind == Mirror {
			edge[e.Class] = e.Class
		}
	}
	join := func(a, b int) {
		for class, shortest := range edge {
			if shortest == max(a, b) {
				edge[class] = min(a, b)
			}
		}
	}
	at := map[int][]int{} // the class of a corner, counted as it comes → its mirrors' classes
	var orders []int
	for _, e := range elements {
		if e.Kind != Turn || !e.OnMirror || !first(elements, e) {
			continue
		}
		for _, line := range elements {
			if line.Kind == Mirror && line.through(e.At) {
				at[len(orders)] = append(at[len(orders)], line.Class)
				join(edge[at[len(orders)][0]], edge[line.Class])
			}
		}
		orders = append(orders, e.Order)
	}

	var out [][]int
	for class := range len(edge) {
		if edge[class] != class {
			continue
		}
		corners := []int{}
		for i, order := range orders {
			if edge[at[i][0]] == class {
				corners = append(corners, order)
			}
		}
		out = append(out, corners)
	}
	return out
}

// oneSided says whether there is a glide line that no mirror crosses.
func oneSided(elements []Element) bool {
	return slices.ContainsFunc(elements, func(glide Element) bool {
		return glide.Kind == Glide && !slices.ContainsFunc(elements, func(e Element) bool {
			return e.Kind == Mirror && e.Along != glide.Along
		})
	})
}

// fixedDimension returns the dimension of the vectors that every W of the group leaves alone: the mean of the traces.
func (g Group) fixedDimension() int {
	sum := 0
	for _, op := range g.Ops {
		sum += op.W[0][0] + op.W[1][1]
	}
	return sum / len(g.Ops)
}
