package svgin

import (
	"slices"
	"sort"
	"strings"
)

// property is one declaration of a style.
type property struct {
	name, value string
	important   bool
}

// rule is a style rule with one selector.
type rule struct {
	selector
	set   []property
	order int
}

// sheet is all style rules of a drawing, by a word that an element must have for them.
type sheet struct {
	rules map[string][]*rule
	count int
	left  int // rules that are not understood
	work  int // elements held against parts of selectors
}

// declarations reads "name: value; …".
func declarations(s string) []property {
	var out []property
	for _, d := range fields(withoutComments(s), ';') {
		name, value, ok := strings.Cut(d, ":")
		if !ok {
			continue
		}
		p := property{name: strings.ToLower(strings.TrimSpace(name)), value: strings.TrimSpace(value)}
		if k := strings.LastIndexByte(p.value, '!'); k >= 0 &&
			strings.EqualFold(strings.TrimSpace(p.value[k+1:]), "important") {
			p.value, p.important = strings.TrimSpace(p.value[:k]), true
		}
		out = append(out, p)
	}
	return out
}

// fields parts a text at a separator, where it stands neither in brackets nor in quotes.
func fields(s string, at byte) (out []string) {
	depth, from := 0, 0
	var quote byte
	for k := 0; k < len(s); k++ {
		switch c := s[k]; {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case c == '"' || c == '\'':
			quote = c
		case c == '(' || c == '[':
			depth++
		case c == ')' || c == ']':
			depth = max(0, depth-1)
		case c == at && depth == 0:
			out, from = append(out, s[from:k]), k+1
		}
	}
	return append(out, s[from:])
}

// add reads the text of a style element. imports are the addresses of what it wants to import.
func (s *sheet) add(text string) (imports []string) {
	text = strings.NewReplacer("<!--", " ", "-->", " ").Replace(withoutComments(text)) // CSS Syntax 3, section 4.3
	for text != "" && s.count < maxRules {                                             // ends: text grows shorter
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
		s.rule(selectors, set)
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

// rule keeps the rule for each selector of a list. A list with one that is in error counts for nothing.
func (s *sheet) rule(list string, set []property) {
	var all []*rule
	for _, one := range fields(list, ',') {
		s.count++
		sel, err := parseSelector(one)
		if err == errSelector {
			s.left++
			return
		}
		if err == nil && !sel.never {
			all = append(all, &rule{sel, set, s.count})
		} else if err == errUnknown {
			s.left++
		}
	}
	for _, r := range all {
		s.keep(r)
	}
}

func (s *sheet) keep(r *rule) {
	if s.rules == nil {
		s.rules = map[string][]*rule{}
	}
	key, last := "*", r.parts[len(r.parts)-1]
	switch {
	case last.id != "":
		key = "#" + last.id
	case len(last.classes) > 0:
		key = "." + last.classes[0]
	case last.tag != "":
		key = last.tag
	}
	s.rules[key] = append(s.rules[key], r)
}

// matching returns the rules for an element, the more particular later, and of equal ones the later later.
func (s *sheet) matching(e *element) []*rule {
	if s.count == 0 {
		return nil
	}
	var out []*rule
	look := func(key string) {
		for _, r := range s.rules[key] {
			if r.matches(e, len(r.parts)-1, &s.work) {
				out = append(out, r)
			}
		}
	}
	look("*")
	look(e.name)
	look("#" + e.attr["id"])
	classes := strings.Fields(e.attr["class"])
	for k, c := range classes {
		if k < maxClasses && !slices.Contains(classes[:k], c) {
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
