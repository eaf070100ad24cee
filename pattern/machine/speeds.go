package machine

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/letters"
)

// Speed is a row of the table of speeds: at what speed a stock of a thickness is cut.
type Speed struct {
	How       draft.How `json:"how"`       // laser, knife or waterjet; empty: laser
	Stock     string    `json:"stock"`     // words for it, with commas between; empty: any stock that has no row
	Thickness float64   `json:"thickness"` // mm
	Speed     float64   `json:"speed"`     // mm/s
}

// maxRows is how many rows a table has at most.
const maxRows = 200

// Words for stocks in the table of usual speeds, in small letters without marks.
const (
	plies   = "ply, sperrholz, contreplaque, contrachapado, compensato, wood, holz, bois, madera, legno"
	fibres  = "mdf, fibreboard, fiberboard, faserplatte"
	acryls  = "acryl, acril, plexi, metacrilat, pmma"
	vinyls  = "vinyl, vinil, pvc"
	metals  = "steel, stahl, acier, acero, acciaio, brass, messing, laiton, laton, ottone, copper, kupfer"
	alumins = "alumin"
)

// Those of films and cards, as pattern has them.
var films, cards = strings.Join(pattern.Films, ", "), strings.Join(pattern.Cards, ", ")

// Usual returns the table of speeds that holds until the shop gives its own. Common practice: for a CO₂ laser of 60 W
// the middles of what a workshop course publishes (protolab, "CO2 Laser Cutting & Engraving", module 2: cast acrylic 3
// mm 10–15 mm/s, 6 mm 5–8; birch plywood 3 mm 12–18, 6 mm 5–8; MDF 3 mm 15–20; cardboard 2 mm 25–35; paper 0.2 mm
// 40–60); films, knives and waterjets from memory.
func Usual() []Speed {
	l, k, w := draft.Laser, draft.Knife, draft.Waterjet
	return []Speed{
		{l, films, 0.19, 60}, {l, films, 0.35, 45}, {l, films, 1, 20},
		{l, fibres, 3, 17}, {l, fibres, 6, 7}, {l, plies, 1, 35}, {l, plies, 3, 15}, {l, plies, 6, 6},
		{l, acryls, 1, 30}, {l, acryls, 3, 12}, {l, acryls, 6, 6},
		{l, cards, 0.2, 50}, {l, cards, 2, 30}, {l, "", 0.35, 40}, {l, "", 3, 12},
		{k, vinyls, 0.1, 300}, {k, films, 0.19, 150}, {k, films, 0.35, 80}, {k, cards, 0.5, 100}, {k, cards, 2, 40},
		{k, "", 0.2, 150}, {k, "", 1, 50},
		{w, metals, 1, 15}, {w, metals, 3, 6}, {w, alumins, 1, 35}, {w, alumins, 3, 15}, {w, "", 1, 60}, {w, "", 3, 30},
	}
}

// Check says what is wrong with a table.
func Check(table []Speed) error {
	if len(table) > maxRows {
		return fmt.Errorf("the table of speeds has %d rows; it may have %d", len(table), maxRows)
	}
	for i, r := range table {
		if !(r.Thickness > 0 && r.Thickness <= 1000 && r.Speed >= 0.01 && r.Speed <= 1e5) {
			return fmt.Errorf("row %d of the table of speeds has %g mm/s at %g mm; speeds lie between 0.01 and 100000 "+
				"mm/s, thicknesses above 0 and up to 1000 mm", i+1, r.Speed, r.Thickness)
		}
		switch r.How {
		case "", draft.Laser, draft.Knife, draft.Waterjet:
		default:
			return fmt.Errorf("row %d of the table of speeds cuts by %.20q; the ways are laser, knife and waterjet",
				i+1,
				string(r.How))
		}
	}
	return nil
}

// SpeedOf returns at what speed a stock is cut by a table, and by which of its rows. The first stock of the table that
// has one of the words counts, else the rows for any stock. Between two thicknesses the speed follows a power of the
// thickness, beyond the last it is inversely proportional to it, and below the first it is that. False where no row is
// for it.
func SpeedOf(table []Speed, how draft.How, stock string, thickness float64) (speed float64, by Speed, ok bool) {
	name := folded(stock)
	var rows []Speed
	take := func(fits func(words string) bool) {
		for _, r := range table {
			same := r.How == how || r.How == "" && how == draft.Laser
			if same && fits(r.Stock) && (len(rows) == 0 || rows[0].Stock == r.Stock) {
				rows = append(rows, r)
			}
		}
	}
	take(func(words string) bool {
		return slices.ContainsFunc(strings.Split(words, ","), func(word string) bool {
			word = folded(word)
			return word != "" && strings.Contains(" "+name, leading(word)+word)
		})
	})
	if len(rows) == 0 {
		take(func(words string) bool { return strings.TrimSpace(words) == "" })
	}
	if len(rows) == 0 {
		return 0, Speed{}, false
	}

	slices.SortStableFunc(rows, func(a, b Speed) int { return cmp.Compare(a.Thickness, b.Thickness) })
	last := rows[len(rows)-1]
	if thickness >= last.Thickness {
		return last.Speed * last.Thickness / thickness, last, true
	}
	for i, r := range rows {
		if thickness > r.Thickness {
			continue
		}
		if i == 0 || thickness == r.Thickness {
			return r.Speed, r, true
		}
		before := rows[i-1]
		f := math.Log(thickness/before.Thickness) / math.Log(r.Thickness/before.Thickness)
		return before.Speed * math.Pow(r.Speed/before.Speed, f), r, true
	}
	return last.Speed, last, true
}

// leading is a blank before a short word, which counts only where a word of the name begins.
func leading(word string) string {
	if len(word) <= 4 {
		return " "
	}
	return ""
}

// folded returns a name in small letters without marks.
func folded(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(strings.TrimSpace(name)) {
		r, _ = letters.Plain(r)
		b.WriteRune(r)
	}
	return b.String()
}
