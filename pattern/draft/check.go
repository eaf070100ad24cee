package draft

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/symmetry"
)

// PlaceError is a fault in a draft: where it is, as a path in the draft's file, and what is wrong there.
type PlaceError struct {
	Place string // "motifs[2].turn"; empty when the draft as a whole is meant
	Text  string // a sentence without its full stop
}

// Error returns place and text: "motifs[2].turn: not a number".
func (e *PlaceError) Error() string {
	if e.Place == "" {
		return e.Text
	}
	return e.Place + ": " + e.Text
}

// Check says what keeps the draft from being one that everything else can work with; nil when nothing does. It is what
// Decode asks of a file, and Apply of what a command made. An error is always a *PlaceError.
func (d Draft) Check() error { return d.CheckAfter(Draft{}) }

// CheckAfter is Check for a draft made from was, which has passed it: outlines that the two share, and motifs and ties
// that are the same in both, are not gone through again, so that a motif can be dragged without paying for the rest at
// every step. Where was is not of this version of drafts, everything is.
func (d Draft) CheckAfter(was Draft) error {
	c := &checker{d: &d, was: &was, passed: was.Openwork == Version}
	c.object(Schema, &d, "")
	if c.err == nil {
		c.cutTies()
	}
	if c.err != nil {
		return c.err
	}
	return nil
}

// checker goes over a draft in the order of the schema. The first fault ends it. A draft is checked at every step of
// a drag: places are put together only where something is wrong.
type checker struct {
	d, was *Draft
	passed bool // was has passed this check
	named  bool // the silhouettes have the IDs that they had
	points int
	item   int // of the list that is gone through
	err    *PlaceError
}

// fail notes a fault at a place, unless there was one before.
func (c *checker) fail(place, text string) {
	if c.err == nil && text != "" {
		c.err = &PlaceError{place, text}
	}
}

func (c *checker) object(of *Object, owner any, place string) {
	for _, m := range of.Members {
		switch m.Type {
		case List:
			c.list(m, owner, place+m.Key)
		case Record:
			if v := m.at(owner); v != nil {
				c.object(m.Of, v, place+m.Key+".")
			}
		default:
			c.value(m, owner, place)
		}
		if c.err != nil {
			return
		}
	}
	if of.rule == nil {
		return
	}
	if key, text := of.rule(c, owner); text != "" {
		c.fail(strings.TrimSuffix(place+key, "."), text)
	}
}

func (c *checker) list(m *Member, owner any, place string) {
	n := m.count(owner)
	if n > int(m.Max) {
		c.fail(place, fmt.Sprintf("there are %d; a draft holds up to %g", n, m.Max))
		return
	}
	sameIDs := m.id == nil || c.sameIDs(m, owner)
	if !sameIDs {
		c.distinct(m, owner, place)
	}
	if m.Of == silhouetteObject {
		c.named = sameIDs
	}
	for i := 0; i < n && c.err == nil; i++ {
		if c.named && m.same != nil && m.same(owner, c.was, i) {
			continue
		}
		c.item = i
		c.object(m.Of, m.item(owner, i), place+"["+strconv.Itoa(i)+"].")
	}
}

// sameIDs reports whether the items of a list of the draft have the IDs that they had in the draft before.
func (c *checker) sameIDs(m *Member, owner any) bool {
	n := m.count(owner)
	if !c.passed || n != m.count(c.was) {
		return false
	}
	for i := range n {
		if m.id(owner, i) != m.id(c.was, i) {
			return false
		}
	}
	return true
}

// distinct checks that no two items of a list have one ID.
func (c *checker) distinct(m *Member, owner any, place string) {
	seen := make(map[string]int)
	for i := range m.count(owner) {
		id := m.id(owner, i)
		if j, ok := seen[id]; ok && id != "" {
			c.fail(fmt.Sprintf("%s[%d].id", place, i), fmt.Sprintf("%q is the id of %s[%d] already", id, m.Key, j))
			return
		}
		seen[id] = i
	}
}

func (c *checker) value(m *Member, owner any, place string) {
	switch v := m.at(owner).(type) {
	case *float64:
		if text := m.fault(*v); text != "" {
			c.fail(place+m.Key, text)
		}
	case *[2]float64:
		for i, v := range v {
			if text := m.fault(v); text != "" {
				c.fail(fmt.Sprintf("%s%s[%d]", place, m.Key, i), text)
			}
		}
	case *[2]int:
		for i, v := range v {
			if text := m.fault(float64(v)); text != "" {
				c.fail(fmt.Sprintf("%s%s[%d]", place, m.Key, i), text)
			}
		}
	case *[]string:
		for i, id := range *v {
			c.fail(fmt.Sprintf("%s%s[%d]", place, m.Key, i), c.d.unknown(m.To, id))
		}
	case *int:
		if m.Type == Integer {
			c.fail(place+m.Key, m.fault(float64(*v)))
		} else if *v != Version {
			c.fail(place+m.Key, otherVersion(float64(*v)))
		}
	case *string:
		if text := c.text(m, *v); text != "" {
			c.fail(place+m.Key, text)
		}
	case *orb.MultiPolygon:
		c.outline(*v, owner, place, m.Key)
	}
}

