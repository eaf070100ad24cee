package browser

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// Inches once chosen are chosen still when the page is opened anew, and everything that is printed is in inches then.
func TestInchesAreRemembered(t *testing.T) {
	p := open(t, how{})
	p.click(`#units input[value="in"]`)
	p.wait("inches", `JSON.parse(openwork.view()).units === "in"`)
	again := open(t, how{within: p})
	again.wait("inches still", `JSON.parse(openwork.view()).units === "in"`)
	again.settled()
	again.click("[data-step=make] .step-head")
	again.click("#order summary")
	again.fill(`[data-wish="job.head.customer"]`, "The heron's own")
	again.fill(`[data-wish="job.head.quantity"]`, "3")
	again.click("#job")
	text := printed(t, again.download("*-job.pdf"))
	for _, want := range []string{"The heron's own", "3", " in"} {
		if !strings.Contains(text, want) {
			t.Errorf("the job sheet does not say %q", want)
		}
	}
	for _, line := range strings.Split(text, "\n") {
		if strings.Contains(line, "Panel") && strings.Contains(line, "600") {
			t.Errorf("the job sheet says %q, in millimetres", line)
		}
	}
	again.click("[data-step=make] .step-head")
	again.act("units")
}

// printed returns the text of a PDF, as poppler's pdftotext reads it.
func printed(t *testing.T, path string) string {
	t.Helper()
	out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// A stock that a laser must not meet may be cut by a knife; what does not hold is not the button that stands out.
func TestHowItIsCut(t *testing.T) {
	p := open(t, how{used: true})
	p.click("[data-step=sheet] .step-head")
	p.entry("the stock", func() { p.fill("#stock", "self-adhesive vinyl") })
	p.wait("the refusal", `!document.getElementById("stock-caution").hidden && document.getElementById("cut").disabled`)
	p.entry("the knife", func() { p.click(`#cut-by input[value="knife"]`) })
	p.wait("no refusal", `document.getElementById("stock-caution").textContent !== "" ?
		!document.getElementById("stock-caution").classList.contains("refused") : true`)
	p.settled()
	p.wait("a cut file that may be made", `!document.getElementById("cut").disabled`)
	stands := func() bool { return eval[bool](p, `document.getElementById("cut").classList.contains("main")`) }
	if !stands() {
		t.Error("the sheet holds, and the cut file is not what stands out")
	}
	p.fill(`[data-field="sheet.bridge"]`, "30")
	p.settled()
	p.wait("a sheet that does not hold", `JSON.parse(openwork.view()).verdict.state === "fails"`)
	if stands() {
		t.Error("the sheet does not hold, and the cut file stands out")
	}
}

// What a shop asks for can be kept as a file, and read on another machine; a file that is none changes nothing.
func TestWhatTheShopAsksForAsAFile(t *testing.T) {
	p := open(t, how{})
	p.click("[data-step=make] .step-head")
	p.click("#shop summary")
	p.fill(`[data-wish="cut.lines.cut.name"]`, "THROUGH")
	p.fill(`[data-wish="cut.holes.diameter"]`, "6")
	p.click("#wishes-save")
	path := p.download("what-the-shop-asks-for.json")

	other := open(t, how{})
	other.click("[data-step=make] .step-head")
	other.click("#shop summary")
	other.choose("#wishes-file", path)
	other.wait("two choices", `/^2 choices were read/.test(document.getElementById("wishes-said").innerText)`)
	values := `document.querySelector('[data-wish="cut.lines.cut.name"]').value +
		document.querySelector('[data-wish="cut.holes.diameter"]').value`
	if got := eval[string](other, values); got != "THROUGH6" {
		t.Errorf("read from the file there is %q", got)
	}
	bad := filepath.Join(t.TempDir(), "bad.json")
	if err := os.WriteFile(bad, []byte(`{"shop": {"cut.nothing": 1}}`), 0o644); err != nil {
		t.Fatal(err)
	}
	other.choose("#wishes-file", bad)
	other.wait("a refusal",
		`/not known here; nothing was changed/.test(document.getElementById("wishes-said").innerText)`)
	if got := eval[string](other, values); got != "THROUGH6" {
		t.Errorf("after a bad file there is %q", got)
	}
	other.click("#cut")
	data, err := os.ReadFile(other.download("*.svg"))
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(data), "THROUGH") {
		t.Error("the cut file does not name the shop's layer")
	}
}

