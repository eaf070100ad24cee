package main

import (
	"context"
	"fmt"
)

const (
	fitPackage = "./pattern/fit"
	fitTest    = "TestOursBesideGeneral"
)

// fitBenchmarks are what fitting costs.
var fitBenchmarks = []figure{
	{fitPackage, "BenchmarkFit/p2gg", "fitting one silhouette of 300 points in one plane group, p2gg, in wasm", 2500},
	{fitPackage, "BenchmarkFit/all", "the same in all seventeen, one after the other", 10000},
}

// searched is how one search did on random silhouettes, as the package's test writes it: its cover in parts of what a
// search of a minute found, in the mean and at the least.
type searched struct {
	Name  string  `json:"name"`
	Asked int     `json:"asked"`
	MS    float64 `json:"ms"`
	Cover float64 `json:"cover"`
	Least float64 `json:"least"`
}

// fitFigures fits random silhouettes, natively, and has a general global optimiser over GEOS distances fit them in as
// much time.
func fitFigures(ctx context.Context, o options, t *table) error {
	rows, err := compared[searched](ctx, o, "fit.json", fitTest, fitPackage, o.fits)
	if err != nil {
		return err
	}
	for _, r := range rows {
		t.add(fmt.Sprintf("cover of %d random silhouettes of 300 points, native, in %s ms each, against a search of "+
			"a minute: %s",
			r.Asked, short(r.MS), r.Name), fmt.Sprintf("%.1f %% (%.1f %% at the least)", 100*r.Cover, 100*r.Least), "")
	}
	return nil
}
