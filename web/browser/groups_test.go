package browser

import (
	"fmt"
	"testing"
)

// seen is what the page shows of one group's picture.
type seen struct {
	Symbol  string
	Drawn   float64 // part of the picture that is painted, −1 when there is no picture
	Print   string  // of the painted places
	Checked bool
	Outline string
	Text    string
}

// pictures reads the seventeen pictures back from the page: each is drawn on a canvas and looked at.
const pictures = `Promise.all([...document.querySelectorAll("#groups .group")].map(async (group) => {
	const span = group.querySelector(".group-picture > span");
	const out = {Symbol: group.dataset.symbol, Drawn: -1, Print: "", Checked: group.querySelector("input").checked,
		Outline: getComputedStyle(group.querySelector(".group-picture")).outlineStyle, Text: group.innerText};
	const url = /url\("([^"]+)"\)/.exec(span.style.maskImage)?.[1];
	if (!url) return out;
	const image = new Image();
	image.src = url;
	await image.decode();
	const canvas = document.createElement("canvas");
	canvas.width = image.width;
	canvas.height = image.height;
	const pen = canvas.getContext("2d");
	pen.drawImage(image, 0, 0);
	const {data} = pen.getImageData(0, 0, image.width, image.height);
	let n = 0, print = 0;
	for (let i = 3; i < data.length; i += 4) {
		if (data[i] > 127) {
			n++;
			print = (Math.imul(print, 31) + i) | 0;
		}
	}
	out.Drawn = 4 * n / data.length;
	out.Print = String(print);
	return out;
}))`

func TestSeventeenPictures(t *testing.T) {
	p := open(t, how{used: true})
	p.wait("the seventeen pictures",
		`document.querySelectorAll('#groups .group-picture > span[style*="url"]').length === 17`)
	look := func(chosen string) {
		t.Helper()
		prints := map[string]string{}
		list := eval[[]seen](p, pictures)
		if len(list) != 17 {
			t.Fatalf("there are %d pictures", len(list))
		}
		for _, g := range list {
			if g.Drawn < 0.01 || g.Drawn > 0.995 {
				t.Errorf("%s: %.1f %% of the picture is painted", g.Symbol, 100*g.Drawn)
			}
			if other, ok := prints[g.Print]; ok {
				t.Errorf("the pictures of %s and %s are the same", g.Symbol, other)
			}
			prints[g.Print] = g.Symbol
			if g.Checked != (g.Symbol == chosen) || (g.Outline == "solid") != (g.Symbol == chosen) {
				t.Errorf("%s: chosen %v, outline %q; the draft's group is %s", g.Symbol, g.Checked, g.Outline, chosen)
			}
			if !containsAll(g.Text, g.Symbol) {
				t.Errorf("the picture of %s is captioned %q", g.Symbol, g.Text)
			}
		}
	}
	look(p.view().Repeat.Group)
	// Families that bind the cell, chosen by their pictures.
	const hexagonal = `document.querySelector('.group[data-symbol="p6"] .group-picture > span').style.maskImage`
	old := eval[string](p, hexagonal)
	for _, symbol := range []string{"p4mm", "p6"} {
		p.click(fmt.Sprintf(`.group[data-symbol="%s"] .group-picture`, symbol))
		p.wait("the group "+symbol, fmt.Sprintf(`JSON.parse(openwork.view()).repeat.group === %q`, symbol))
	}
	v := p.view()
	if v.Repeat.A != v.Repeat.B || v.Repeat.Gamma != 120 {
		t.Errorf("p6 needs a hexagonal cell; it is %g × %g mm at %g°", v.Repeat.A, v.Repeat.B, v.Repeat.Gamma)
	}
	if !eval[bool](p, `document.querySelector('[data-field="cell.b"]').disabled &&
		document.querySelector('[data-field="cell.gamma"]').disabled`) {
		t.Error("what the hexagonal family binds can still be typed")
	}
	p.wait("new pictures for the new cell", fmt.Sprintf("%s !== %q", hexagonal, old))
	look("p6")
}

