package browser

import (
	"math"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"

	"openwork/pattern/draft"
)

// rounding of a link's coordinates, mm.
const linkGrid = 0.01

// passOn copies the link and opens it on another machine: a browser with empty storage.
func passOn(t *testing.T, p *tab) {
	t.Helper()
	for _, permission := range []string{"clipboard-read", "clipboard-write"} {
		p.do("allow the clipboard", func() error {
			_, err := chromedp.CallBrowser(p.ctx, browser.SetPermission, browser.SetPermissionParams{
				Permission: &browser.PermissionDescriptor{Name: permission}, Setting: browser.PermissionSettingGranted,
				Origin: bench.site.URL, BrowserContextID: p.context()})
			return err
		})
	}
	p.click("#copy-link")
	p.wait("word of the link", `/link copied/i.test(document.getElementById("notice").innerText)`)
	address := eval[string](p, `navigator.clipboard.readText()`)
	fragment, ok := strings.CutPrefix(address, bench.site.URL+"/")
	if !ok || !strings.HasPrefix(fragment, "#") {
		t.Fatalf("the link reads %q; it should be the page's address and a fragment", address)
	}
	mine := p.draft()
	other := open(t, how{fragment: fragment})
	other.wait("word of the link's draft", `/link/i.test(document.getElementById("notice").innerText)`)
	if !sameDraft(t, mine, other.draft()) {
		t.Errorf("the link opened another draft:\n%s\ninstead of\n%s", other.text(), p.text())
	}
	if hash := eval[string](other, `location.hash`); hash != "" {
		t.Errorf("the address still holds the link after opening it: a reload would throw away what is done next")
	}
}

// sameDraft compares two drafts; outlines and places may differ by the rounding of a link.
func sameDraft(t *testing.T, a, b draft.Draft) bool {
	t.Helper()
	close := func(x, y float64) bool { return math.Abs(x-y) <= linkGrid/2+1e-9 }
	if a.Title != b.Title || a.Units != b.Units || a.Panel != b.Panel || a.Field != b.Field || a.Repeat != b.Repeat ||
		len(a.Silhouettes) != len(b.Silhouettes) || len(a.Motifs) != len(b.Motifs) {
		return false
	}
	x, y := a.Sheet, b.Sheet
	x.Bed, y.Bed = nil, nil
	if x != y {
		return false
	}
	for i, m := range a.Motifs {
		n := b.Motifs[i]
		if !close(m.At[0], n.At[0]) || !close(m.At[1], n.At[1]) || !close(m.Turn, n.Turn) ||
			math.Abs(m.Scale-n.Scale) > 1e-3 ||
			m.Mirrored != n.Mirrored || nameOf(a, m.Silhouette) != nameOf(b, n.Silhouette) {
			return false
		}
	}
	for i, s := range a.Silhouettes {
		u := b.Silhouettes[i]
		if s.Name != u.Name || len(s.Outline) != len(u.Outline) {
			return false
		}
		for j, polygon := range s.Outline {
			for k, ring := range polygon {
				if len(u.Outline[j]) <= k || len(u.Outline[j][k]) != len(ring) {
					return false
				}
				for n, v := range ring {
					if w := u.Outline[j][k][n]; !close(v[0], w[0]) || !close(v[1], w[1]) {
						return false
					}
				}
			}
		}
	}
	return true
}

func nameOf(d draft.Draft, id string) string {
	s, _ := d.Silhouette(id)
	return s.Name
}
