// Package types holds page.d.ts, the one declaration of what the page, the editor and the engine say to each other, and
// holds it against the Go side: by reflection where a type can be reached, by reading the source where it cannot.
package types

import (
	"encoding/json"
	"fmt"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// member is one line of an interface: its name, whether it may be left out, and its type as it is written.
type member struct {
	name     string
	optional bool
	kind     string
}

// method is a function of the bridge: the kinds of its arguments, and what it answers.
type method struct {
	args   []string
	answer string
}

// declarations is what page.d.ts declares, by name.
type declarations struct {
	members map[string][]member
	methods map[string]map[string]method
	aliases map[string]string
}

var (
	opened     = regexp.MustCompile(`^interface (\w+)(?:<.*>)? \{$`)
	memberLine = regexp.MustCompile(`^  (\w+)(\??): (.+);$`)
	methodLine = regexp.MustCompile(`^  (\w+)\((.*)\): (.+);$`)
	indexLine  = regexp.MustCompile(`^  \[\w+: string\]: .+;$`)
	aliasLine  = regexp.MustCompile(`^type (\w+) = (.+);$`)
)

// read reads page.d.ts. It knows the few forms that stand there, and fails at any other line inside an interface.
func read(t *testing.T) declarations {
	t.Helper()
	text, err := os.ReadFile("page.d.ts")
	if err != nil {
		t.Fatal(err)
	}

	out := declarations{map[string][]member{}, map[string]map[string]method{}, map[string]string{}}
	name := ""
	for n, line := range strings.Split(string(text), "\n") {
		switch {
		case name == "":
			if m := opened.FindStringSubmatch(line); m != nil {
				name = m[1]
				out.members[name], out.methods[name] = []member{}, map[string]method{}
			} else if m := aliasLine.FindStringSubmatch(line); m != nil {
				out.aliases[m[1]] = m[2]
			}
		case line == "}":
			name = ""
		case memberLine.MatchString(line):
			m := memberLine.FindStringSubmatch(line)
			out.members[name] = append(out.members[name], member{m[1], m[2] != "", m[3]})
		case methodLine.MatchString(line):
			m := methodLine.FindStringSubmatch(line)
			out.methods[name][m[1]] = method{kinds(m[2]), m[3]}
		case !indexLine.MatchString(line):
			t.Fatalf("page.d.ts, line %d, in %s: %q is of no form that is known here", n+1, name, line)
		}
	}
	return out
}

// kinds returns the kinds of arguments that are written as "name: kind, name: kind".
func kinds(args string) []string {
	var out []string
	for _, arg := range strings.Split(args, ", ") {
		if _, kind, ok := strings.Cut(arg, ": "); ok {
			out = append(out, kind)
		}
	}
	return out
}

// alias follows a name to what it stands for.
func (d declarations) alias(kind string) string {
	for range len(d.aliases) { // ends: an alias of an alias cannot be longer than there are
		to, ok := d.aliases[kind]
		if !ok {
			return kind
		}
		kind = to
	}
	return kind
}

var (
	tuple  = regexp.MustCompile(`^\[(.+)\]$`)
	record = regexp.MustCompile(`^Record<string, (.+)>$`)
)

// isString reports whether a kind is a string, or one of some.
func isString(kind string) bool {
	return kind == "string" || kind == "CanvasTextAlign" || strings.HasPrefix(kind, "'") && strings.HasSuffix(kind, "'")
}

// held returns in what a declared kind differs from a Go type as JSON has it, at a path; nothing when in nothing. What
// Go leaves open (any) is held by values instead: see values.
func (d declarations) held(path string, declared string, in reflect.Type) []string {
	declared = d.alias(declared)
	differs := []string{fmt.Sprintf("%s is declared as %s, and in Go it is %s", path, declared, in)}
	if in.Implements(reflect.TypeFor[json.Marshaler]()) {
		return nil // it writes itself: only values tell
	}
	switch in.Kind() {
	case reflect.Interface:
		return nil
	case reflect.Pointer:
		inner, null := strings.CutSuffix(declared, " | null")
		if !null {
			return differs
		}
		return d.held(path, inner, in.Elem())
	case reflect.String:
		if isString(declared) {
			return nil
		}
	case reflect.Bool:
		if declared == "boolean" {
			return nil
		}
	case reflect.Int, reflect.Float64:
		if declared == "number" {
			return nil
		}
	case reflect.Slice:
		// A slice that is nil is null in JSON: what is there then only values can tell.
		inner, list := strings.CutSuffix(strings.TrimSuffix(declared, " | null"), "[]")
		if list {
			return d.held(path+"[]", inner, in.Elem())
		}
	case reflect.Array:
		if m := tuple.FindStringSubmatch(declared); m != nil {
			parts := strings.Split(m[1], ", ")
			if len(parts) == in.Len() {
				return d.held(path+"[0]", parts[0], in.Elem())
			}
		}
	case reflect.Map:
		if m := record.FindStringSubmatch(declared); m != nil {
			return d.held(path+"[…]", m[1], in.Elem())
		}
		if in.Elem().Kind() == reflect.Interface && d.members[declared] != nil {
			return nil
		}
	case reflect.Struct:
		if d.members[declared] != nil {
			return d.heldFields(path, declared, in)
		}
	}
	return differs
}

// heldFields holds an interface against a struct: the same members under the same names, each of its kind.
func (d declarations) heldFields(path, name string, in reflect.Type) []string {
	var out []string
	declared := map[string]member{}
	for _, m := range d.members[name] {
		declared[m.name] = m
	}
	for _, field := range reflect.VisibleFields(in) {
		key, options, _ := strings.Cut(field.Tag.Get("json"), ",")
		if key == "" || key == "-" {
			continue // embedded, whose own fields come along, or no part of the JSON
		}
		m, ok := declared[key]
		if !ok {
			out = append(out, fmt.Sprintf("%s.%s is missing in %s", path, key, name))
			continue
		}

		delete(declared, key)
		kind, leftOut := field.Type, strings.Contains(options, "omitempty")
		if leftOut && kind.Kind() == reflect.Pointer {
			kind = kind.Elem()
		}
		if m.optional && !leftOut {
			out = append(out, fmt.Sprintf("%s.%s is declared as one that may be left out, and Go always writes it",
				path, key))
		}
		out = append(out, d.held(path+"."+key, m.kind, kind)...)
	}
	for key := range declared {
		out = append(out, fmt.Sprintf("%s.%s is declared in %s, and Go has no such member", path, key, name))
	}
	slices.Sort(out)
	return out
}

// values returns in what a value read from JSON differs from a declared kind.
func (d declarations) values(path, declared string, value any) []string {
	declared = d.alias(declared)
	differs := []string{fmt.Sprintf("%s is declared as %s, and it is %v", path, declared, value)}
	if value == nil {
		if strings.HasSuffix(declared, " | null") {
			return nil
		}
		return differs
	}

	declared = d.alias(strings.TrimSuffix(declared, " | null"))
	switch v := value.(type) {
	case string:
		if declared == "string" || declared == "CanvasTextAlign" || strings.Contains(declared, "'"+v+"'") {
			return nil
		}
	case bool:
		if declared == "boolean" {
			return nil
		}
	case float64:
		if declared == "number" {
			return nil
		}
	case []any:
		return d.valuesOfList(path, declared, v, differs)
	case map[string]any:
		return d.valuesOfObject(path, declared, v, differs)
	}
	return differs
}

func (d declarations) valuesOfList(path, declared string, list []any, differs []string) []string {
	var out []string
	inner, isList := strings.CutSuffix(declared, "[]")
	if m := tuple.FindStringSubmatch(declared); !isList && (m == nil || len(strings.Split(m[1], ", ")) != len(list)) {
		return differs
	} else if !isList {
		inner, _, _ = strings.Cut(m[1], ", ")
	}
	for i, each := range list {
		out = append(out, d.values(fmt.Sprintf("%s[%d]", path, i), inner, each)...)
	}
	return out
}

func (d declarations) valuesOfObject(path, declared string, object map[string]any, differs []string) []string {
	var out []string
	if m := record.FindStringSubmatch(declared); m != nil {
		for key, each := range object {
			out = append(out, d.values(path+"."+key, m[1], each)...)
		}
		return out
	}
	if d.members[declared] == nil {
		return differs
	}

	seen := map[string]bool{}
	for _, m := range d.members[declared] {
		seen[m.name] = true
		each, there := object[m.name]
		if there {
			out = append(out, d.values(path+"."+m.name, m.kind, each)...)
		} else if !m.optional {
			out = append(out, fmt.Sprintf("%s.%s is declared, and not there", path, m.name))
		}
	}
	for key := range object {
		if !seen[key] {
			out = append(out, fmt.Sprintf("%s.%s is there, and not declared in %s", path, key, declared))
		}
	}
	return out
}