// tabTo strikes Tab until an element has the focus.
func (p *tab) tabTo(selector string) {
	p.t.Helper()
	const most = 120
	for range most {
		if eval[bool](p, fmt.Sprintf(`document.activeElement?.matches(%q)`, selector)) {
			if !eval[bool](p, `(() => { const r = document.activeElement.getBoundingClientRect(); return r.width > 0 &&
				r.height > 0; })()`) {
				p.t.Errorf("%s has the focus and cannot be seen", selector)
			}
			return
		}
		p.strike("Tab", 0)
	}
	p.t.Fatalf("%d strikes of Tab do not lead to %s; the focus is on %s", most, selector,
		eval[string](p, `document.activeElement?.outerHTML.slice(0, 120) ?? ""`))
}

// The keyboard alone does the job: no pointer is used here.
func TestKeyboardAlone(t *testing.T) {
	p := open(t, how{})
	p.settled()
	// A group, by arrows inside the one stop of the seventeen.
	p.tabTo("#groups input[name=group]")
	first := p.view().Repeat.Group
	p.strike("ArrowRight", 0)
	p.wait("the next group", fmt.Sprintf(`JSON.parse(openwork.view()).repeat.group !== %q`, first))
	p.strike("ArrowLeft", 0)
	p.wait("the first group again", fmt.Sprintf(`JSON.parse(openwork.view()).repeat.group === %q`, first))
	// The panel: take a motif up, move it, leave.
	p.tabTo("#bench")
	p.strike("n", 0)
	p.wait("a motif in hand", `JSON.parse(openwork.view()).selected !== ""`)
	before := p.text()
	p.strike("ArrowRight", 0)
	p.wait("the motif to move", fmt.Sprintf(`openwork.save() !== %q`, before))
	p.strike("Tab", 0)
	if eval[bool](p, `document.activeElement.closest("#bench") !== null`) {
		t.Fatal("Tab does not lead out of the panel")
	}
	p.strike("Tab", shift)
	p.strike("Tab", shift)
	if eval[bool](p, `document.activeElement.closest("#bench") !== null`) {
		t.Fatal("Shift and Tab do not lead out of the panel")
	}
	// A fault: pull the cell together until bridges are too thin, then go to the list, to a fault, and to the mend.
	p.settled()
	v := p.view()
	p.tabTo(`[data-field="cell.b"]`)
	for range 12 {
		p.hold("ArrowDown", 0, 3)
		p.strike("Enter", 0)
		p.wait("a lower cell", fmt.Sprintf(`JSON.parse(openwork.view()).repeat.b < %g`, v.Repeat.B))
		p.settled()
		if v = p.view(); v.Verdict.State == "fails" && hasFault(v, "bridge") {
			break
		}
	}
	if !hasFault(v, "bridge") || v.Repeat.B < 20 {
		t.Fatalf("a cell of %g × %g mm has no thin bridge: %s", v.Repeat.A, v.Repeat.B, v.Verdict.Line)
	}
	p.tabTo("#fault-which")
	p.strike("Enter", 0)
	p.wait("the list of faults",
		`!document.getElementById("fault-list").hidden && document.activeElement.closest("#faults")`)
	p.strike("Enter", 0)
	p.wait("the fault to be shown",
		`JSON.parse(openwork.view()).fault === 0 && document.querySelector('#faults [aria-current="true"]')`)
	p.strike("Escape", 0)
	p.wait("the list to close", `document.getElementById("fault-list").hidden`)
	p.wait("the mend", `!document.getElementById("mend").hidden`)
	p.tabTo("#mend")
	offer := eval[string](p, `document.getElementById("mend").innerText`)
	before = p.text()
	p.strike("Enter", 0)
	p.wait("the mend "+offer, fmt.Sprintf(`openwork.save() !== %q`, before))
	p.settled()
	if v := p.view(); hasFault(v, "bridge") || hasFault(v, "overlap") {
		t.Errorf("after the mend %q the verdict reads %q", offer, p.verdict())
	}
}
