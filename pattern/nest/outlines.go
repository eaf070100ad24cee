package nest

import (
	"math"
	"math/rand/v2"
	"slices"
)

// How pieces are laid by their outlines.
const (
	// maxRows of a sheet of stock, and the least height of one in mm: a piece lies up to one higher than it could.
	maxRows, minStep = 500, 0.25
	// maxCompared is how many spans are compared in all: about a second in a browser.
	maxCompared = 20_000_000
	// maxChanges is how many changes of the order are tried for each piece.
	maxChanges = 300
	// outlineRules of which of the turns is taken: the one that ends lowest, or that begins lowest.
	outlineRules = 2
	// outlineWays of lying: either, or one of the quarters.
	outlineWays = 5
)

// frame says how a sheet of stock is looked at while it is filled from below and from the left.
type frame int

const (
	asItIs   frame = iota // from below and the left
	diagonal              // mirrored about the rising diagonal: from the left and below
	sideways              // mirrored left to right: from below and the right
	quarter               // turned by a quarter counter-clockwise: from the left and above
	frames
)

// outlines lays pieces by their outlines: cut into level rows, in each of which it is known exactly how far they reach
// to the left and right (the semi-discrete representation of work on irregular packing, cited from memory), one after
// another as low and as far to the left as they go.
type outlines struct {
	*packer
	step  float64
	forms [][2][4]*form // of each piece, as it is and mirrored, by its quarters
	turns [][]int       // of each piece, the quarters by which it may lie and that differ from each other
	areas []float64
	work  int
}

// byOutlines returns the better of a trial by boxes and the best one by outlines: in the usual orders, then with small
// changes, until no fewer sheets can do or enough has been tried.
func (p *packer) byOutlines(best trial, bound int) trial {
	o := &outlines{packer: p, step: math.Max(minStep, math.Max(p.wide, p.high)/maxRows)}
	for _, q := range p.pieces {
		o.areas = append(o.areas, q.area())
	}
	o.measure(&best)
	if len(best.sheets) == 1 && best.unlaid == 0 {
		return best
	}
	for _, q := range p.pieces {
		o.add(q)
	}

	from := trial{}
	try := func(order []item, rule int, look frame) {
		t := o.lay(order, rule, look)
		if t.sheets != nil && !from.better(t) {
			from = t
		}
		if t.better(best) {
			best = t
		}
	}
	for _, order := range o.orders() {
		for rule := range outlineRules {
			for look := range frames {
				try(order, rule, look)
			}
		}
	}

	r := rand.New(rand.NewPCG(3, 4))
	for range maxChanges * len(p.all) {
		if o.work > maxCompared || best.done(bound) {
			break
		}
		var order []item
		if order, from = changed(r, from, outlineWays); from.sheets == nil {
			lies := way(r.IntN(outlineWays))
			for i := range order {
				order[i].lies = lies
			}
		}
		try(order, r.IntN(outlineRules), frame(r.IntN(int(frames))))
	}
	return best
}

// add adds a piece in rows.
func (o *outlines) add(q Piece) {
	var forms [2][4]*form
	var turns []int
	for k := range 4 {
		forms[0][k] = newForm(q, k, false, o.space, o.step)
		forms[1][k] = newForm(q, k, true, o.space, o.step)
		if k == 0 || !q.Upright && !slices.ContainsFunc(turns, func(i int) bool {
			return forms[0][k].same(forms[0][i])
		}) {
			turns = append(turns, k)
		}
	}
	o.forms, o.turns = append(o.forms, forms), append(o.turns, turns)
}

// same reports whether two forms cover the same.
func (f *form) same(g *form) bool {
	near := func(a, b span) bool { return math.Abs(a.from-b.from) < slack && math.Abs(a.to-b.to) < slack }
	return math.Abs(f.wide-g.wide) < slack && math.Abs(f.high-g.high) < slack &&
		slices.EqualFunc(f.rows, g.rows, func(a, b []span) bool { return slices.EqualFunc(a, b, near) })
}

