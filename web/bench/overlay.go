package main

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
)

const (
	overlayPackage = "./geometry/overlay"
	overlayTest    = "TestOursBesideSettle"
)

// contender is how one overlay did on the adversarial families, as the package's test writes it.
type contender struct {
	Name    string  `json:"name"`
	Asked   int     `json:"asked"`
	Wrong   int     `json:"wrong"`
	Invalid int     `json:"invalid"`
	Failed  int     `json:"failed"`
	MS      float64 `json:"ms"`
}

// overlayFigures puts the families to our overlay and to another library's, natively, and GEOS judges both. The test
// itself fails where ours does.
func overlayFigures(ctx context.Context, o options, t *table) error {
	rows, err := compared[contender](ctx, o, "overlay.json", overlayTest, overlayPackage, o.cases)
	if err != nil {
		return err
	}
	for _, r := range rows {
		t.add(fmt.Sprintf("overlay of %d adversarial cases, %s, native", r.Asked+r.Failed, r.Name),
			fmt.Sprintf("%d wrong, %d not valid, %d without an answer; %s ms", r.Wrong, r.Invalid, r.Failed,
				short(r.MS)), "")
	}
	return nil
}

// compared has a package's test compare what is ours with others, on so many cases, and returns the rows that it writes
// into a file of the cache.
func compared[R any](ctx context.Context, o options, name, test, pkg string, cases int) (rows []R, err error) {
	path, err := filepath.Abs(filepath.Join(o.cache, name))
	if err != nil {
		return nil, err
	}
	if _, err := output(ctx, nil, "go", "test", "-count=1", "-tags=compare", "-timeout=60m", "-run=^"+test+"$", pkg,
		"-compare", fmt.Sprint(cases), "-compare-to", path); err != nil {
		return nil, err
	}

	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	if err := json.Unmarshal(text, &rows); err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return rows, nil
}
