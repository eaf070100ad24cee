package browser

import (
	"encoding/xml"
	"os"
	"path/filepath"
	"testing"
)

// A sheet larger than the bed: the stepping sheet comes as one file with a map of its places, the joined sheets as one
// file for each part; that the whole sheet does not fit is no reason to ask first.
func TestSheetLargerThanTheBed(t *testing.T) {
	p := open(t, how{used: true})
	p.click("[data-step=sheet] .step-head")
	p.fill(`[data-field="sheet.bedWidth"]`, "400")
	p.fill(`[data-field="sheet.bedHeight"]`, "600")
	p.settled()
	if !containsAll(p.verdict(), "bed") {
		t.Fatalf("the sheet fits a bed of 400 × 600 mm: %q", p.verdict())
	}
	p.click("[data-step=make] .step-head")
	p.click("#larger summary")
	p.click("#larger-steps")
	path := p.download("*-stepping.svg")
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := xml.Unmarshal(data, new(struct{ XMLName xml.Name })); err != nil {
		t.Errorf("the stepping sheet is no XML: %v", err)
	}
	p.wait("the map", `document.getElementById("steps-map").checkVisibility() &&
		document.querySelectorAll("#steps-map .place").length > 4`)
	if eval[bool](p, `document.getElementById("ask").open`) {
		t.Error("the page asks whether a sheet that is too large should be made smaller")
	}
	p.keep("steps")
	p.click("#larger-parts")
	p.wait("the parts", `/\d cut files and the assembly map are/.test(document.getElementById("made").textContent)`)
	n := eval[int](p, `document.querySelectorAll("#steps-map text").length`)
	p.download("*-part-1.svg")
	files, err := filepath.Glob(filepath.Join(p.downloads, "*-part-*.svg"))
	if err != nil {
		t.Fatal(err)
	}
	if n < 2 || len(files) < 1 {
		t.Errorf("%d parts on the map, %d files", n, len(files))
	}
	p.keep("parts")
}
