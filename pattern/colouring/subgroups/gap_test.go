package subgroups

import (
	"bufio"
	"context"
	"fmt"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"openwork/pattern/colouring"
	"openwork/pattern/symmetry"
)

// presentations of the groups, after H. S. M. Coxeter and W. O. J. Moser, "Generators and Relations for Discrete
// Groups", Springer, section 4.5 (from memory), as GAP's ParseRelators reads them: a capital letter is an inverse, a
// number after a letter or a bracket a power, [r,s] a commutator.
var presentations = []struct{ symbol, generators, relations string }{
	{"p1", "xy", "[x,y]"},
	{"p2", "rst", "r2,s2,t2,(rst)2"},
	{"pm", "rsy", "r2,s2,[y,r],[y,s]"},
	{"pg", "pq", "p2=q2"},
	{"cm", "rp", "r2,[r,p2]"},
	{"p2mm", "rstu", "r2,s2,t2,u2,(rs)2,(st)2,(tu)2,(ur)2"},
	{"p2mg", "rst", "r2,s2,t2,srs=trt"},
	{"p2gg", "pq", "(pq)2,(Pq)2"},
	{"c2mm", "rst", "r2,s2,t2,(rs)2,(rtst)2"},
	{"p4", "rt", "r4,t2,(rt)4"},
	{"p4mm", "rst", "r2,s2,t2,(rs)4,(st)4,(tr)2"},
	{"p4gm", "rs", "r2,s4,(rSrs)2"},
	{"p3", "rs", "r3,s3,(rs)3"},
	{"p3m1", "rst", "r2,s2,t2,(rs)3,(st)3,(tr)3"},
	{"p31m", "rs", "r2,s3,(rSrs)3"},
	{"p6", "st", "s3,t2,(st)6"},
	{"p6mm", "rst", "r2,s2,t2,(rs)3,(st)6,(tr)2"},
}

// gapProgram defines a function that prints, for each index up to k, "symbol index classes subgroups": the classes of
// conjugate subgroups that GAP's search by cosets finds, and how many subgroups they hold.
const gapProgram = `
tell := function(symbol, names, relations, k)
  local f, g, h, classes, subgroups, i;
  f := FreeGroup(List(names, c -> [c]));
  g := f / ParseRelators(f, relations);
  classes := 0 * [1..k];
  subgroups := 0 * [1..k];
  for h in LowIndexSubgroupsFpGroup(g, k) do
    i := Index(g, h);
    classes[i] := classes[i] + 1;
    subgroups[i] := subgroups[i] + Index(g, Normalizer(g, h));
  od;
  for i in [1..k] do
    Print(symbol, " ", i, " ", classes[i], " ", subgroups[i], "\n");
  od;
end;;
`

// TestSubgroupsAgreeWithGAP holds the numbers of subgroups of each index, and of their classes under conjugation, to
// those that GAP (Debian's gap-core) finds by enumerating cosets of abstract groups, which knows nothing of lattices.
func TestSubgroupsAgreeWithGAP(t *testing.T) {
	t.Parallel() // GAP takes its time
	gap, err := exec.LookPath("gap")
	if err != nil {
		t.Fatal("GAP is not installed: the Debian package gap-core brings it")
	}
	program := gapProgram
	for _, p := range presentations {
		program += fmt.Sprintf("tell(%q, %q, %q, %d);\n", p.symbol, p.generators, p.relations, colouring.MaxColours)
	}
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, gap, "-q", "-A")
	cmd.Stdin = strings.NewReader(program)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("GAP failed: %v\n%s", err, out)
	}

	rows := 0
	for lines := bufio.NewScanner(strings.NewReader(string(out))); lines.Scan(); rows++ {
		words := strings.Fields(lines.Text())
		if len(words) != 4 {
			t.Fatalf("GAP says %q", lines.Text())
		}
		var n [3]int
		for i, word := range words[1:] {
			if n[i], err = strconv.Atoi(word); err != nil {
				t.Fatalf("GAP says %q", lines.Text())
			}
		}
		g, err := symmetry.Find(words[0])
		if err != nil {
			t.Fatal(err)
		}
		all, subgroups := classesOf(t, g, n[0]), 0
		for _, c := range all {
			subgroups += c.Conjugates
		}
		if len(all) != n[1] || subgroups != n[2] {
			t.Errorf("%s, index %d: %d classes of %d subgroups, GAP finds %d of %d", g.Symbol, n[0], len(all),
				subgroups, n[1], n[2])
		}
	}
	if want := 17 * colouring.MaxColours; rows != want {
		t.Errorf("GAP tells of %d indexes, want %d", rows, want)
	}
}
