package pattern

import (
	"bytes"
	"fmt"
	"io"
	"strconv"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/symmetry"
)

// MaxDraftBytes is how long a draft's file may be. 200,000 points in full precision stay below a tenth of it.
const MaxDraftBytes = 64 << 20

// Decode reads a draft from its file. It is strict: an error is a *PlaceError that names the place, unless r itself fails,
// and then no draft comes with it. No more than MaxDraftBytes are ever read.
//
// The keys openwork, panel, repeat, silhouettes and motifs must be there, and in them all but a silhouette's name (its id)
// and a motif's turn (0), scale (1) and mirrored (false). What else is missing has the value that Default gives it, the
// field's origin that of the panel's centre. Numbers are taken as they stand; nothing is rounded. Three things are put
// right on reading: a plane group's older symbol becomes the short one, points of a ring that repeat the one before are
// dropped, and rings are turned so that outer ones run counter-clockwise and holes clockwise. A draft from here has
// passed Check.
func Decode(r io.Reader) (Draft, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxDraftBytes+1))
	if err != nil {
		return Draft{}, fmt.Errorf("the draft could not be read: %w", err)
	}
	return DecodeBytes(data)
}

// DecodeBytes is Decode for a text in memory, which it does not keep.
func DecodeBytes(data []byte) (Draft, error) {
	if len(data) > MaxDraftBytes {
		return Draft{}, &PlaceError{"", fmt.Sprintf("the draft has more than %d MB", MaxDraftBytes>>20)}
	}
	// Some editors put a byte order mark before UTF-8.
	r := &reader{data: bytes.TrimPrefix(data, []byte("\ufeff"))}
	switch c := r.peek(); {
	case r.pos == len(r.data):
		return Draft{}, &PlaceError{"", "the text is empty; a draft was expected"}
	case c != '{':
		return Draft{}, &PlaceError{"", "this is not a draft: a draft begins with {, not with " + r.here()}
	}
	d := r.draft()
	r.end()
	if r.err != nil {
		return Draft{}, r.err
	}
	if err := d.Check(); err != nil {
		return Draft{}, err
	}
	return d, nil
}

// draft reads the whole object.
func (r *reader) draft() Draft {
	d := Default()
	centred := true
	r.object([]member{
		{"openwork", true, func() {
			if v := r.number(); r.err == nil && v != Version {
				r.fail("%s", otherVersion(v))
			}
		}},
		{"title", false, func() { d.Title = r.text() }},
		{"units", false, func() { d.Units = r.text() }},
		{"panel", true, func() {
			r.object([]member{r.numberAt("width", true, &d.Panel.Width), r.numberAt("height", true, &d.Panel.Height)})
		}},
		{"field", false, func() {
			r.object([]member{
				r.numberAt("margin", false, &d.Field.Margin),
				{"origin", false, func() { d.Field.Origin, centred = r.point(), false }},
				r.numberAt("turn", false, &d.Field.Turn),
				{"edge", false, func() { d.Field.Edge = Edge(r.text()) }},
			})
		}},
		{"repeat", true, func() {
			r.object([]member{
				{"group", true, func() { d.Repeat.Group = r.group() }},
				r.numberAt("a", true, &d.Repeat.A), r.numberAt("b", true, &d.Repeat.B), r.numberAt("gamma", true, &d.Repeat.Gamma),
			})
		}},
		{"silhouettes", true, func() {
			r.list(MaxSilhouettes, "silhouettes", func() { d.Silhouettes = append(d.Silhouettes, r.silhouette()) })
		}},
		{"motifs", true, func() {
			r.list(MaxMotifs, "motifs", func() { d.Motifs = append(d.Motifs, r.motif()) })
		}},
		{"ties", false, func() {
			r.list(MaxTies, "ties", func() { d.Ties = append(d.Ties, r.tie()) })
		}},
		{"sheet", false, func() { r.sheet(&d.Sheet) }},
	})
	if centred {
		d.Field.Origin = [2]float64{d.Panel.Width / 2, d.Panel.Height / 2}
	}
	return d
}

// group reads a plane group's symbol, short or older, and returns the short one.
func (r *reader) group() string {
	s := r.text()
	if r.err != nil {
		return ""
	}
	g, err := symmetry.Find(s)
	if err != nil {
		r.fail("%s", err.Error())
	}
	return g.Symbol
}

func (r *reader) silhouette() (s Silhouette) {
	named := false
	r.object([]member{
		{"id", true, func() { s.ID = r.text() }},
		{"name", false, func() { s.Name, named = r.text(), true }},
		{"outline", true, func() { s.Outline = r.outline() }},
	})
	if !named {
		s.Name = s.ID
	}
	return s
}

func (r *reader) motif() Motif {
	m := Motif{Scale: 1}
	r.object([]member{
		{"id", true, func() { m.ID = r.text() }},
		{"silhouette", true, func() { m.Silhouette = r.text() }},
		{"at", true, func() { m.At = r.point() }},
		r.numberAt("turn", false, &m.Turn),
		r.numberAt("scale", false, &m.Scale),
		{"mirrored", false, func() { m.Mirrored = r.flag() }},
	})
	return m
}

