package svgin

import (
	"errors"
	"slices"
	"strings"
)

// compound is what a selector asks of one element.
type compound struct {
	tag, id string // "" asks for none
	classes []string
	attrs   []attrTest
	first   bool // :first-child
	root    bool // :root
	joint   byte // how it stands to the one before it in the selector: ' ', '>', '+' or '~'
}

// attrTest asks for an attribute: that it is there, or with how '=' that it is value, with '~' that value is one of its
// words, with '^', '$' and '*' that it begins with, ends with or has value.
type attrTest struct {
	name, value string
	how         byte
}

// selector is a chain of compounds, the one for the element itself last (Selectors 4).
type selector struct {
	parts  []compound
	never  bool // it asks for a state that only a pointer brings
	weight int  // how particular it is: 10,000 for an id, 100 for a class, an attribute or a state, 1 for a tag
}

var (
	errSelector = errors.New("a selector in error")
	errUnknown  = errors.New("a selector that is not followed")
)

// parseSelector reads one selector.
func parseSelector(s string) (sel selector, err error) {
	s = strings.TrimSpace(s)
	joint := byte(' ')
	for s != "" {
		if len(sel.parts) >= maxCompounds {
			return sel, errUnknown
		}
		c := compound{joint: joint}
		if s, err = c.read(s, &sel); err != nil {
			return sel, err
		}
		sel.parts = append(sel.parts, c)
		next := strings.TrimLeft(s, spaceChars)
		if next == "" {
			return sel, nil
		}
		joint = ' '
		if strings.IndexByte(">+~", next[0]) >= 0 {
			joint, next = next[0], strings.TrimLeft(next[1:], spaceChars)
			if next == "" {
				return sel, errSelector
			}
		} else if len(next) == len(s) {
			return sel, errSelector
		}
		s = next
	}
	return sel, errSelector
}

const spaceChars = " \t\r\n\f"

// word cuts a name off the front.
func word(s string) (name, rest string) {
	k := 0
	for k < len(s) && (isLetter(s[k]) || s[k] >= '0' && s[k] <= '9' || s[k] == '-' || s[k] == '_' || s[k] >= 0x80) {
		k++
	}
	return s[:k], s[k:]
}

// read reads one compound off the front of s.
func (c *compound) read(s string, sel *selector) (rest string, err error) {
	begun := len(s)
	if strings.HasPrefix(s, "*") {
		s = s[1:]
	} else if c.tag, s = word(s); c.tag != "" {
		sel.weight++
	}

	for s != "" {
		var name string
		switch s[0] {
		case '.':
			if name, s = word(s[1:]); name == "" {
				return s, errSelector
			}
			c.classes = append(c.classes, name)
			sel.weight += 100
		case '#':
			if name, s = word(s[1:]); name == "" {
				return s, errSelector
			}
			c.id = name
			sel.weight += 10000
		case '[':
			shut := strings.IndexByte(s, ']')
			if shut < 0 {
				return s, errSelector
			}
			t, ok := parseAttrTest(s[1:shut])
			if !ok {
				return s, errUnknown
			}
			c.attrs = append(c.attrs, t)
			sel.weight += 100
			s = s[shut+1:]
		case ':':
			name, s = word(s[1:])
			switch name {
			case "first-child":
				c.first = true
			case "root":
				c.root = true
			case "hover", "active", "focus", "visited", "target":
				sel.never = true
			default:
				return s, errUnknown
			}
			sel.weight += 100
		default:
			if len(s) == begun {
				return s, errSelector
			}
			if strings.IndexByte(spaceChars+">+~", s[0]) < 0 {
				return s, errUnknown
			}
			return s, nil
		}
	}
	return s, nil
}

// parseAttrTest reads what stands between square brackets.
func parseAttrTest(s string) (t attrTest, ok bool) {
	t.name, s = word(strings.TrimSpace(s))
	s = strings.TrimSpace(s)
	if t.name == "" || s == "" {
		return t, t.name != ""
	}
	t.how = s[0]
	if t.how != '=' {
		s = s[1:]
	}
	if !strings.HasPrefix(s, "=") || strings.IndexByte("=~^$*", t.how) < 0 {
		return t, false
	}
	t.value = strings.Trim(strings.TrimSpace(s[1:]), `"'`)
	return t, true
}

// matches says whether the selector's parts up to k hold for e. work counts elements looked at; when there have been
// too many, nothing matches.
func (sel *selector) matches(e *element, k int, work *int) bool {
	if *work++; *work > maxStyleWork || !sel.parts[k].holds(e) {
		return false
	}
	if k == 0 {
		return true
	}
	step := func(e *element) *element { return e.parent }
	joint := sel.parts[k].joint
	if joint == '+' || joint == '~' {
		step = func(e *element) *element { return e.before }
	}
	for e = step(e); e != nil; e = step(e) {
		if sel.matches(e, k-1, work) {
			return true
		}
		if joint == '>' || joint == '+' {
			return false
		}
	}
	return false
}

// holds says whether an element is what the compound asks for.
func (c *compound) holds(e *element) bool {
	if c.tag != "" && c.tag != e.name || c.id != "" && c.id != e.attr["id"] ||
		c.first && (e.before != nil || e.parent == nil) || c.root && e.parent != nil {
		return false
	}
	if len(c.classes) > 0 {
		have := strings.Fields(e.attr["class"])
		for _, want := range c.classes {
			if !slices.Contains(have, want) {
				return false
			}
		}
	}

	for _, t := range c.attrs {
		v, ok := e.attr[t.name]
		switch {
		case !ok,
			t.how == '=' && v != t.value,
			t.how == '~' && !slices.Contains(strings.Fields(v), t.value),
			t.how == '^' && (t.value == "" || !strings.HasPrefix(v, t.value)),
			t.how == '$' && (t.value == "" || !strings.HasSuffix(v, t.value)),
			t.how == '*' && (t.value == "" || !strings.Contains(v, t.value)):
			return false
		}
	}
	return true
}
