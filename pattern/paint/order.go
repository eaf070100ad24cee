package paint

import (
	"cmp"
	"slices"

	"openwork/pattern"
	"openwork/pattern/appearance"
	"openwork/pattern/draft"
)

// ValueOf returns how light a swatch is, as L*.
func ValueOf(s draft.Swatch) float64 { return appearance.Value(appearance.Parse(s.Colour)) }

// By says in which order colours are laid where none lies on another.
type By string

// The orders of laying.
const (
	DarkFirst  By = "" // so that what runs over an edge is covered by what is lighter (common practice)
	LightFirst By = "light"
	AsListed   By = "listed" // as the paint's list has them, whatever lies on what
)

// Laying is the order in which a draft's colours are laid, and why.
type Laying struct {
	Order []int // numbers of the colours; −1 alone without any
	// Pairs are the colours that lie on each other or touch, in the order of laying.
	Pairs []Pair
}

// Pair is two colours of which openings lie on each other, or touch.
type Pair struct {
	First, Then int     // numbers, as they are laid
	On          float64 // mm² of openings of First that those of Then lie on, as the picture shows them
	Under       float64 // mm² of openings of First that lie on those of Then all the same
}

// Order returns the order of laying. What lies on top in the picture, a copy that is drawn over one of another colour,
// is laid later: of two colours the one that lies on more of the other. Where that goes round in a circle, and between
// colours of which none lies on the other, values decide. It fails as Layout.Copies does.
func Order(l *pattern.Layout, by By) (Laying, error) {
	out := Laying{Order: Numbers(l.Draft)}
	if len(out.Order) < 2 {
		return out, nil
	}
	met, err := meetings(l)
	if err != nil {
		return out, err
	}
	values := byValue(l.Draft, by)
	out.Order = values
	if by != AsListed {
		out.Order = sorted(values, met)
	}

	for i, first := range out.Order {
		for _, then := range out.Order[i+1:] {
			if m, ok := met[[2]int{min(first, then), max(first, then)}]; ok {
				p := Pair{first, then, m.higherOn, m.lowerOn}
				if first > then {
					p.On, p.Under = p.Under, p.On
				}
				out.Pairs = append(out.Pairs, p)
			}
		}
	}
	return out, nil
}

// byValue returns the numbers of the colours in their order by value.
func byValue(d draft.Draft, by By) []int {
	out := Numbers(d)
	if by == AsListed {
		return out
	}
	value := func(number int) float64 {
		s, _ := d.Swatch(d.Paint.Colours[number])
		return ValueOf(s)
	}
	slices.SortStableFunc(out, func(a, b int) int {
		if by == LightFirst {
			a, b = b, a
		}
		return cmp.Compare(value(a), value(b))
	})
	return out
}

// sorted returns colours so that those which lie on others come after them. Of those that may come next the first in
// the given order does, and where none may, because it goes round in a circle, the one that lies on least of the rest.
func sorted(numbers []int, met map[[2]int]met) []int {
	// on returns by how much more a lies on b than b on a, in mm².
	on := func(a, b int) float64 {
		m := met[[2]int{min(a, b), max(a, b)}]
		if a > b {
			return m.higherOn - m.lowerOn
		}
		return m.lowerOn - m.higherOn
	}
	left := slices.Clone(numbers)
	var out []int
	for len(left) > 0 {
		next, least := 0, -1.0
		for i, a := range left {
			sum := 0.0
			for _, b := range left {
				if v := on(a, b); b != a && v > onlyTouching {
					sum += v
				}
			}
			if least < 0 || sum < least {
				next, least = i, sum
			}
		}
		out = append(out, left[next])
		left = slices.Delete(left, next, next+1)
	}
	return out
}
