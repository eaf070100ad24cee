package browser

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
)

// The table of speeds begins with the stock in hand; what is changed there is the job sheet's speed, is kept and saved
// with what the shop asks for, and goes back to what it was.
func TestSpeedsByStock(t *testing.T) {
	p := open(t, how{})
	before := p.text()
	show := func(p *tab) {
		t.Helper()
		p.settled()
		if !p.shows("#rates summary") { // the page opens at the step where it was left
			p.click("[data-step=make] .step-head")
		}
		p.click("#rates summary")
		p.wait("the table", `document.querySelector("#speeds-rows tr.in-hand th")?.innerText === "film"`)
	}
	show(p)
	const speed = `#speeds-rows tr.in-hand:nth-child(2) td:nth-child(3) input`
	said := func() string {
		t.Helper()
		p.click("#job")
		path := p.download("*-job.pdf")
		defer os.Remove(path) // the next one has its name
		return printed(t, path)
	}
	if text := said(); !strings.Contains(text, "45 mm/s, common practice for") {
		t.Errorf("the job sheet says %q", text)
	}
	p.fill(speed, "22.5")
	if text := said(); !strings.Contains(text, "22.5 mm/s, the shop's, for this") {
		t.Errorf("the job sheet says %q", text)
	}
	if p.text() != before {
		t.Error("a speed has changed the draft")
	}

	p.click("#shop summary")
	p.click("#wishes-save")
	saved := p.download("what-the-shop-asks-for.json")
	data, err := os.ReadFile(saved)
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Shop struct {
			Speeds []struct{ Thickness, Speed float64 } `json:"job.speeds"`
		}
	}
	if err := json.Unmarshal(data, &file); err != nil || len(file.Shop.Speeds) != 3 ||
		file.Shop.Speeds[1].Speed != 22.5 || file.Shop.Speeds[1].Thickness != 0.35 {
		t.Errorf("%v, the file holds %s", err, data)
	}

	again := open(t, how{within: p})
	show(again)
	if v := eval[string](again, `document.querySelector("`+speed+`").value`); v != "22.5" {
		t.Errorf("opened again, the speed is %s", v)
	}
	again.click("#speeds-before")
	if v := eval[string](again,
		`document.querySelector("`+speed+`").value + localStorage.getItem("openwork:wishes")`); v != "45{}" {
		t.Errorf("as before, the speed and what is kept are %s", v)
	}

	// A thickness of its own gets the row below it, and the file that was saved takes all of that back.
	const rows = `[...document.querySelectorAll("#speeds-rows tr.in-hand")].map((row) => ` +
		`[...row.querySelectorAll("input")].map((i) => i.value).join(" ")).join("; ")`
	usual := eval[string](again, rows)
	again.click("[data-step=sheet] .step-head")
	again.entry("a thickness", func() { again.fill(`[data-field="sheet.thickness"]`, "0.42") })
	again.click("[data-step=make] .step-head")
	again.click("#speeds-more")
	added := strings.Replace(usual, "0.35 45", "0.35 45; 0.42 45", 1)
	if got := eval[string](again, rows); got != added || added == usual {
		t.Errorf("of %q, 0.42 mm being added, the table becomes %q", usual, got)
	}
	if !eval[bool](again, `document.querySelector("#speeds-more").disabled`) {
		t.Error("a thickness that has its row can be added once more")
	}
	again.choose("#wishes-file", saved)
	again.wait("the speeds of the file", strings.ReplaceAll(rows, "\n", " ")+` === "`+
		strings.Replace(usual, "0.35 45", "0.35 22.5", 1)+`"`)
}