// text returns what is wrong with a text, empty when nothing is.
func (c *checker) text(m *Member, s string) string {
	switch m.Type {
	case Choice:
		if !slices.Contains(m.Choices, s) && !(m.Optional && s == "") {
			return fmt.Sprintf("%.40q is not %s", s, m.Unknown)
		}
	case Group:
		if g, err := symmetry.Find(s); err != nil {
			return err.Error()
		} else if g.Symbol != s {
			return fmt.Sprintf("%s is kept under its short symbol, %s", s, g.Symbol)
		}
	case Ref:
		if !(m.Optional && s == "") {
			return c.d.unknown(m.To, s)
		}
	case Colour:
		if !IsColour(s) {
			return fmt.Sprintf("%.40q is not a colour; one is # and six digits from 0 to f, as in #17564a", s)
		}
	case ID:
		if s == "" {
			return "an id must not be empty"
		}
		return badText(s, int(m.Max))
	default:
		return badText(s, int(m.Max))
	}
	return ""
}

// outline checks the outline of a silhouette or a subject, unless it is that of the draft before.
func (c *checker) outline(mp orb.MultiPolygon, owner any, place, key string) {
	if c.points += geometry.Points(mp); c.points > MaxPoints {
		c.fail("silhouettes", tooManyPoints)
		return
	}
	if c.hadOutline(mp, owner) {
		return
	}
	var fault *geometry.OutlineError
	if err := geometry.CheckOutline(mp); errors.As(err, &fault) {
		c.fail(place+key+fault.Path(), fault.Text())
	} else if err != nil {
		c.fail(place+key, err.Error())
	}
}

// hadOutline reports whether the outline's owner had it in the draft before: the one at the same place of its list, or
// the one of the same ID. A subject may have it of a silhouette that was there.
func (c *checker) hadOutline(mp orb.MultiPolygon, owner any) bool {
	i := c.item
	if s, ok := owner.(*Subject); ok {
		if k := c.was.Subject(s.ID); k >= 0 && sameOutline(mp, c.was.Subjects[k].Outline) {
			return true
		}
		return slices.ContainsFunc(c.was.Silhouettes, func(s Silhouette) bool { return sameOutline(mp, s.Outline) })
	}
	if i < len(c.was.Silhouettes) && sameOutline(mp, c.was.Silhouettes[i].Outline) {
		return true
	}
	old, ok := c.was.Silhouette(c.d.Silhouettes[i].ID)
	return ok && sameOutline(mp, old.Outline)
}

var tooManyPoints = fmt.Sprintf("the outlines have more than %d points together; trace them with a wider tolerance",
	MaxPoints)

// sameOutline reports whether two outlines are one value in memory. Outlines are never changed in place.
func sameOutline(a, b orb.MultiPolygon) bool {
	return len(a) == len(b) && len(a) > 0 && &a[0] == &b[0]
}

func otherVersion(v float64) string {
	if v > Version {
		return fmt.Sprintf("this draft is of version %g, and this program reads version %d; a newer program is needed",
			v, Version)
	}
	return fmt.Sprintf("%g is not a version of drafts; this program reads version %d", v, Version)
}

// fault returns what is wrong with a number, empty when nothing is.
func (m *Member) fault(v float64) string {
	if !finite(v) {
		return "not a number"
	}
	if v >= m.Min && v <= m.Max || v == 0 && (m.Optional || m.ZeroToo) {
		return ""
	}
	unit := m.Unit
	if unit != "" {
		unit = " " + unit
	}
	return fmt.Sprintf("%g is out of range; it may be from %s to %s%s", v, plain(m.Min), plain(m.Max), unit)
}

// plain writes a limit without an exponent.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func finite(v float64) bool { return math.Abs(v) <= math.MaxFloat64 }

// badText returns what is wrong with a text, empty when nothing is.
func badText(s string, limit int) string {
	if strings.ToValidUTF8(s, "") != s {
		return "the text is not valid UTF-8"
	}
	if n := len([]rune(s)); n > limit {
		return fmt.Sprintf("the text has %d characters; up to %d are kept", n, limit)
	}
	return ""
}
