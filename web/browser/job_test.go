package browser

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
)

// The whole job in one go, in the order in which a painter does it.
func TestMainJob(t *testing.T) {
	p := open(t, how{width: 1440, height: 900}) // hatching is counted in what overlaps: that needs pixels
	if v := p.view(); len(v.Motifs) < 2 {
		t.Fatalf("the page should start on the demonstration; it shows %d motifs", len(v.Motifs))
	}
	bringIn(t, p)
	chooseGroup(p, "p2")
	// In p2 the demonstration's two lie over each other. Give all three room where half-turns leave it, so that nothing
	// overlaps before the drag.
	cell(p, 330, 264)
	set(p, "Heron", -82.5, 0)
	set(p, "Carp", -82.5, 132)
	set(p, "carp-scan", 0, 66)
	widen(p, "nothing to overlap", func(v view) bool { return !hasFault(v, "overlap") })
	runTogether(t, p)
	widen(p, "the sheet to hold", func(v view) bool { return v.Verdict.State == "holds" })
	if words := p.verdict(); !strings.Contains(words, "holds") {
		t.Errorf("the verdict of a sound sheet reads %q", words)
	}
	p.whole()
	p.keep("job-holds")
	passOn(t, p)
	cutFile(t, p)
}

// bringIn brings a scan in through the file field of the dialog, takes the largest piece, and adds it.
func bringIn(t *testing.T, p *tab) {
	t.Helper()
	before := p.view()
	path := carpScan(t, p)
	if !eval[bool](p, `document.querySelector("[data-step=silhouettes]").classList.contains("open")`) {
		p.click("[data-step=silhouettes] .step-head")
	}
	p.click("#bring-in")
	p.wait("the dialog", `document.getElementById("bring").open`)
	p.choose("#bring-file", path)
	p.wait("the outline over the scan",
		`document.querySelectorAll("#bring-outline path").length > 0 && document.getElementById("bring-busy").hidden`)
	p.keep("job-bring-in")
	size := eval[string](p, `document.querySelector("#bring-pieces label").innerText`)
	carp, _ := p.draft().Silhouette("carp")
	b := carp.Outline.Bound()
	var w, h float64
	if _, err := fmt.Sscanf(size, "%f × %f mm", &w, &h); err != nil || math.Abs(w-(b.Max[0]-b.Min[0])) > 1 ||
		math.Abs(h-(b.Max[1]-b.Min[1])) > 1 {
		t.Errorf("the piece reads %q; the drawing is %.1f × %.1f mm", size, b.Max[0]-b.Min[0], b.Max[1]-b.Min[1])
	}
	// The largest piece stands first; the rest is left out.
	n := eval[int](p, `document.querySelectorAll("#bring-pieces input").length`)
	for i := range n {
		want := i == 0
		if eval[bool](p, fmt.Sprintf(`document.querySelector('#bring-pieces [data-index="%d"]').checked`, i)) != want {
			p.click(fmt.Sprintf(`#bring-pieces [data-index="%d"]`, i))
		}
	}
	p.pick("#bring-mode", "Add it to the demonstration")
	p.click("#bring-add")
	p.wait("the new silhouette", fmt.Sprintf(`!document.getElementById("bring").open &&
		JSON.parse(openwork.view()).silhouettes.length === %d`, len(before.Silhouettes)+1))
	if v := p.view(); len(v.Motifs) != len(before.Motifs)+1 || v.Selected != v.Motifs[len(v.Motifs)-1].ID {
		t.Errorf("the newcomer should stand in the cell and be in hand; there are %d motifs, in hand is %q",
			len(v.Motifs), v.Selected)
	}
	p.settled()
}

// chooseGroup presses the picture of a group.
func chooseGroup(p *tab, symbol string) {
	p.t.Helper()
	if !eval[bool](p, `document.querySelector("[data-step=repeat]").classList.contains("open")`) {
		p.click("[data-step=repeat] .step-head")
	}
	picture := fmt.Sprintf(`.group[data-symbol="%s"] .group-picture`, symbol)
	p.wait("the group's picture",
		fmt.Sprintf(`document.querySelector('%s > span').style.maskImage.startsWith("url")`, picture))
	p.click(picture)
	p.wait("the group "+symbol, fmt.Sprintf(`JSON.parse(openwork.view()).repeat.group === %q &&
		document.querySelector('.group[data-symbol="%s"] input').checked`, symbol, symbol))
	p.settled()
}

// set takes a motif in hand by its name and types its place.
func set(p *tab, motif string, x, y float64) {
	p.t.Helper()
	p.pick("#hand-motif", motif)
	p.wait(motif+" in hand", fmt.Sprintf(`(() => { const v = JSON.parse(openwork.view());
		return v.motifs.find((m) => m.id === v.selected)?.name === %q; })()`, motif))
	p.fill(`[data-field="place.x"]`, fmt.Sprint(x))
	p.fill(`[data-field="place.y"]`, fmt.Sprint(y))
	p.wait(motif+" in its place", fmt.Sprintf(`JSON.parse(openwork.view()).motifs.some((m) => m.name === %q &&
		m.x === %g && m.y === %g)`, motif, x, y))
}

func hasFault(v view, kind string) bool {
	for _, f := range v.Faults {
		if f.Kind == kind && f.Severity == "fault" {
			return true
		}
	}
	return false
}

