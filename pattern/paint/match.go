package paint

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"openwork/pattern/appearance"
	"openwork/pattern/draft"
)

// MaxTubes is how many tubes can be mixed from: three of them in every proportion are some two million mixes.
const MaxTubes = 60

// Mix is tubes in parts that come near to a swatch. It is an estimate: what a tube reflects is guessed from what it
// looks like on a screen.
type Mix struct {
	Tubes  []string `json:"tubes"` // names
	Parts  []int    `json:"parts"` // of each, by volume, in the least whole numbers
	Colour string   `json:"colour"`
	Apart  float64  `json:"apart"` // CIEDE2000 from the swatch
}

// Match is what comes nearest to a swatch: one tube, and a mix of two or three where that comes nearer.
type Match struct {
	Tube Mix  `json:"tube"`
	Mix  *Mix `json:"mix"` // null where no mix comes nearer than the tube
}

// recipes are the parts of mixes of two and three tubes that a palette knife can measure.
var recipes = func() (out [][]int) {
	for n := 2; n <= 8; n++ {
		for a := 1; a < n; a++ {
			out = append(out, []int{a, n - a})
			for b := 1; a+b < n && n <= 5; b++ {
				out = append(out, []int{a, b, n - a - b})
			}
		}
	}
	return slices.DeleteFunc(out, func(parts []int) bool { return common(parts) > 1 })
}()

func common(parts []int) int {
	g := 0
	for _, p := range parts {
		for p != 0 {
			g, p = p, g%p
		}
	}
	return g
}

// MatchOf finds what comes nearest to a colour (#rrggbb) among the painter's tubes and mixes of two or three of them. A
// mix of more tubes must come nearer than one of fewer by more than can be told, 1. It fails where there is no tube,
// where there are more than MaxTubes, and where a colour is none.
func MatchOf(colour string, tubes []draft.Swatch) (*Match, error) {
	if !draft.IsColour(colour) {
		return nil, fmt.Errorf("%.40q is not a colour; one is # and six digits from 0 to f, as in #17564a", colour)
	}
	switch n := len(tubes); {
	case n == 0:
		return nil, fmt.Errorf("there are no tubes to match %s against; list them first", colour)
	case n > MaxTubes:
		return nil, fmt.Errorf("there are %d tubes; mixes are looked for among %d at most", n, MaxTubes)
	}
	paints := make([]pigment, len(tubes))
	for i, t := range tubes {
		if !draft.IsColour(t.Colour) {
			return nil, fmt.Errorf("the colour of %q is %.40q, which is none", t.Name, t.Colour)
		}
		paints[i] = pigmentOf(t.Colour)
	}

	wanted := LabOf(appearance.Parse(colour))
	best := map[int]trial{}
	consider := func(parts []int, which ...int) {
		t := trial{which: slices.Clone(which), parts: parts}
		t.apart = Difference(wanted, mixed(paints, parts, which).lab())
		if was, ok := best[len(which)]; !ok || t.apart < was.apart {
			best[len(which)] = t
		}
	}
	for i := range tubes {
		consider([]int{1}, i)
	}
	for _, r := range recipes {
		for i := range tubes {
			for j := range i {
				if len(r) == 2 {
					consider(r, i, j)
					continue
				}
				if best[1].apart < 1 { // three tubes for what one already is
					continue
				}
				for k := range j {
					consider(r, i, j, k)
				}
			}
		}
	}

	out := &Match{Tube: best[1].named(tubes, paints)}
	found := best[1]
	for n := 2; n <= 3; n++ {
		if t, ok := best[n]; ok && t.apart < found.apart-1 {
			mix := t.named(tubes, paints)
			found, out.Mix = t, &mix
		}
	}
	return out, nil
}

// trial is a mix that was tried.
type trial struct {
	which, parts []int
	apart        float64
}

// named returns the mix with its tubes by name, the one with most parts first.
func (t trial) named(tubes []draft.Swatch, paints []pigment) Mix {
	order := make([]int, len(t.which))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(t.parts[b], t.parts[a]) })
	out := Mix{Apart: t.apart, Colour: mixed(paints, t.parts, t.which).hex()}
	for _, i := range order {
		out.Tubes, out.Parts = append(out.Tubes, tubes[t.which[i]].Name), append(out.Parts, t.parts[i])
	}
	return out
}

// pigment is how strongly a thick layer of paint absorbs in three bands, against how it scatters: K/S of Kubelka and
// Munk. That of a mix is the sum of its parts' by volume, all paints taken to scatter alike. Source: P. Kubelka, F.
// Munk, Zeitschrift für technische Physik 12 (1931); D. R. Duncan, "The colour of pigment mixtures", Proceedings of
// the Physical Society 52 (1940), for mixes.
type pigment [3]float64

// darkest is the least that a band is taken to reflect: a screen shows 0, and no paint does.
const darkest = 0.004

// pigmentOf guesses a paint from what it looks like: the light of each channel of sRGB is what a band reflects.
func pigmentOf(colour string) (out pigment) {
	for i, light := range appearance.Light(appearance.Parse(colour)) {
		r := math.Max(darkest, math.Min(1-darkest, light))
		out[i] = (1 - r) * (1 - r) / (2 * r)
	}
	return out
}

// mixed returns a mix of paints in parts.
func mixed(paints []pigment, parts, which []int) (out pigment) {
	whole := 0
	for i, p := range parts {
		whole += p
		for band := range out {
			out[band] += float64(p) * paints[which[i]][band]
		}
	}
	for band := range out {
		out[band] /= float64(whole)
	}
	return out
}

// light returns what the bands reflect.
func (p pigment) light() (out [3]float64) {
	for i, ks := range p {
		out[i] = 1 + ks - math.Sqrt(ks*ks+2*ks)
	}
	return out
}

func (p pigment) lab() Lab { return LabOf(appearance.OfLight(p.light())) }

func (p pigment) hex() string { return appearance.Hex(appearance.OfLight(p.light())) }
