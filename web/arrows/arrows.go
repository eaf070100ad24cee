// Package arrows holds the direction of imports: which floor of the house may know which. The rules are data, and so is
// the graph they are held against, so that the checker is tested on made-up graphs and then set to the real one.
package arrows

import (
	"fmt"
	"slices"
	"strings"
)

// Package is one node of the graph, as `go list -deps -json` gives it.
type Package struct {
	ImportPath   string
	Standard     bool // of Go's own library
	Imports      []string
	TestImports  []string // of tests inside the package
	XTestImports []string // of tests beside it
}

// Graph is a set of packages by import path. A path that is imported and not in the graph is a leaf.
type Graph map[string]Package

// Rule forbids some packages to reach some others, through however many steps.
//
// A pattern is an import path, or a path followed by "/..." for it and all below it; a path below the module is written
// with "./" in front of it ("./" alone with "..." is every package of the module).
type Rule struct {
	Why    string
	From   []string // who is held by the rule
	But    []string // who among those is not
	Forbid []string // what they may not reach; or, when empty, everything of the module but Allow
	Allow  []string // what of the module they may reach, themselves always; each needs a rule of its own
	Tests  bool     // their tests' own imports count too
	// Library says whether the way may lead through Go's own library. It reaches nearly everything from nearly anywhere
	// (syscall needs syscall/js in a browser), so a rule about who may use something ends at its door, and only a rule
	// about what gets linked goes through.
	Library bool
}

// Break is one arrow that a rule forbids: the steps that lead from the package held to what it may not reach.
type Break struct {
	Rule Rule
	Path []string
}

// String is the break with the whole way.
func (b Break) String() string {
	return fmt.Sprintf("%s: %s", b.Rule.Why, strings.Join(b.Path, " → "))
}

// Breaks returns the breaks of the rules in the graph of a module, by a shortest way for each package held, rule and
// package forbidden. A rule about packages that do not exist holds.
func Breaks(g Graph, module string, rules []Rule) []Break {
	var paths []string
	for path := range g {
		paths = append(paths, path)
	}
	slices.Sort(paths)
	var out []Break
	for _, rule := range rules {
		for _, path := range paths {
			if rule.holds(module, path) {
				out = append(out, breaksFrom(g, module, rule, path)...)
			}
		}
	}
	return out
}

// holds says whether the package is held by the rule.
func (r Rule) holds(module, path string) bool {
	return matchesAny(module, r.From, path) && !matchesAny(module, r.But, path)
}

// breaksFrom walks breadth first from one package. It stops at what is forbidden, at packages that the same rule holds,
// and at allowed ones, which have a rule of their own: what those reach is told of them, so that one wrong arrow is not
// told of all that stands on it.
func breaksFrom(g Graph, module string, rule Rule, from string) []Break {
	cameFrom := map[string]string{from: ""}
	queue := []string{from}
	var out []Break
	for i := 0; i < len(queue); i++ { // ends: a package enters the queue once
		at := queue[i]
		if i > 0 && forbidden(module, rule, from, at) {
			out = append(out, Break{rule, way(cameFrom, at)})
			continue
		}
		if i > 0 && (rule.holds(module, at) || matchesAny(module, rule.Allow, at)) {
			continue
		}
		node := g[at]
		if node.Standard && !rule.Library {
			continue
		}
		next := slices.Clone(node.Imports)
		if rule.Tests && at == from {
			next = slices.Concat(next, node.TestImports, node.XTestImports)
		}
		slices.Sort(next)
		for _, to := range next {
			if _, seen := cameFrom[to]; !seen {
				cameFrom[to] = at
				queue = append(queue, to)
			}
		}
	}
	return out
}

// forbidden says whether a rule lets from reach the package at.
func forbidden(module string, rule Rule, from, at string) bool {
	if len(rule.Forbid) > 0 {
		return matchesAny(module, rule.Forbid, at)
	}
	return matches(module, "./...", at) && at != from && !matchesAny(module, rule.Allow, at)
}

// way follows the steps back to the start.
func way(cameFrom map[string]string, to string) []string {
	var path []string
	for at := to; at != ""; at = cameFrom[at] {
		path = append(path, at)
	}
	slices.Reverse(path)
	return path
}

func matchesAny(module string, patterns []string, path string) bool {
	return slices.ContainsFunc(patterns, func(p string) bool { return matches(module, p, path) })
}

// matches says whether a pattern means the package.
func matches(module, pattern, path string) bool {
	if rest, ok := strings.CutPrefix(pattern, "./"); ok {
		pattern = module + "/" + rest
	}
	if tree, ok := strings.CutSuffix(pattern, "/..."); ok {
		return path == tree || strings.HasPrefix(path, tree+"/")
	}
	return path == pattern
}
