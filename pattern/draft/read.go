package draft

import (
	"bytes"
	"fmt"
	"io"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"openwork/pattern/symmetry"
)

// MaxDraftBytes is how long a draft's file may be. 200,000 points in full precision stay below a tenth of it.
const MaxDraftBytes = 64 << 20

// Decode reads a draft from its file. It is strict: an error is a *PlaceError that names the place, unless r itself
// fails, and then no draft comes with it. No more than MaxDraftBytes are ever read.
//
// The keys openwork, panel, repeat, silhouettes and motifs must be there, and in them all but a silhouette's name (its
// id) and a motif's turn (0), scale (1) and mirrored (false). What else is missing has the value that Default gives it,
// the field's origin that of the panel's centre. Numbers are taken as they stand; nothing is rounded. Three things are
// put right on reading: a plane group's older symbol becomes the short one, points of a ring that repeat the one before
// are dropped, and rings are turned so that outer ones run counter-clockwise and holes clockwise. A draft from here has
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
	r.root = &d
	r.object(Schema, &d)
	for _, fill := range r.missing {
		fill()
	}
	return d
}

// value reads what a member holds into its owner.
func (r *reader) value(m *Member, owner any) {
	if m.Type == List {
		r.list(int(m.Max), m.Key, func() {
			v := m.Add(owner)
			later := len(r.missing)
			r.object(m.Of, v)
			for _, fill := range r.missing[later:] {
				fill()
			}
			r.missing = r.missing[:later]
		})
		return
	}

	if m.Type == Record {
		v := m.at(owner)
		if v == nil {
			v = m.Add(owner)
		}
		r.object(m.Of, v)
		return
	}

	switch v := m.at(owner).(type) {
	case *float64:
		*v = r.number()
	case *bool:
		*v = r.flag()
	case *[2]float64:
		*v = r.point()
	case *orb.MultiPolygon:
		*v = r.outline()
	case *int:
		if m.Type == Integer {
			*v = r.whole()
			return
		}
		// the version
		if n := r.number(); r.err == nil && n != Version {
			r.fail("%s", otherVersion(n))
		}
	case *[2]int:
		for i, n := range r.point() {
			v[i] = r.wholeOf(n)
		}
	case *[]int:
		*v = r.row(m)
	case *[][]int:
		r.list(int(m.Max), m.Key, func() { *v = append(*v, r.row(m)) })
	case *[]string:
		r.list(int(m.Max), m.Key, func() { *v = append(*v, r.text()) })
	case *map[string]int:
		*v = r.numbers(m)
	case *string:
		switch {
		case m.Type == Group:
			*v = r.group()
		case m.Type == Colour:
			*v = strings.ToLower(r.text())
		case m.Type == Ref && m.Optional && m.Required:
			*v = r.textOrNull()
		default:
			*v = r.text()
		}
	}
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

// object reads an object that has the members of the schema's and no others, in any order.
func (r *reader) object(of *Object, owner any) {
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
		for k < len(of.Members) && of.Members[k].Key != key {
			k++
		}
		switch {
		case k == len(of.Members):
			r.unknown(of.Members)
		case seen&(1<<k) != 0:
			r.fail("the key is there twice")
		default:
			seen |= 1 << k
			r.value(of.Members[k], owner)
		}
		if r.err != nil {
			return
		}
		r.path = r.path[:len(r.path)-1]
	}

	for k, m := range of.Members {
		switch {
		case seen&(1<<k) != 0 || r.err != nil:
		case m.Required:
			r.path = append(r.path, crumb{key: m.Key})
			r.fail("missing; it must be there")
		case m.missing != nil:
			r.missing = append(r.missing, func() { m.missing(r.root, owner) })
		case m.Type == Record && !m.Optional: // what is missing in it is missing too
			for _, n := range m.Of.Members {
				if n.missing != nil {
					r.missing = append(r.missing, func() { n.missing(r.root, m.at(owner)) })
				}
			}
		}
	}
}

func (r *reader) unknown(members []*Member) {
	known := ""
	for k, m := range members {
		if k > 0 {
			known += ", "
		}
		known += m.Key
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
