package sheet

import (
	"math"
	"strconv"
	"strings"
)

// MMPerInch is exact by definition.
const MMPerInch = 25.4

// Unit is what lengths and areas are written in. The zero value is mm.
type Unit struct{ Inches bool }

// Length writes a length in mm without its unit: with two decimals below 10 mm and one above, in inches with three;
// noughts at the end are left out.
func (u Unit) Length(mm float64) string {
	if u.Inches {
		return Trim(mm/MMPerInch, 3)
	}
	if math.Abs(mm) < 10 {
		return Trim(mm, 2)
	}
	return Trim(mm, 1)
}

// Sign is the unit's sign.
func (u Unit) Sign() string {
	if u.Inches {
		return "in"
	}
	return "mm"
}

// Measure writes a length in mm with its unit.
func (u Unit) Measure(mm float64) string { return u.Length(mm) + " " + u.Sign() }

// Size writes a width and a height in mm with the unit.
func (u Unit) Size(w, h float64) string { return u.Length(w) + " × " + u.Length(h) + " " + u.Sign() }

// Below writes a positive length that is less than a limit, with its unit. Where both would be written with the same
// figure it says "just under" the limit, and of what is too small to be written "less than" the smallest that is.
func (u Unit) Below(mm, limit float64) string {
	figure := u.Length(mm)
	switch smallest := u.smallest(); {
	case figure == "0":
		return "less than " + u.Length(smallest) + " " + u.Sign()
	case figure == u.Length(limit):
		return "just under " + u.Measure(limit)
	}
	return figure + " " + u.Sign()
}

// smallest is the least length that Length writes, in mm.
func (u Unit) smallest() float64 {
	if u.Inches {
		return 0.001 * MMPerInch
	}
	return 0.01
}

// Area writes an area in mm² with its unit: mm² with one decimal, below 1 with two; square inches with three, or "less
// than" the smallest of these.
func (u Unit) Area(mm2 float64) string {
	if u.Inches {
		figure := Trim(mm2/(MMPerInch*MMPerInch), 3)
		if figure == "0" {
			return "less than 0.001 in²"
		}
		return figure + " in²"
	}
	if mm2 < 1 {
		return Trim(mm2, 2) + " mm²"
	}
	return Trim(mm2, 1) + " mm²"
}

// Trim writes a number with so many decimals at most, without noughts at the end and without a minus before a nought.
func Trim(v float64, decimals int) string {
	p := math.Pow(10, float64(decimals))
	v = math.Round(v*p) / p
	if v == 0 {
		v = 0 // no minus sign before a nought
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// Number writes a whole number with a comma before every three figures from the end: "12,400".
func Number(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0 && s[i-1] != '-'; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// Count writes a number with its noun: "1 bridge", "4 bridges", "no islands".
func Count(n int, one, many string) string {
	switch n {
	case 0:
		return "no " + many
	case 1:
		return "1 " + one
	}
	return Number(n) + " " + many
}

// List joins words: "a", "a and b", "a, b and c".
func List(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