// Two sheets on one sheet of stock: one cut file with both, and a map of how they lie.
func TestSeveralOnOneStock(t *testing.T) {
	p := open(t, how{used: true})
	p.click("[data-step=make] .step-head")
	p.click("#several summary")
	p.click("#nest")
	p.wait("to be asked how large the stock is",
		`/how wide and how high/.test(document.getElementById("made").innerText)`)
	p.fill(`[data-wish="nest.stock.width"]`, "1300")
	p.fill(`[data-wish="nest.stock.height"]`, "950")
	p.fill(`[data-wish="nest.copies"]`, "2")
	p.click("#nest")
	data, err := os.ReadFile(p.download("*-stock-1.svg"))
	if err != nil {
		t.Fatal(err)
	}
	if text := string(data); !strings.Contains(text, `width="1300mm"`) || !strings.Contains(text, `height="950mm"`) {
		t.Errorf("the file is not as large as the stock: %.300s", text)
	}
	if n := eval[int](p, `document.querySelectorAll("#nest-maps .sheet").length`); n != 2 {
		t.Errorf("%d pieces lie on the map", n)
	}
	if said := eval[string](p, `document.getElementById("nest-list").innerText`); !containsAll(said,
		"1 sheet of stock", "2 × 600") {
		t.Errorf("it says %q", said)
	}
}

// Bringing in speaks the person's unit: sizes of pieces, and what is typed.
func TestBringingInInInches(t *testing.T) {
	p := open(t, how{used: true})
	p.click(`#units input[value="in"]`)
	if !eval[bool](p, `document.querySelector("[data-step=silhouettes]").classList.contains("open")`) {
		p.click("[data-step=silhouettes] .step-head")
	}
	p.click("#bring-in")
	p.wait("the dialog", `document.getElementById("bring").open`)
	p.choose("#bring-file", write(t, "disc.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg" `+
		`width="50.8mm" height="50.8mm" viewBox="0 0 50.8 50.8">
		<circle cx="25.4" cy="25.4" r="25.4"/></svg>`)))
	p.wait("a piece of two inches",
		`/^(2|1\.99\d|2\.00\d) × .* in, /.test(document.getElementById("bring-pieces").innerText)`)
	p.fill(`[data-trace="height"]`, "4")
	p.wait("a piece of four",
		`/^(4|3\.99\d|4\.00\d) × .* in, /.test(document.getElementById("bring-pieces").innerText)`)
	p.keep("bring-inches")
}

// Letters that the program's fonts lack are drawn by the browser: the printed pages have them, and nothing is said to
// be left out.
func TestTitlesInOtherLetters(t *testing.T) {
	p := open(t, how{used: true})
	p.fill("#title", "Цапля 鷺")
	p.settled()
	p.click("[data-step=make] .step-head")
	p.click("#job")
	path := p.download("*-job.pdf")
	text := printed(t, path)
	for _, want := range []string{"Цапля", "鷺"} {
		if !strings.Contains(text, want) {
			t.Errorf("the job sheet does not say %q", want)
		}
	}
	fonts, err := exec.Command("pdffonts", path).Output()
	if err != nil {
		t.Fatal(err)
	}
	rows := strings.Split(strings.TrimSpace(string(fonts)), "\n")
	if len(rows) < 3 {
		t.Fatalf("the job sheet has no fonts:\n%s", fonts)
	}
	for _, row := range rows[2:] {
		if !strings.Contains(row, "yes") || strings.Contains(row, " no  no ") {
			t.Errorf("a font is not embedded: %s", row)
		}
	}
}
