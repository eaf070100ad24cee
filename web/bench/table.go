package main

import (
	"fmt"
	"slices"
	"strings"
)

// table gathers the rows of README's table.
type table struct{ rows [][3]string }

func (t *table) add(what, measured, asked string) {
	t.rows = append(t.rows, [3]string{what, measured, asked})
}

// markdown writes the rows as a Markdown table.
func (t *table) markdown() string {
	var b strings.Builder
	b.WriteString("| figure | measured | asked |\n| --- | --- | --- |\n")
	for _, r := range t.rows {
		fmt.Fprintf(&b, "| %s | %s | %s |\n", r[0], r[1], r[2])
	}
	return b.String()
}

// median returns the middle value, or the mean of the two middle ones; 0 for none.
func median(values []float64) float64 {
	if len(values) == 0 {
		return 0
	}
	v := slices.Sorted(slices.Values(values))
	half := len(v) / 2
	if len(v)%2 == 1 {
		return v[half]
	}
	return (v[half-1] + v[half]) / 2
}

// short writes a number with three significant digits, and whole from a thousand on.
func short(v float64) string {
	if v >= 1000 {
		return fmt.Sprintf("%.0f", v)
	}
	return fmt.Sprintf("%.3g", v)
}

// spread is the least and the most beside the median.
func spread(values []float64, unit string) string {
	return fmt.Sprintf("%s %s (%s–%s)", short(median(values)), unit, short(slices.Min(values)),
		short(slices.Max(values)))
}
