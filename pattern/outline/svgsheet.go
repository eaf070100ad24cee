package outline

import (
	"sort"
	"strings"
)

// property is one declaration of a style.
type property struct {
	name, value string
	important   bool
}

// rule is a style rule whose selector names one element: a tag or *, classes, an id.
type rule struct {
	tag, id string
	classes []string
	set     []property
	weight  int // how particular the selector is (Selectors 4, section 17), then the order
	order   int
}

// sheet is all style rules of a drawing, by a word that an element must have for them.
type sheet struct {
	rules map[string][]*rule
	count int
	left  int // rules that are not simple
	work  int // rules looked at
}

// declarations reads "name: value; …".
func declarations(s string) []property {
	var out []property
	for _, d := range strings.Split(s, ";") {
		name, value, ok := strings.Cut(d, ":")
		if !ok {
			continue
		}
		p := property{name: strings.ToLower(strings.TrimSpace(name)), value: strings.TrimSpace(value)}
		if k := strings.LastIndexByte(p.value, '!'); k >= 0 && strings.EqualFold(strings.TrimSpace(p.value[k+1:]), "important") {
			p.value, p.important = strings.TrimSpace(p.value[:k]), true
		}
		out = append(out, p)
	}
	return out
}

// add reads the text of a style element. imports are the addresses of what it wants to import.
func (s *sheet) add(text string) (imports []string) {
	text = withoutComments(text)
	for text != "" && s.count < maxRules { // ends: text grows shorter
		text = strings.TrimLeft(text, " \t\r\n\f")
		if strings.HasPrefix(text, "@") {
			semi, brace := strings.IndexByte(text, ';'), strings.IndexByte(text, '{')
			if brace < 0 || semi >= 0 && semi < brace {
				if semi < 0 {
					semi = len(text) - 1
				}
				if at := text[:semi]; strings.HasPrefix(strings.ToLower(at), "@import") {
					imports = append(imports, strings.TrimSpace(at[len("@import"):]))
				}
				text = text[semi+1:]
				continue
			}
			s.left++
			text = afterBlock(text[brace:])
			continue
		}
		brace := strings.IndexByte(text, '{')
		if brace < 0 {
			break
		}
		selectors, rest := text[:brace], text[brace+1:]
		shut := strings.IndexByte(rest, '}')
		if shut < 0 {
			shut = len(rest)
		}
		set := declarations(rest[:shut])
		text = rest[min(shut+1, len(rest)):]
		for _, one := range strings.Split(selectors, ",") {
			s.count++
			if r, ok := simpleRule(strings.TrimSpace(one)); ok {
				r.set, r.order = set, s.count
				s.keep(r)
			} else {
				s.left++
			}
		}
	}
	return imports
}

func withoutComments(s string) string {
	var b strings.Builder
	for {
		before, after, ok := strings.Cut(s, "/*")
		b.WriteString(before)
		if !ok {
			return b.String()
		}
		_, s, ok = strings.Cut(after, "*/")
		if !ok {
			return b.String()
		}
		b.WriteByte(' ')
	}
}

// afterBlock returns what follows the block that s begins with.
func afterBlock(s string) string {
	depth := 0
	for k := range len(s) {
		switch s[k] {
		case '{':
			depth++
		case '}':
			if depth--; depth == 0 {
				return s[k+1:]
			}
		}
	}
	return ""
}

// simpleRule reads a selector without combinators, attributes and states.
func simpleRule(s string) (*rule, bool) {
	r := &rule{}
	if s == "" || strings.ContainsAny(s, " >+~:[]()\t\r\n\"'\\|") {
		return nil, false
	}
	for s != "" {
		end := strings.IndexAny(s[1:], ".#") + 1
		if end == 0 {
			end = len(s)
		}
		word := s[:end]
		s = s[end:]
		switch {
		case word == "." || word == "#":
			return nil, false
		case word[0] == '.':
			r.classes = append(r.classes, word[1:])
			r.weight += 10
		case word[0] == '#':
			r.id = word[1:]
			r.weight += 100
		default:
			if word != "*" {
				r.tag = word
				r.weight++
			}
		}
	}
	return r, true
}

func (s *sheet) keep(r *rule) {
	if s.rules == nil {
		s.rules = map[string][]*rule{}
	}
	key := "*"
	switch {
	case r.id != "":
		key = "#" + r.id
	case len(r.classes) > 0:
		key = "." + r.classes[0]
	case r.tag != "":
		key = r.tag
	}
	s.rules[key] = append(s.rules[key], r)
}

// matching returns the rules for an element, the more particular later, and of equal ones the later later.
func (s *sheet) matching(e *element) []*rule {
	if s.count == 0 {
		return nil
	}
	classes := strings.Fields(e.attr["class"])
	var out []*rule
	look := func(key string) {
		s.work += len(s.rules[key])
		for _, r := range s.rules[key] {
			ok := (r.tag == "" || r.tag == e.name) && (r.id == "" || r.id == e.attr["id"])
			for _, c := range r.classes {
				has := false
				for _, have := range classes {
					has = has || have == c
				}
				ok = ok && has
			}
			if ok {
				out = append(out, r)
			}
		}
	}
	look("*")
	look(e.name)
	look("#" + e.attr["id"])
	for k, c := range classes {
		if k < maxClasses {
			look("." + c)
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].weight != out[j].weight {
			return out[i].weight < out[j].weight
		}
		return out[i].order < out[j].order
	})
	return out
}