// cell types a size into the cell's fields.
func cell(p *tab, a, b float64) {
	p.t.Helper()
	p.fill(`[data-field="cell.a"]`, fmt.Sprint(a))
	p.fill(`[data-field="cell.b"]`, fmt.Sprint(b))
	p.wait("the cell typed", fmt.Sprintf(`(() => { const r = JSON.parse(openwork.view()).repeat; return r.a === %g &&
		r.b === %g; })()`, a, b))
}

// widen types larger and larger cells into the cell's fields until enough(view).
func widen(p *tab, what string, enough func(view) bool) {
	p.t.Helper()
	p.settled()
	for range 12 {
		v := p.view()
		if enough(v) {
			return
		}
		cell(p, math.Round(v.Repeat.A+30), math.Round(v.Repeat.B+26))
		p.settled()
	}
	p.t.Fatalf("the cell was widened to %.0f × %.0f mm, waiting for %s; the verdict still reads %q", p.view().Repeat.A,
		p.view().Repeat.B, what, p.verdict())
}

// runTogether drags a copy that is not the first of its motif into another, sees that the page says and shows so while
// the hand still holds it and after, and takes it back.
func runTogether(t *testing.T, p *tab) {
	t.Helper()
	p.strike("Escape", 0)
	s := p.whole()
	before, was := p.text(), p.view()
	c := collide(t, p.draft(), s)
	fault := p.colour("fault")
	clear := p.shot()
	p.press(c.from)
	p.pull(c.from, c.to, 8)
	p.wait("the verdict of two silhouettes that run into each other",
		`/overlap/.test(document.getElementById("verdict-line").textContent) &&
		document.getElementById("foot").dataset.state === "fails"`)
	p.keep("job-dragging")
	during := field(t, p.draft())
	places := shared(s, during[c.taken.name], during[c.other.name])
	if len(places) < 30 {
		t.Fatalf("the drag brought the two copies over each other in %d px only", len(places))
	}
	if hatched := p.share(places, fault); hatched < 0.2 || hatched > 0.8 {
		t.Errorf("%.0f %% of the overlap shows the colour of faults; hatching covers about four tenths", 100*hatched)
	}
	for _, at := range places {
		r, g, b, _ := clear.At(int(at.x), int(at.y)).RGBA()
		if near(r, fault.R, 10) && near(g, fault.G, 10) && near(b, fault.B, 10) {
			t.Errorf("the place of the overlap showed the colour of faults before the drag, at %v", at)
			break
		}
	}
	p.release(c.to)
	p.settled()
	if words := p.verdict(); !strings.Contains(words, "overlap") {
		t.Errorf("two silhouettes run into each other, and the verdict reads %q", words)
	}
	if !hasFault(p.view(), "overlap") {
		t.Errorf("the list of faults has no overlap")
	}
	// The copy in hand went with the hand, whichever operation carries it.
	after := field(t, p.draft())[c.taken.name]
	want := orb.Point{(c.to.x - c.from.x) / s.zoom, -(c.to.y - c.from.y) / s.zoom}
	have := orb.Point{after.bound.Min[0] - c.taken.bound.Min[0], after.bound.Min[1] - c.taken.bound.Min[1]}
	if math.Hypot(have[0]-want[0], have[1]-want[1]) > 0.01 {
		t.Errorf("the hand went by %.3f mm, the copy by %.3f", want, have)
	}
	moved := p.text()
	p.strike("z", control)
	p.wait("the draft as it was", fmt.Sprintf(`openwork.save() === %q`, before))
	v := p.view()
	if v.Undo != was.Undo || v.Redo == "" {
		t.Errorf("one gesture should be one entry: before the drag Undo was %q, "+
			"after taking it back it is %q and Redo %q", was.Undo, v.Undo, v.Redo)
	}
	p.strike("z", control|shift)
	p.wait("the drag again", fmt.Sprintf(`openwork.save() === %q`, moved))
	p.strike("z", control)
	p.settled()
}

// cutFile downloads the cut file by the Make step and reads it with other readers.
func cutFile(t *testing.T, p *tab) {
	t.Helper()
	p.click("[data-step=make] .step-head")
	p.settled()
	v := p.view()
	if v.Counts == nil || v.Counts.Openings == 0 {
		t.Fatalf("the check counted no openings: %+v", v.Counts)
	}
	counted := eval[string](p,
		`[...document.querySelectorAll("#counts > div")]
			.find((e) => e.querySelector("dt").textContent === "openings")
			.querySelector("dd").textContent`)
	if strings.ReplaceAll(counted, ",", "") != fmt.Sprint(v.Counts.Openings) {
		t.Errorf("the page says %s openings, the check counted %d", counted, v.Counts.Openings)
	}
	p.click("#cut")
	if eval[bool](p, `document.getElementById("ask").open`) {
		t.Errorf("the page asks before it makes the cut file of a sheet that holds")
	}
	path := p.download("*.svg")
	readCut(t, path, p.draft(), v.Counts.Openings)
}

// download waits for a file in the tab's downloads and returns its path.
func (p *tab) download(pattern string) string {
	p.t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		whole, err := filepath.Glob(filepath.Join(p.downloads, pattern))
		if err != nil {
			p.t.Fatal(err)
		}
		part, _ := filepath.Glob(filepath.Join(p.downloads, "*.crdownload"))
		if len(whole) > 0 && len(part) == 0 {
			if info, err := os.Stat(whole[0]); err == nil && info.Size() > 0 {
				return whole[0]
			}
		}
	}
	p.t.Fatalf("waited %v for a download %s; the page says %q", patience, pattern, p.said())
	return ""
}
