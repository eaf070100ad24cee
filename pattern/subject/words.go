package subject

import (
	"fmt"
	"math"

	"openwork/pattern/appearance"
	"openwork/pattern/sheet"
)

// Clear is the contrast in L* from which a figure stands off its field at a glance: a quarter of the scale (common
// practice, from memory).
const Clear = 25.0

// Said is how the subject reads, in sentences: first whether it does.
func (r Reading) Said(u sheet.Unit) []string {
	if r.Edge == 0 {
		return []string{r.Name + " lies off the panel, so that nothing of it is seen."}
	}
	l := func(v float64) string { return fmt.Sprintf("%.0f", v) }
	first := r.Name + " stands off the field: "
	switch {
	case r.Contrast < appearance.CloseBy:
		first = r.Name + " is hardly to be told from the field: "
	case r.Contrast < Clear:
		first = r.Name + " is near the field in value: "
	}
	out := []string{fmt.Sprintf("%sits value is L* %s, that round its edge %s on the mean, %s apart.", first,
		l(r.Value),
		l(r.Field), l(r.Contrast))}
	if part := math.Round(100 * r.Lost / r.Edge); part > 0 {
		out = append(out,
			fmt.Sprintf("Along %.0f %% of its edge the two differ by less than %g, so that the edge is lost "+
				"there.", math.Min(part, 100), float64(appearance.CloseBy)))
	}
	out = append(out, fmt.Sprintf("%.0f %% of its edge runs along openings (within %s).", 100*r.Along/r.Edge,
		u.Measure(TangentWithin)))
	switch n := len(r.Tangents); n {
	case 0:
		out = append(out, "Nowhere does an opening's edge run beside its own for long.")
	case 1:
		out = append(out, fmt.Sprintf("In one place an opening's edge runs within %s of its own for %s; it is ringed. "+
			"Move the subject or the pattern until they cross or part.", u.Measure(TangentWithin),
			u.Measure(r.Tangents[0].Length)))
	default:
		out = append(out,
			fmt.Sprintf("In %s an opening's edge runs within %s of its own for more than %s, the longest "+
				"for %s; they are ringed. Move the subject or the pattern until they cross or part.",
				sheet.Count(n, "place", "places"), u.Measure(TangentWithin), u.Measure(TangentFrom),
				u.Measure(r.Tangents[0].Length)))
	}
	return out
}