func (r *reader) sheet(s *Sheet) {
	r.object([]member{
		{"stock", false, func() { s.Stock = r.text() }},
		r.numberAt("thickness", false, &s.Thickness),
		r.numberAt("kerf", false, &s.Kerf),
		r.numberAt("bridge", false, &s.Bridge),
		r.numberAt("opening", false, &s.Opening),
		r.numberAt("width", false, &s.Width),
		r.numberAt("height", false, &s.Height),
		{"bed", false, func() {
			s.Bed = &Bed{}
			r.object([]member{r.numberAt("width", true, &s.Bed.Width), r.numberAt("height", true, &s.Bed.Height)})
		}},
	})
}

// outline reads a MultiPolygon's coordinates and turns its rings the right way round.
func (r *reader) outline() orb.MultiPolygon {
	var mp orb.MultiPolygon
	r.list(0, "", func() {
		var p orb.Polygon
		r.list(0, "", func() { p = append(p, r.ring()) })
		if len(p) == 0 {
			r.fail("a polygon needs a ring; this one has none")
		}
		mp = append(mp, p)
	})
	if r.err != nil {
		return nil
	}
	return geometry.Orient(mp)
}

func (r *reader) ring() orb.Ring {
	var ring orb.Ring
	given := 0
	r.list(0, "", func() {
		p := orb.Point(r.point())
		if given++; r.err == nil {
			// Twice, because points that repeat the one before do not count in the end.
			if r.points++; r.points > 2*MaxPoints {
				r.fail("%s", tooManyPoints)
			}
			if len(ring) == 0 || ring[len(ring)-1] != p {
				ring = append(ring, p)
			}
		}
	})
	if r.err == nil && len(ring) < 4 {
		r.fail("a ring of %d points (%d without repeats) bounds nothing; it needs at least three corners and its first point again at the end",
			given, len(ring))
	}
	return ring
}

// point reads a pair of numbers.
func (r *reader) point() (p [2]float64) {
	n := 0
	r.list(0, "", func() {
		if n < 2 {
			p[n] = r.number()
		} else {
			r.path = r.path[:len(r.path)-1]
			r.fail("a point has two numbers, x and y; here are more")
		}
		n++
	})
	if r.err == nil && n < 2 {
		r.fail("a point has two numbers, x and y; here is %s", [...]string{"none", "one"}[n])
	}
	return p
}

// member is a key that an object may have, and what reads its value.
type member struct {
	key  string
	must bool
	read func()
}

// numberAt is a member that is a number.
func (r *reader) numberAt(key string, must bool, p *float64) member {
	return member{key, must, func() { *p = r.number() }}
}

// object reads an object that has these members and no others, in any order.
func (r *reader) object(members []member) {
	if !r.open('{', "an object in braces") {
		return
	}
	var seen uint
	for n := 0; r.more('}', n); n++ {
		key := r.key()
		if r.err != nil {
			return
		}
		r.path = append(r.path, crumb{key: key})
		k := 0
		for k < len(members) && members[k].key != key {
			k++
		}
		switch {
		case k == len(members):
			r.unknown(members)
		case seen&(1<<k) != 0:
			r.fail("the key is there twice")
		default:
			seen |= 1 << k
			members[k].read()
		}
		if r.err != nil {
			return
		}
		r.path = r.path[:len(r.path)-1]
	}
	for k, m := range members {
		if m.must && seen&(1<<k) == 0 && r.err == nil {
			r.path = append(r.path, crumb{key: m.key})
			r.fail("missing; it must be there")
		}
	}
}

func (r *reader) unknown(members []member) {
	known := ""
	for k, m := range members {
		if k > 0 {
			known += ", "
		}
		known += m.key
	}
	r.fail("not a key of a draft (version %d); known here: %s", Version, known)
}

// list reads a list of up to limit items (0: the items see to it).
func (r *reader) list(limit int, items string, read func()) {
	if !r.open('[', "a list in brackets") {
		return
	}
	for n := 0; r.more(']', n); n++ {
		if limit > 0 && n == limit {
			r.fail("there are more than %d %s", limit, items)
			return
		}
		r.path = append(r.path, crumb{index: n})
		read()
		if r.err != nil {
			return
		}
		r.path = r.path[:len(r.path)-1]
	}
}

// crumb is one step of the path to the value that is being read: a key, or an index when the key is empty.
type crumb struct {
	key   string
	index int
}

// place writes the path as in motifs[2].turn. A key that is not a plain word is quoted.
func (r *reader) place() string {
	s := ""
	for _, p := range r.path {
		switch {
		case p.key == "":
			s += "[" + strconv.Itoa(p.index) + "]"
		case s == "":
			s = p.key
		default:
			s += "." + p.key
		}
	}
	return s
}
