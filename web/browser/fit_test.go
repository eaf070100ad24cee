package browser

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/fit"
	"openwork/pattern/sheet"
)

// fitted waits for the fits of groups, as their pictures say it.
func (p *tab) fitted(symbols ...string) {
	p.t.Helper()
	for _, symbol := range symbols {
		p.wait("the fit of "+symbol, fmt.Sprintf(
			`(() => { const card = document.querySelector('.group[data-symbol="%s"]');
			return /^\d+ %%$/.test(card.innerText.split("\n").at(-1)) &&
				/%% open, gaps from 3 to .* it holds/.test(card.title); })()`, symbol))
	}
}

// keepsBridge holds the draft on the bench: nothing overlaps, and nothing is nearer than the bridge, by the page's
// verdict and by the check of the cell.
func (p *tab) keepsBridge(what string) {
	p.t.Helper()
	p.settled()
	if v := p.view(); hasFault(v, "overlap") || hasFault(v, "bridge") {
		p.t.Errorf("%s: the verdict reads %q", what, p.verdict())
	}
	d := p.draft()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		p.t.Fatal(err)
	}
	live := sheet.Check(l, nil)
	if len(live.Overlaps) > 0 || len(live.Bridges) > 0 || !live.Narrowest.Found {
		p.t.Errorf("%s: %d copies overlap, %d come too near", what, len(live.Overlaps), len(live.Bridges))
	}
	if over := live.Narrowest.D - d.Sheet.Bridge; over > 0.01 {
		p.t.Errorf("%s: the narrowest bridge is %.3f mm wider than asked; a tight fit has none to spare", what, over)
	}
}

// wholeCopies leaves copies out that would cross the margin: what is left of them there may come too near to others.
func (p *tab) wholeCopies() {
	p.t.Helper()
	if answer := eval[string](p, `openwork.command('{"name": "edge", "text": "whole"}')`); answer != "{}" {
		p.t.Fatal(answer)
	}
	p.settled()
}

// A drawing is brought in; the groups are fitted to it by themselves, but not while a copy is in the hand, and pressing
// one takes its fit.
func TestFittedGroups(t *testing.T) {
	p := open(t, how{fits: true, before: watchFits})
	p.act("new")
	p.wait("an empty draft", `JSON.parse(openwork.view()).motifs.length === 0`)
	bringOne(t, p)
	p.wholeCopies()
	p.click("[data-step=repeat] .step-head")
	p.fitted("p4", "p6mm", "p4gm")
	p.dragEndsFits()

	former := p.text()
	for _, symbol := range []string{"p4", "p6mm", "p4gm"} {
		p.entry("pressing "+symbol, func() {
			p.click(fmt.Sprintf(`.group[data-symbol="%s"] .group-picture`, symbol))
			p.wait(symbol+" on the bench", fmt.Sprintf(`JSON.parse(openwork.view()).repeat.group === %q`, symbol))
		})
		p.keepsBridge(symbol)
	}
	p.keep("fitted-p4gm")
	for range 3 {
		p.strike("z", control)
	}
	p.wait("what stood there before", fmt.Sprintf(`openwork.save() === %q`, former))

	// Pressed once more, the group has the cell as it was.
	p.click(`.group[data-symbol="p4"] .group-picture`)
	p.wait("p4", `JSON.parse(openwork.view()).repeat.group === "p4" && JSON.parse(openwork.view()).repeat.fitted`)
	p.wait("word of a second press", `/Press p4 once more/.test(document.getElementById("press-note").innerText)`)
	p.click(`.group[data-symbol="p4"] .group-picture`)
	p.wait("p4 with the cell as it was", `!JSON.parse(openwork.view()).repeat.fitted`)
	var was draft.Draft
	if d, err := draft.DecodeBytes([]byte(former)); err == nil {
		was = d
	}
	want, err := pattern.Apply(was, pattern.Command{Name: "group", Text: "p4"})
	if err != nil {
		t.Fatal(err)
	}
	if got := p.draft().Repeat; got != want.Repeat {
		t.Errorf("the cell is %+v, and as it was it would be %+v", got, want.Repeat)
	}

	// In the order of cover the best stands first, and the words say so.
	p.pick("#group-order", "most open first")
	p.wait("the order by cover", `(() => {
		const list = [...document.querySelectorAll(".ranked .cover")].map((e) => parseInt(e.innerText));
		return list.length === 17 && list.every((v, i) => !i || !(v > list[i - 1])); })()`)
	p.wait("word of the best", `(() => { const first = document.querySelector(".ranked .group").dataset.symbol;
		return document.getElementById("group-best").innerText.startsWith(first + " suits best"); })()`)
	p.keep("fitted-by-cover")

	// The cell is kept where a person wants that.
	p.click("#keep-cell")
	p.click(`.group[data-symbol="p2"] .group-picture`)
	p.wait("p2", `JSON.parse(openwork.view()).repeat.group === "p2"`)
	if r := p.draft().Repeat; math.Abs(r.A*r.B-want.Repeat.A*want.Repeat.B) > 0.1 {
		t.Errorf("the cell was to be kept, and is %+v", r)
	}
}

