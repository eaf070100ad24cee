package stepping

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern/letters"
)

// The map's title in letters that no font here has is told as lacking, or drawn as it is handed in.
func TestTitleOfTheMap(t *testing.T) {
	d := square(10)
	d.Title = "Цапля 鷺"
	for _, drawn := range [][]letters.Drawn{nil, {{Text: "鷺", Width: 1,
		Outline: orb.MultiPolygon{{{{0.1, 0}, {0.9, 0}, {0.5, 0.8}, {0.1, 0}}}}}}} {
		s, err := Steps(layoutOf(t, d), Options{Lettering: drawn}, nil)
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := s.Map(&b, "A4"); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(t.TempDir(), "map.pdf")
		if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command("pdftotext", path, "-").Output()
		text := string(out)
		if err != nil || !strings.Contains(text, "Цапля") || strings.Contains(text, "鷺") != (drawn != nil) ||
			strings.Contains(text, "U+9DFA") != (drawn == nil) {
			t.Errorf("%v: %d pieces drawn, and the map says %.300q", err, len(drawn), text)
		}
	}
}
