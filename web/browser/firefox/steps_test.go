package firefox

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"openwork/pattern"
	"openwork/pattern/draft"
)

// The strips of the rulers in CSS px, as the editor has them.
const (
	rulerTop  = 28.0
	rulerLeft = 40.0
)

func decode(t *testing.T, text string) draft.Draft {
	t.Helper()
	got, err := draft.Decode(strings.NewReader(text))
	if err != nil {
		t.Fatalf("the draft cannot be read: %v", err)
	}
	return got
}

// within returns a place on a panel, in mm, that lies well inside a copy, about 80 mm from its middle, where a corner
// of the cell can be taken hold of.
func within(t *testing.T, d draft.Draft) orb.Point {
	t.Helper()
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	copies, err := l.Copies()
	if err != nil {
		t.Fatal(err)
	}
	middle := orb.Point{d.Panel.Width / 2, d.Panel.Height / 2}
	far := func(q orb.Point) float64 { return math.Abs(planar.Distance(q, middle) - 80) }
	best, at := math.Inf(1), orb.Point{}
	for _, c := range copies {
		outline, box := c.Shape().Outline(), c.Bound()
		if planar.Distance(box.Center(), middle) > 200 {
			continue
		}
		inside := func(x, y float64) bool { return planar.MultiPolygonContains(outline, orb.Point{x, y}) }
		for y := box.Min[1]; y < box.Max[1]; y += 2 {
			for x := box.Min[0]; x < box.Max[0]; x += 2 {
				if q := (orb.Point{x, y}); far(q) < best && inside(x, y) && inside(x-3, y) && inside(x+3, y) &&
					inside(x, y-3) && inside(x, y+3) {
					best, at = far(q), q
				}
			}
		}
	}
	if math.IsInf(best, 1) {
		t.Fatal("no copy near the panel's middle is 6 mm thick")
	}
	return at
}

// dragCopy drags a copy by 20 CSS px to the right and 10 up, and takes it back and brings it again.
func (d *driver) dragCopy() {
	d.t.Helper()
	d.click("[data-act=fit]")
	d.settled()
	was := d.draft()
	box := tell[[4]float64](d, `(() => { const r = document.getElementById("bench").getBoundingClientRect();
		return [r.x, r.y, r.width, r.height]; })()`)
	zoom := tell[float64](d, `JSON.parse(openwork.view()).zoom`)
	q := within(d.t, was)
	at := [2]float64{math.Round(box[0] + (box[2]+rulerLeft)/2 + (q[0]-was.Panel.Width/2)*zoom),
		math.Round(box[1] + (box[3]+rulerTop)/2 - (q[1]-was.Panel.Height/2)*zoom)}
	d.drag(at, [2]float64{at[0] + 7, at[1] - 4}, [2]float64{at[0] + 20, at[1] - 10})
	d.settled()

	moved, now := 0, d.draft()
	for i, m := range now.Motifs {
		if by := planar.Distance(orb.Point(m.At), orb.Point(was.Motifs[i].At)); by > 0 {
			moved++
			if want := math.Hypot(20, 10) / zoom; math.Abs(by-want) > 0.01 {
				d.t.Errorf("the hand went by %.3f mm, the copy by %.3f", want, by)
			}
		}
	}
	if moved != 1 {
		d.t.Errorf("%d motifs were moved by one drag", moved)
	}
	d.click("[data-act=undo]")
	d.wait("the draft of before", fmt.Sprintf(`openwork.save() === %q`, was.Encode()))
	d.click("[data-act=redo]")
	d.wait("the drag again", fmt.Sprintf(`openwork.save() === %q`, now.Encode()))
}

// bringIn brings a drawing in by the dialog, and adds it to what is there.
func (d *driver) bringIn() {
	d.t.Helper()
	path := filepath.Join(d.t.TempDir(), "leaf.svg")
	if err := os.WriteFile(path, []byte(leaf), 0o644); err != nil {
		d.t.Fatal(err)
	}
	d.click("[data-step=silhouettes] .step-head")
	d.click("#bring-in")
	d.wait("the dialog", `document.getElementById("bring").open`)
	d.choose("#bring-file", path)
	d.wait("the outline", `document.querySelectorAll("#bring-outline path").length > 0 &&
		document.getElementById("bring-busy").hidden`)
	n := len(d.draft().Silhouettes)
	d.click("#bring-add")
	d.wait("the dialog to close", `!document.getElementById("bring").open`)
	if got := len(d.draft().Silhouettes); got != n+1 && got != 1 {
		d.t.Errorf("%d silhouettes, and one more makes %d", n, got)
	}
	d.settled()
}

// chooseGroup presses the picture of a group.
func (d *driver) chooseGroup(symbol string) {
	d.t.Helper()
	d.click("[data-step=repeat] .step-head")
	picture := fmt.Sprintf(`.group[data-symbol="%s"] .group-picture`, symbol)
	d.wait("the group's picture",
		fmt.Sprintf(`document.querySelector('%s > span').style.maskImage.startsWith("url")`, picture))
	d.click(picture)
	d.wait("the group "+symbol, fmt.Sprintf(`JSON.parse(openwork.view()).repeat.group === %q`, symbol))
	d.settled()
}

// cutFile has the page make the cut file, and holds that it is one of this sheet.
func (d *driver) cutFile(downloads string) {
	d.t.Helper()
	d.settled()
	d.click("#cut")
	d.wait("the file, or a question", `document.getElementById("ask").open ||
		/svg/i.test(document.getElementById("made").innerText)`)
	if tell[bool](d, `document.getElementById("ask").open`) {
		d.click("#ask-yes")
	}
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(100 * time.Millisecond) {
		found, err := filepath.Glob(filepath.Join(downloads, "*.svg"))
		if err != nil {
			d.t.Fatal(err)
		}
		if len(found) == 0 {
			continue
		}
		text, err := os.ReadFile(found[0])
		if err != nil || !strings.HasSuffix(strings.TrimSpace(string(text)), "</svg>") {
			continue // not all of it yet
		}
		want := fmt.Sprintf(`width="%gmm"`, d.draft().Panel.Width+d.draft().Sheet.Kerf) // the beam is outside of it
		if !strings.Contains(string(text), want) || strings.Count(string(text), "<path") < 10 {
			d.t.Errorf("the file has %d paths, and begins %.300q", strings.Count(string(text), "<path"), text)
		}
		return
	}
	d.t.Fatalf("waited %v for the cut file", patience)
}
