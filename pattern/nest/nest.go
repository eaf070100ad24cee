// Package nest lays pieces on as few sheets of stock as it finds: sheets, parts and copies of them, upright or turned
// by quarters, a space apart and an edge from the stock's sides. Pieces are laid by their boxes, and where that is
// better by their outlines.
package nest

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"github.com/paulmach/orb"
)

// Stock is what there is to lay pieces on, in mm.
type Stock struct {
	Width  float64 `json:"width"`
	Height float64 `json:"height"`
	Count  int     `json:"count"` // of sheets there are; 0: as many as are needed
	Edge   float64 `json:"edge"`  // that is left along the stock's sides
	Space  float64 `json:"space"` // that is left between pieces
}

// Piece is what is cut in one piece, and how often it is wanted. Lengths in mm.
type Piece struct {
	Name    string  `json:"name"`
	Width   float64 `json:"width"` // of its box
	Height  float64 `json:"height"`
	Count   int     `json:"count"`
	Upright bool    `json:"upright"` // it may not be turned, as where the stock has a grain

	// Outline is the piece without its holes, from the lower left corner of its box on: closed rings that do not meet,
	// none within another, and that leave the box by less than MaxStray. Nil: the box.
	Outline []orb.Ring `json:"outline,omitempty"`
}

// Placed is one piece on a sheet of stock: where its lower left corner lies, from the stock's.
type Placed struct {
	Piece  int        `json:"piece"` // which of the pieces, from 0
	At     [2]float64 `json:"at"`
	Turned bool       `json:"turned"` // by an odd number of quarters
	// Quarters by which it is turned, counter-clockwise, where that is not one where it is Turned and none otherwise.
	Quarters int     `json:"quarters,omitempty"`
	Width    float64 `json:"width"` // as it lies
	Height   float64 `json:"height"`
}

// Turns returns the number of quarters by which the piece is turned, counter-clockwise, from 0 to 3.
func (p Placed) Turns() int {
	if p.Quarters == 0 && p.Turned {
		return 1
	}
	return p.Quarters
}

// Nesting is where all pieces lie.
type Nesting struct {
	Sheets [][]Placed `json:"sheets"`
	Left   []int      `json:"left"`  // of each piece, how many found no room on the stock there is
	Bound  int        `json:"bound"` // no way of laying them takes fewer sheets
	Share  float64    `json:"share"` // of the sheets that are taken, what the pieces cover
}

// Limits, and how much is tried: pieces laid in all, over all trials.
const (
	MaxPieces = 2000
	maxSide   = 20_000.0 // mm
	maxWork   = 120_000
	maxStay   = 400  // trials on the average from one order
	slack     = 1e-9 // mm: rounding of sums of lengths

	// MaxStray in mm of an outline beyond its box: curves are laid within a tolerance.
	MaxStray = 0.05
)

// errNoStock is the refusal of stock that has no room at all.
var errNoStock = errors.New("the edge takes all of the stock; leave less along its sides")

// Pack lays pieces on sheets of stock, on as few as it finds; of several ways the one that leaves most of a sheet free.
// That they are the fewest is proven only where they come to Bound. It fails where a piece fits no sheet, and where a
// number is none.
//
// Pieces are laid by their boxes first. Where some have outlines that leave enough of them free, they are laid by these
// too, and that is taken where it lays more pieces, on fewer sheets, or leaves more of the last one free.
//
// Each trial by boxes lays the pieces one after another into the largest free rectangles of the sheets begun, which are
// kept as a list (the maximal rectangles of J. Jylänki's survey of packing, 2010), in some order and by some rule of
// which free rectangle is best; after the usual orders come shuffled ones, always the same.
func Pack(stock Stock, pieces []Piece) (Nesting, error) {
	if err := check(stock, pieces); err != nil {
		return Nesting{}, err
	}
	p := &packer{pieces: pieces, space: stock.Space, edge: stock.Edge, most: stock.Count,
		wide: stock.Width - 2*stock.Edge + stock.Space, high: stock.Height - 2*stock.Edge + stock.Space}
	for i, q := range pieces {
		for range q.Count {
			p.all = append(p.all, item{i, either})
		}
	}

	best := p.byBoxes()
	bound := p.bound(Piece.outlined)
	if slices.ContainsFunc(pieces, Piece.outlined) {
		best = p.byOutlines(best, bound)
	}
	return p.nesting(best, bound, stock), nil
}

// byBoxes lays the pieces by their boxes.
func (p *packer) byBoxes() trial {
	bound := p.bound(func(Piece) bool { return false })
	best := trial{}
	done := func() bool { return best.done(bound) }
	for _, order := range p.orders() {
		for rule := range rules {
			if t := p.lay(order, rule); t.better(best) {
				best = t
			}
		}
	}

	// From the best order on, small changes that make nothing worse; now and then from an order drawn at random.
	r := rand.New(rand.NewPCG(1, 2))
	from := best
	for work := 0; work < maxWork && !done() && len(p.all) > 1; work += len(p.all) {
		var order []item
		order, from = changed(r, from, ways)
		t := p.lay(order, r.IntN(rules))
		if !from.better(t) {
			from = t
		}
		if t.better(best) {
			best = t
		}
	}
	return best
}