// bringOne brings the drawing of a leaf in on an empty bench.
func bringOne(t *testing.T, p *tab) {
	t.Helper()
	if !eval[bool](p, `document.querySelector("[data-step=silhouettes]").classList.contains("open")`) {
		p.click("[data-step=silhouettes] .step-head")
	}
	p.click("#bring-in")
	p.wait("the dialog", `document.getElementById("bring").open`)
	p.choose("#bring-file", write(t, "leaf.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg" `+
		`width="60mm" height="40mm" viewBox="0 0 60 40">
		<path d="M2 20C10 4 30 2 58 6C50 14 52 22 40 24C44 30 40 36 34 38C30 30 14 34 2 20Z"/></svg>`)))
	p.wait("the outline", `document.querySelectorAll("#bring-outline path").length > 0 &&
		document.getElementById("bring-busy").hidden`)
	p.click("#bring-add")
	p.wait("the silhouette", `!document.getElementById("bring").open &&
		JSON.parse(openwork.view()).motifs.length === 1`)
}

// The row that fits: as tight as can be with the motif upright, as one entry, with the gain in words.
func TestTightestUpright(t *testing.T) {
	p := open(t, how{used: true})
	before := p.lay(draft.Repeat{Group: "p2", A: 90, B: 80, Gamma: 90}, leaning, orb.Point{20, 22})
	p.wholeCopies()
	p.click("#held-open")
	p.click(`#held input[value="turn"]`)
	if said := eval[string](p, `document.getElementById("held-open").innerText`); !containsAll(said, "held: 1") {
		t.Errorf("with the motif held upright the button says %q", said)
	}
	p.entry("Tightest", func() {
		p.click(`[data-find="tightest"]`)
		p.wait("the gain",
			`/^\d+ % more openings, narrowest bridge 3.00 mm/.test(document.getElementById("fit-said").innerText)`)
	})
	p.keepsBridge("the tightest p2")
	d := p.draft()
	if d.Motifs[0].Turn != before.Motifs[0].Turn {
		t.Errorf("the motif was held upright, and is turned to %g°", d.Motifs[0].Turn)
	}
	if d.Repeat.Group != "p2" || d.Repeat.Cell().Area() > 0.7*before.Repeat.Cell().Area() {
		t.Errorf("of a cell of %.0f mm² it makes one of %.0f", before.Repeat.Cell().Area(), d.Repeat.Cell().Area())
	}
	if undo := p.view().Undo; undo != "fit: tightest in p2" {
		t.Errorf("undo is called %q", undo)
	}
	p.keep("tightest-upright")

	// There is nothing more to gain by the same.
	fitted := p.text()
	p.click(`[data-find="tightest"]`)
	p.wait("word that there is nothing better",
		`/Nothing tighter was found in p2 with what is held/.test(document.getElementById("fit-said").innerText)
		|| openwork.save() !== `+fmt.Sprintf("%q", fitted))
	if again := p.draft(); again.Repeat.Cell().Area() < 0.98*d.Repeat.Cell().Area() {
		t.Errorf("a fit of a fit gains %.1f %%", 100*(d.Repeat.Cell().Area()/again.Repeat.Cell().Area()-1))
	}
}

// The search is measured in work, not in time: what the browser finds is what this machine's own program finds, to the
// last digit.
func TestFitIsTheSameInTheBrowser(t *testing.T) {
	p := open(t, how{used: true})
	outline := orb.MultiPolygon{{{{-20, -12}, {14, -15}, {22, 3}, {6, 4}, {11, 17}, {-9, 8}, {-20, -12}}}}
	for _, c := range []struct {
		group string
		find  fit.Find
		hold  string
	}{{"p1", fit.Tightest, ""}, {"p2gg", fit.Tightest, ""}, {"p4gm", fit.Tightest, ""}, {"p6", fit.Tightest, ""},
		{"c2mm", fit.Largest, ""}, {"p31m", fit.Evenest, ""}, {"p2", fit.Tightest, "turn"}} {
		t.Run(c.group+" "+string(c.find), func(t *testing.T) {
			d := draft.Default()
			d.Repeat = draft.Repeat{Group: c.group, A: 160, B: 160, Gamma: 90}
			if strings.HasPrefix(c.group, "p3") || strings.HasPrefix(c.group, "p6") {
				d.Repeat.Gamma = 120
			}
			d.Silhouettes = []draft.Silhouette{{ID: "s", Name: "Leaf", Outline: outline}}
			d.Motifs = []draft.Motif{{ID: "m", Silhouette: "s", At: [2]float64{50, 25}, Scale: 1}}
			const effort, seed = 2, 7
			hold, err := fit.ParseHold(c.hold)
			if err != nil {
				t.Fatal(err)
			}
			want, err := fit.Fit(&fit.Question{Draft: d, Find: c.find, Hold: hold, Effort: effort, Seed: seed}, nil)
			if err != nil {
				t.Fatal(err)
			}

			args, err := json.Marshal(map[string]any{"draft": string(d.Encode()), "find": c.find, "hold": c.hold,
				"effort": effort, "seed": seed})
			if err != nil {
				t.Fatal(err)
			}
			answer := eval[string](p, fmt.Sprintf(`(async () => {
				const program = await WebAssembly.compileStreaming(fetch("engine.wasm"));
				const worker = new Worker("worker.js");
				const answer = await new Promise((resolve) => {
					worker.onmessage = ({data}) => {
						if (data.ready) worker.postMessage({id: 1, verb: "fit", args: %s});
						else if (data.part === undefined) resolve(data.json ?? data.error ?? data.gone);
					};
					worker.postMessage({module: program});
				});
				worker.terminate();
				return answer;
			})()`, args))
			var got []struct {
				Cover float64         `json:"cover"`
				Draft json.RawMessage `json:"draft"`
			}
			if err := json.Unmarshal([]byte(answer), &got); err != nil {
				t.Fatalf("the browser answers %.200s", answer)
			}
			if len(got) != len(want) {
				t.Fatalf("the browser finds %d, this machine %d", len(got), len(want))
			}
			for i, a := range want {
				there, err := draft.DecodeBytes(got[i].Draft)
				if err != nil {
					t.Fatal(err)
				}
				if string(there.Encode()) != string(a.Draft.Encode()) || got[i].Cover != a.Cover {
					t.Errorf("answer %d: cover %v in the browser and %v here, cells %+v and %+v", i, got[i].Cover,
						a.Cover, there.Repeat, a.Draft.Repeat)
				}
			}
		})
	}
}

// On a phone a group can be pressed the moment its step opens, before its pictures are there: it is still fitted.
func TestGroupPressedAtOnce(t *testing.T) {
	p := open(t, how{width: 390, height: 844})
	p.settled()
	eval[bool](p, `(() => {
		document.getElementById("draw-up").click();
		const head = document.querySelector("[data-step=repeat] .step-head");
		if (head.getAttribute("aria-expanded") !== "true") head.click();
		document.querySelector('.group[data-symbol="p2"] input').click();
		return true;
	})()`)
	p.wait("the group p2, fitted",
		`(({group, fitted}) => group === "p2" && fitted)(JSON.parse(openwork.view()).repeat)`)
	if said := eval[string](p, `document.getElementById("alarm").textContent.trim()`); said != "" {
		t.Errorf("the page says %q", said)
	}
}
