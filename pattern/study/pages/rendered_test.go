package pages

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"testing"
)

// tool fails the test with the Debian package to install when a program is missing.
func tool(t *testing.T, name, pkg string) {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Fatalf("%s is missing: install Debian's package %s", name, pkg)
	}
}

// grey is a picture of greys, 0 black.
type grey struct {
	w, h int
	px   []byte
}

func (g grey) at(x, y int) byte {
	if x < 0 || y < 0 || x >= g.w || y >= g.h {
		return 255
	}
	return g.px[y*g.w+x]
}

// ink reports whether a pixel is inked for certain; the hairline of the field's edge is lighter than that.
func (g grey) ink(x, y int) bool { return g.at(x, y) < 70 }

// inkBy reports whether a pixel or one beside it is inked at all.
func (g grey) inkBy(x, y int) bool {
	for dy := -1; dy <= 1; dy++ {
		for dx := -1; dx <= 1; dx++ {
			if g.at(x+dx, y+dy) < 200 {
				return true
			}
		}
	}
	return false
}

// rendered returns a file's pages as poppler draws them, after qpdf has found nothing wrong with it.
func rendered(t *testing.T, data []byte, resolution float64) []grey {
	t.Helper()
	tool(t, "pdftoppm", "poppler-utils")
	tool(t, "qpdf", "qpdf")
	dir := t.TempDir()
	path := filepath.Join(dir, "study.pdf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("qpdf", "--check", path).CombinedOutput(); err != nil {
		t.Fatalf("qpdf: %s", out)
	}
	out, err := exec.Command("pdftoppm", "-gray", "-r", fmt.Sprintf("%.8f", resolution), path,
		filepath.Join(dir, "page")).CombinedOutput()
	if err != nil || len(out) > 0 {
		t.Fatalf("pdftoppm: %v %s", err, out)
	}
	names, _ := filepath.Glob(filepath.Join(dir, "page*.pgm"))
	sort.Strings(names)
	var all []grey
	for _, n := range names {
		b, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		var g grey
		if _, err := fmt.Sscanf(string(b[:min(len(b), 40)]), "P5\n%d %d\n255\n", &g.w, &g.h); err != nil {
			t.Fatalf("%s: %v", n, err)
		}
		g.px = b[len(b)-g.w*g.h:]
		all = append(all, g)
	}
	return all
}