// changed returns an order a little different from that of a trial, with pieces that lie in one of so many ways; now
// and then one drawn at random, from which to go on.
func changed(r *rand.Rand, from trial, ways int) ([]item, trial) {
	order := slices.Clone(from.order)
	if r.IntN(maxStay) == 0 {
		r.Shuffle(len(order), func(i, j int) { order[i], order[j] = order[j], order[i] })
		from = trial{order: order}
	}
	for range 1 + r.IntN(3) {
		i, j := r.IntN(len(order)), r.IntN(len(order))
		v := order[i]
		v.lies = way(r.IntN(ways))
		order = slices.Insert(slices.Delete(order, i, i+1), j, v)
	}
	return order, from
}

func check(s Stock, pieces []Piece) error {
	side := func(v float64) bool { return v > 0 && v <= maxSide }
	if !side(s.Width) || !side(s.Height) {
		return fmt.Errorf("stock of %g × %g mm is none; both sides lie between 0 and %g mm", s.Width, s.Height, maxSide)
	}
	if !(s.Edge >= 0 && s.Space >= 0 && s.Edge <= maxSide && s.Space <= maxSide) || s.Count < 0 {
		return fmt.Errorf("an edge of %g mm, a space of %g mm or %d sheets of stock cannot be had; none is negative",
			s.Edge, s.Space, s.Count)
	}
	if s.Width <= 2*s.Edge || s.Height <= 2*s.Edge {
		return errNoStock
	}
	n := 0
	for _, p := range pieces {
		if !side(p.Width) || !side(p.Height) || p.Count < 0 || p.Count > MaxPieces {
			return fmt.Errorf("%s of %g × %g mm, %d times, cannot be laid", p.called(), p.Width, p.Height, p.Count)
		}
		w, h := s.Width-2*s.Edge+slack, s.Height-2*s.Edge+slack
		if !(p.Width <= w && p.Height <= h || !p.Upright && p.Width <= h && p.Height <= w) {
			return fmt.Errorf("%s of %g × %g mm does not fit on stock of %g × %g mm with an edge of %g mm; take "+
				"larger stock, or join the sheet from parts", p.called(), p.Width, p.Height, s.Width, s.Height, s.Edge)
		}
		if err := p.checkOutline(); err != nil {
			return err
		}
		n += p.Count
	}
	if n == 0 || n > MaxPieces {
		return fmt.Errorf("%d pieces are to be laid; there may be from 1 to %d", n, MaxPieces)
	}
	return nil
}

func (p Piece) called() string {
	if p.Name == "" {
		return "a piece"
	}
	return fmt.Sprintf("%.60q", p.Name)
}

// packer lays pieces that are a space larger to the right and above, on stock that is so too: then nothing needs to be
// kept between them.
type packer struct {
	pieces      []Piece
	all         []item // pieces, each as often as it is wanted
	wide, high  float64
	space, edge float64
	most        int
}

// bound returns how many sheets there must be: by area, and because no two boxes that are longer both ways than half
// of the stock's longer side lie on one sheet. Pieces that may lie in each other's boxes count by their outline's area.
func (p *packer) bound(free func(Piece) bool) int {
	area, large := 0.0, 0
	for _, i := range p.all {
		q := p.pieces[i.piece]
		w, h := q.Width+p.space, q.Height+p.space
		if free(q) {
			// Grown by half the space a piece measures this at least (Brunn and Minkowski; a disc comes to it).
			area += math.Pow(math.Sqrt(q.area())+math.Sqrt(math.Pi)*p.space/2, 2)
			continue
		}
		area += w * h
		if math.Min(w, h) > math.Max(p.wide, p.high)/2+slack {
			large++
		}
	}
	return max(1, large, int(math.Ceil(area/(p.wide*p.high)-slack)))
}

// orders returns the pieces in the usual orders, large ones first.
func (p *packer) orders() [][]item {
	var out [][]item
	for _, size := range []func(Piece) float64{
		func(q Piece) float64 { return q.Width * q.Height },
		func(q Piece) float64 { return math.Max(q.Width, q.Height) },
		func(q Piece) float64 { return math.Min(q.Width, q.Height) },
		func(q Piece) float64 { return q.Width + q.Height },
		func(q Piece) float64 { return q.Height },
	} {
		order := slices.Clone(p.all)
		slices.SortStableFunc(order, func(i, j item) int {
			return cmp.Compare(size(p.pieces[j.piece]), size(p.pieces[i.piece]))
		})
		out = append(out, order)
	}
	return out
}

func (p *packer) nesting(t trial, bound int, stock Stock) Nesting {
	out := Nesting{Sheets: [][]Placed{}, Left: make([]int, len(p.pieces)), Bound: bound}
	for i, q := range p.pieces {
		out.Left[i] = q.Count
	}
	area := 0.0
	for _, s := range t.sheets {
		for _, q := range s.placed {
			out.Left[q.Piece]--
			area += p.pieces[q.Piece].area()
		}
		out.Sheets = append(out.Sheets, s.placed)
	}
	out.Share = area / (float64(len(t.sheets)) * stock.Width * stock.Height)
	return out
}
