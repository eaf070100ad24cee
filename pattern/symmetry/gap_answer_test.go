package symmetry

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"openwork/geometry/geometrytest"
)

// gapProgram makes GAP print the seventeen: for each, the basis of its translations (lines "T number x y") and one
// operation for each element of its point group ("E number w11 w12 w21 w22 t1 t2"). SpaceGroupOnLeftIT gives the
// matrices of the Tables' setting for column vectors, the translation in the last column; the default action of GAP is
// from the right, with everything transposed. The last line says that the program came to its end.
const gapProgram = `
if LoadPackage("cryst") <> true then
  Print("NO CRYST\n");
else
  for n in [1..17] do
    g := SpaceGroupOnLeftIT(2, n);
    for v in TranslationBasis(g) do
      Print("T ", n, " ", v[1], " ", v[2], "\n");
    od;
    hom := PointHomomorphism(g);
    for p in PointGroup(g) do
      m := PreImagesRepresentative(hom, p);
      Print("E ", n, " ", m[1][1], " ", m[1][2], " ", m[2][1], " ", m[2][2], " ", m[1][3], " ", m[2][3], "\n");
    od;
  od;
  Print("END\n");
fi;
`

// published is one group as GAP tells it: the translations that span its lattice, and one operation for each element of
// the point group.
type published struct {
	basis [][2]Fraction
	ops   []Op
}

// askGAP reads the seventeen groups by number.
func askGAP(t *testing.T) map[int]published {
	t.Helper()
	out, _ := gapSays(t)
	groups, err := readGAP(out)
	if err != nil {
		t.Fatalf("GAP's answer cannot be read: %v\n%s", err, out)
	}
	return groups
}

// gapSays returns what gapProgram prints, and sitesProgram for gapAnswer.asked. Without GAP and its package cryst the
// test fails.
func gapSays(t *testing.T) (groups, sites string) {
	t.Helper()
	gapAnswer.once.Do(func() {
		gapAnswer.asked = geometrytest.Share(t, Groups(), 6)
		gapAnswer.text, gapAnswer.err = runGAP(gapAnswer.asked)
	})
	if gapAnswer.err != nil {
		t.Fatal(gapAnswer.err)
	}
	groups, sites, ok := strings.Cut(gapAnswer.text, gapBreak)
	if !ok {
		t.Fatalf("GAP did not come to its second program:\n%s", gapAnswer.text)
	}
	return groups, sites
}

// gapAnswer is what GAP says to both programs, asked once for all tests: starting it takes longer than most answers.
var gapAnswer struct {
	once  sync.Once
	asked []Group // whose special positions were asked for
	text  string
	err   error
}

// gapBreak stands between the answers to the two programs.
const gapBreak = "NEXT\n"

// runGAP gives GAP both programs, the second for some of the groups.
func runGAP(some []Group) (string, error) {
	gap, err := exec.LookPath("gap")
	if err != nil {
		return "", errors.New("GAP is not installed: the Debian packages gap-core and gap-cryst bring it")
	}
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, gap, "-q")
	cmd.Stdin = strings.NewReader(gapProgram + `Print("NEXT\n");` + sitesProgram(some))
	out, err := cmd.CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("GAP failed: %w\n%s", err, out)
	}
	if bytes.Contains(out, []byte("NO CRYST")) {
		return "", errors.New("GAP has no package cryst: the Debian package gap-cryst brings it")
	}
	return string(out), nil
}

// readGAP reads what gapProgram prints.
func readGAP(text string) (map[int]published, error) {
	groups := map[int]published{}
	ended := false
	lines := bufio.NewScanner(strings.NewReader(text))
	for lines.Scan() {
		words := strings.Fields(lines.Text())
		if len(words) == 0 {
			continue
		}
		if words[0] == "END" {
			ended = true
			continue
		}
		var numbers []Fraction
		for _, word := range words[1:] {
			f, err := parseFraction(word)
			if err != nil {
				return nil, fmt.Errorf("line %q: %w", lines.Text(), err)
			}
			numbers = append(numbers, f)
		}
		switch {
		case words[0] == "T" && len(numbers) == 3:
			g := groups[numbers[0].Num]
			g.basis = append(g.basis, [2]Fraction{numbers[1], numbers[2]})
			groups[numbers[0].Num] = g
		case words[0] == "E" && len(numbers) == 7:
			var op Op
			for i, f := range numbers[1:5] {
				if f.Den != 1 {
					return nil, fmt.Errorf("line %q: a matrix that is not whole", lines.Text())
				}
				op.W[i/2][i%2] = f.Num
			}
			op.T = [2]Fraction{numbers[5], numbers[6]}
			g := groups[numbers[0].Num]
			g.ops = append(g.ops, op)
			groups[numbers[0].Num] = g
		default:
			return nil, fmt.Errorf("line %q: not what was asked for", lines.Text())
		}
	}
	if !ended || len(groups) != 17 {
		return nil, fmt.Errorf("%d groups, and the end reached: %v", len(groups), ended)
	}
	return groups, lines.Err()
}
