package main

import (
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"text/tabwriter"
)

// megabyte is 1,000,000 bytes, as networks count.
const megabyte = 1_000_000

// budgets in bytes, compressed with brotli. The editor is waited for before the first drawing; the engine comes after
// it.
var budgets = map[string]int{
	"editor.wasm": 22 * megabyte / 10,
	"engine.wasm": 30 * megabyte / 10,
}

// weigh prints the sizes of the files that have a budget and the sum of the others, and returns an error that names
// each file that does not stay under its own.
func weigh(packed []packedFile, budgets map[string]int, out io.Writer) error {
	table := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(table, "\tplain\tgzip\tbrotli\tbudget\t")
	var over []string
	var rest packedSizes
	for _, f := range packed {
		sizes := sizesOf(f)
		budget, has := budgets[f.name]
		if !has {
			rest = rest.plus(sizes)
			continue
		}
		fmt.Fprintf(table, "%s\t%s\t%s\t%s\t%s\t\n", f.name, mb(sizes.plain), mb(sizes.gzip), mb(sizes.brotli),
			mb(budget))
		if sizes.brotli >= budget {
			over = append(over, fmt.Sprintf("%s is %d bytes with brotli, and must stay under %d", f.name, sizes.brotli,
				budget))
		}
	}

	fmt.Fprintf(table, "all other files\t%s\t%s\t%s\t\t\n", mb(rest.plain), mb(rest.gzip), mb(rest.brotli))
	if err := table.Flush(); err != nil {
		return err
	}
	if over != nil {
		return fmt.Errorf("over budget: %s.\n`GOOS=js GOARCH=wasm go list -deps ./wasm/editor` (or engine) lists "+
			"what is linked", strings.Join(over, "; "))
	}
	return nil
}

// quickBrotli is a quality of brotli that takes seconds where the best takes a minute. The best makes either program
// smaller than it by 11 to 13 % (measured on builds of this year), so that quickMargin times the budget is still safely
// under the budget with the best; where pages are packed to be served, the best is what is weighed.
const (
	quickBrotli = 9
	quickMargin = 1.08
)

// weighPrograms holds the wasm programs in a folder against their budgets. A quick compression that stays under
// quickMargin times the budget is enough: the best one, which takes a minute, is tried only where that does not.
func weighPrograms(folder, cache string, out io.Writer) error {
	if err := os.MkdirAll(cache, 0o755); err != nil {
		return fmt.Errorf("the cache %s cannot be made: %w", cache, err)
	}
	for _, name := range slices.Sorted(maps.Keys(budgets)) {
		program, err := os.ReadFile(filepath.Join(folder, name))
		if err != nil {
			return fmt.Errorf("%s cannot be read: %w", name, err)
		}
		if err := weighProgram(name, program, budgets[name], cache, out); err != nil {
			return err
		}
	}
	return nil
}

// weighProgram holds one program against a budget in bytes and prints what it weighs.
func weighProgram(name string, program []byte, budget int, cache string, out io.Writer) error {
	small, err := brotliTo(program, quickBrotli)
	if err != nil {
		return err
	}
	if float64(len(small)) < quickMargin*float64(budget) {
		fmt.Fprintf(out, "%s: %s plain, %s with a quick brotli, which the best makes smaller; the budget is %s\n",
			name, mb(len(program)), mb(len(small)), mb(budget))
		return nil
	}

	if small, err = cachedBrotli(program, cache); err != nil {
		return err
	}
	return weigh([]packedFile{{name: name, plain: program, brotli: small}}, map[string]int{name: budget}, out)
}

type packedSizes struct{ plain, gzip, brotli int }

func (a packedSizes) plus(b packedSizes) packedSizes {
	return packedSizes{a.plain + b.plain, a.gzip + b.gzip, a.brotli + b.brotli}
}

// sizesOf returns what is sent for a file in each encoding: the plain bytes where a compressed form does not exist.
func sizesOf(f packedFile) packedSizes {
	s := packedSizes{len(f.plain), len(f.plain), len(f.plain)}
	if f.gzip != nil {
		s.gzip = len(f.gzip)
	}
	if f.brotli != nil {
		s.brotli = len(f.brotli)
	}
	return s
}

func mb(bytes int) string { return fmt.Sprintf("%.3f MB", float64(bytes)/megabyte) }