// orders returns the order that is given, one copy of each piece after another, there and back, all turned alike, for
// parts of one sheet stand so that they meet; then the usual orders.
func (o *outlines) orders() [][]item {
	var given []item
	for n := 0; len(given) < len(o.all); n++ {
		for i, q := range o.pieces {
			if n < q.Count {
				given = append(given, item{piece: i})
			}
		}
	}
	var out [][]item
	for k := range 4 {
		there := slices.Clone(given)
		for i := range there {
			there[i].lies = way(k + 1)
		}
		back := slices.Clone(there)
		slices.Reverse(back)
		out = append(out, there, back)
	}
	return append(out, o.packer.orders()...)
}

// lay lays the pieces in an order by a rule on stock looked at in a way. A trial without sheets says that too much has
// been compared.
func (o *outlines) lay(order []item, rule int, look frame) trial {
	t := trial{order: order}
	for _, i := range order {
		if o.work > maxCompared {
			return trial{}
		}
		if slices.ContainsFunc(t.sheets, func(s *sheet) bool { return o.put(s, i, rule, look) }) {
			continue
		}
		if o.most > 0 && len(t.sheets) == o.most {
			t.unlaid++
			continue
		}
		wide, high := o.wide, o.high
		if look == diagonal || look == quarter {
			wide, high = high, wide
		}
		s := &sheet{ground: newGround(wide, high, o.step, &o.work)}
		t.sheets = append(t.sheets, s)
		if !o.put(s, item{i.piece, either}, rule, look) {
			t.unlaid++ // not met: each piece fits an empty sheet
		}
	}
	for _, s := range t.sheets {
		s.ground = nil
	}
	o.measure(&t)
	return t
}

// put lays a piece on a sheet begun; false where it fits nowhere.
func (o *outlines) put(s *sheet, i item, rule int, look frame) bool {
	g := s.ground
	if o.areas[i.piece] > g.free {
		return false
	}
	turns := o.turns[i.piece]
	if wish := int(i.lies) - 1; i.lies != either && slices.Contains(turns, wish) {
		turns = []int{wish}
	}
	var best *form
	var at spot
	turn, first, second := 0, math.Inf(1), math.Inf(1)
	for _, k := range turns {
		f := o.seen(i.piece, k, look)
		wide, high := f.wide, f.high
		if rule > 0 {
			wide, high = 0, 0
		}
		limit := len(g.rows)
		if best != nil { // no higher than the best one
			limit = int(math.Floor((first-high+slack)/o.step)) + 1
		}
		here, ok := g.lowest(f, limit)
		if !ok {
			continue
		}
		a, b := float64(here.row)*o.step+high, here.x+wide
		if a < first-slack || a <= first+slack && b < second-slack {
			best, at, turn, first, second = f, here, k, a, b
		}
	}
	if best == nil {
		return false
	}
	g.take(best, at, o.areas[i.piece])
	s.placed = append(s.placed, o.placed(i.piece, turn, best, at, look))
	return true
}

// seen returns a piece turned by quarters on the stock, as it looks.
func (o *outlines) seen(piece, quarters int, look frame) *form {
	forms := &o.forms[piece]
	switch look {
	case diagonal:
		return forms[1][quarters]
	case sideways: // a mirror left to right turns by three quarters, then mirrors about the diagonal
		return forms[1][(quarters+3)%4]
	case quarter:
		return forms[0][(quarters+1)%4]
	}
	return forms[0][quarters]
}

// placed returns where a piece that looks like a form lies on the stock.
func (o *outlines) placed(piece, quarters int, f *form, at spot, look frame) Placed {
	x, y := at.x, float64(at.row)*o.step
	switch look {
	case diagonal:
		x, y = y, x
	case sideways:
		x = o.wide - x - f.wide
	case quarter:
		x, y = y, o.high-x-f.wide
	}
	q := o.pieces[piece]
	out := Placed{Piece: piece, At: [2]float64{o.edge + x, o.edge + y}, Turned: quarters%2 == 1, Width: q.Width,
		Height: q.Height}
	if out.Turned {
		out.Width, out.Height = q.Height, q.Width
	}
	if quarters > 1 {
		out.Quarters = quarters
	}
	return out
}

// measure sets the least area of what lies on a sheet.
func (o *outlines) measure(t *trial) {
	t.last = math.Inf(1)
	for _, s := range t.sheets {
		area := 0.0
		for _, q := range s.placed {
			area += o.areas[q.Piece]
		}
		t.last = math.Min(t.last, area)
	}
}
