package symmetry

import (
	"bufio"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// sitesProgram makes GAP print the Wyckoff positions of some groups, one a line: "W number order orbit x y", where
// order is that of the site's stabiliser, orbit the positions it is carried to in a primitive unit, and x, y a point of
// it; then the directions it is free in, two numbers each. The order is counted as the orbit of the identity under the
// stabiliser's generators, which is quicker than asking for the size of a matrix group. A function that GAP only has
// with its library of transitive groups, and calls without it, is told that there is none. The last line says that the
// program came to its end.
func sitesProgram(some []Group) string {
	var numbers []string
	for _, g := range some {
		numbers = append(numbers, strconv.Itoa(g.Number))
	}
	return strings.Replace(sitesOfGroups, "NUMBERS", strings.Join(numbers, ", "), 1)
}

const sitesOfGroups = `
if not IsPackageLoaded("transgrp") then
  InstallGlobalFunction(TransitiveGroupsAvailable, deg -> false);
fi;
if LoadPackage("cryst") <> true then
  Print("NO CRYST\n");
else
  for n in [NUMBERS] do
    g := SpaceGroupOnLeftIT(2, n);
    for p in WyckoffPositions(g) do
      t := WyckoffTranslation(p);
      s := GeneratorsOfGroup(WyckoffStabilizer(p));
      order := 1;
      if Length(s) > 0 then
        order := Length(Orbit(Group(s), One(g), OnRight));
      fi;
      Print("W ", n, " ", order, " ", Length(WyckoffOrbit(p)), " ", t[1], " ", t[2]);
      for v in WyckoffBasis(p) do
        Print(" ", v[1], " ", v[2]);
      od;
      Print("\n");
    od;
  od;
  Print("END\n");
fi;
`

// wyckoff is one of GAP's Wyckoff positions.
type wyckoff struct {
	order, orbit int
	at           [2]Fraction
	free         [][2]Fraction
}

// readSites reads what sitesProgram prints, by group number.
func readSites(text string) (map[int][]wyckoff, error) {
	sites := map[int][]wyckoff{}
	ended := false
	lines := bufio.NewScanner(strings.NewReader(text))
	for lines.Scan() {
		words := strings.Fields(lines.Text())
		if len(words) == 0 || words[0] == "true" {
			continue
		}
		if words[0] == "END" {
			ended = true
			continue
		}
		if words[0] != "W" || len(words) < 6 || len(words)%2 != 0 {
			return nil, fmt.Errorf("line %q: not what was asked for", lines.Text())
		}
		var f []Fraction
		for _, word := range words[1:] {
			v, err := parseFraction(word)
			if err != nil {
				return nil, fmt.Errorf("line %q: %w", lines.Text(), err)
			}
			f = append(f, v)
		}
		w := wyckoff{order: f[1].Num, orbit: f[2].Num, at: [2]Fraction{f[3], f[4]}}
		for i := 5; i < len(f); i += 2 {
			w.free = append(w.free, [2]Fraction{f[i], f[i+1]})
		}
		sites[f[0].Num] = append(sites[f[0].Num], w)
	}
	if !ended {
		return nil, fmt.Errorf("%d groups, and the end reached: %v", len(sites), ended)
	}
	return sites, lines.Err()
}

// siteOf returns the place among ours of GAP's position: the one whose images hold it. −1 when there is none.
func siteOf(g Group, sites []Site, w wyckoff) int {
	return slices.IndexFunc(sites, func(s Site) bool {
		if dimension(s) != len(w.free) {
			return false
		}
		return len(w.free) == 2 || slices.ContainsFunc(g.Ops, func(op Op) bool {
			at := op.Of(s.At)
			if len(w.free) == 0 {
				return modPoint(at) == modPoint(w.at)
			}
			end := op.Of([2]Fraction{s.At[0].Plus(Frac(s.Along[0], 1)), s.At[1].Plus(Frac(s.Along[1], 1))})
			line := Element{At: at, Along: [2]int{minus(end[0], at[0]).Num, minus(end[1], at[1]).Num}}
			parallel := minus(w.free[0][1].Times(line.Along[0]), w.free[0][0].Times(line.Along[1])).Num == 0
			return parallel && line.through(w.at)
		})
	})
}

// dimension returns in how many directions a site is free.
func dimension(s Site) int {
	switch {
	case s.Order == 1:
		return 2
	case s.Along != [2]int{}:
		return 1
	}
	return 0
}

// TestSitesAgreeWithGAP holds every special position to GAP's WyckoffPositions: the same ones, one to one, with the
// same order of the site symmetry and the same number of places.
func TestSitesAgreeWithGAP(t *testing.T) {
	t.Parallel() // GAP takes its time
	_, sites := gapSays(t)
	theirs, err := readSites(sites)
	if err != nil {
		t.Fatalf("GAP's answer cannot be read: %v", err)
	}
	asked := gapAnswer.asked
	if len(theirs) != len(asked) {
		t.Fatalf("GAP tells of %d groups, %d were asked for", len(theirs), len(asked))
	}
	compared, all := 0, 0
	for _, g := range Groups() {
		all += len(g.Sites())
	}
	for _, g := range asked {
		ours := g.Sites()
		var met []int
		var got, want []string
		for _, s := range ours {
			got = append(got, fmt.Sprintf("free %d, order %d, multiplicity %d", dimension(s), s.Order, s.Multiplicity))
		}
		for _, w := range theirs[g.Number] {
			compared++
			units := len(g.Ops) / g.Order // GAP counts in a primitive unit, the Tables in the conventional cell
			want = append(want, fmt.Sprintf("free %d, order %d, multiplicity %d", len(w.free), w.order, w.orbit*units))
			i := siteOf(g, ours, w)
			if i < 0 || slices.Contains(met, i) {
				t.Errorf("%s: GAP's %+v is our position %d, met before: %v", g.Symbol, w, i, met)
				continue
			}
			met = append(met, i)
			if got[i] != want[len(want)-1] {
				t.Errorf("%s: ours is %s, GAP's %s", g.Symbol, got[i], want[len(want)-1])
			}
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%s: ours are %q, GAP's %q", g.Symbol, got, want)
		}
		if last := ours[len(ours)-1]; last.Multiplicity != len(g.Ops) || last.Order != 1 {
			t.Errorf("%s: the general position is %+v", g.Symbol, last)
		}
	}
	if all != 72 || len(asked) == len(Groups()) && compared != all { // in the Tables, over all seventeen
		t.Errorf("%d positions, of which %d were compared, want 72", all, compared)
	}
}

// Brute force beside the computed numbers: the images of a point of each site are counted, and the operations that
// leave it alone sorted into turns and mirrors.
func TestSitesByCounting(t *testing.T) {
	for _, g := range Groups() {
		for _, s := range g.Sites() {
			p := s.At
			switch dimension(s) { // away from everything more special
			case 1:
				p[0] = p[0].Plus(Frac(s.Along[0], 1009))
				p[1] = p[1].Plus(Frac(s.Along[1], 1009))
			case 2:
				p = [2]Fraction{Frac(2, 1009), Frac(5, 1013)}
			}
			images := map[[2]Fraction]bool{}
			for _, op := range g.Ops {
				images[modPoint(op.Of(p))] = true
			}
			turns, mirrors := 0, 0
			for i, f := range g.Fixing(p[0], p[1]) {
				op := g.Ops[f.Op]
				op.T = [2]Fraction{op.T[0].Plus(Frac(f.Cell[0], 1)), op.T[1].Plus(Frac(f.Cell[1], 1))}
				if op.Of(p) != p || (i == 0) != (f == Fixing{}) {
					t.Errorf("%s: %+v at place %d does not leave %v alone, or the identity is not first", g.Symbol, f,
						i, p)
				}
				if op.Det() > 0 {
					turns++
				} else {
					mirrors++
				}
			}
			if len(images) != s.Multiplicity || turns+mirrors != s.Order || turns != s.Turn || mirrors != s.Mirrors {
				t.Errorf("%s: %+v, but counting gives %d places, %d turns, %d mirrors", g.Symbol, s, len(images), turns,
					mirrors)
			}
		}
	}
}
