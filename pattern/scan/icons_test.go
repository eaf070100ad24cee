package scan

import (
	"openwork/pattern/outline/outlinetest"

	"strings"
	"testing"
)

// The packages hold what is meant: fewer would mean that their lists are read wrong.
func TestIcons(t *testing.T) {
	all, animals := outlinetest.MdiIcons(t), outlinetest.AnimalIcons(t)
	byPackage := map[string]int{}
	for name := range animals {
		kind, _, _ := strings.Cut(name, "/")
		byPackage[kind]++
	}
	t.Logf("%d icons; of animals %v", len(all), byPackage)
	if len(all) < 7000 || byPackage["mdi"] < 50 || byPackage["solid"] < 20 {
		t.Errorf("%d icons, of animals %v: too few", len(all), byPackage)
	}
}
