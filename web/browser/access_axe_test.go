package browser

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"openwork/geometry/geometrytest"
)

// axe-core is a checker of what a page says to those who do not see it or use no mouse. npm brings it once, into the
// cache folder; nothing of it is kept in this repository. It is licensed under MPL 2.0.
const (
	axeRelease = "axe-core@4.14.1"
	axeFile    = "axe-core-4.14.1.tgz"
	axeSum     = "e6b0ce02b84d892e2e33e403485e7f3d6c29e2be6df65daf44d89ba564139745"
	axeCache   = "../../.cache"
)

// axeScript returns axe-core's program.
func axeScript(t *testing.T) string {
	t.Helper()
	path := filepath.Join(axeCache, axeFile)
	packed, err := os.ReadFile(path)
	if errors.Is(err, os.ErrNotExist) {
		if out, failed := exec.Command("npm", "pack", axeRelease, "--silent", "--pack-destination", axeCache).
			CombinedOutput(); failed != nil {
			t.Fatalf("npm, of the Debian package npm, could not fetch %s: %v: %s", axeRelease, failed, out)
		}
		packed, err = os.ReadFile(path)
	}
	if err != nil {
		t.Fatal(err)
	}
	if sum := sha256.Sum256(packed); hex.EncodeToString(sum[:]) != axeSum {
		t.Fatalf("%s is not the release it should be; remove it and try again", path)
	}

	plain, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	for entries := tar.NewReader(plain); ; {
		entry, err := entries.Next()
		if err != nil {
			t.Fatalf("%s holds no axe.min.js: %v", path, err)
		}
		if entry.Name == "package/axe.min.js" {
			script, err := io.ReadAll(io.LimitReader(entries, 8<<20))
			if err != nil {
				t.Fatal(err)
			}
			return string(script)
		}
	}
}

// look is how the system shows pages.
type look struct {
	name           string
	width, height  int64
	scheme, forced string
	onlyColours    bool // what else is asked does not depend on colours, and was asked before
}

// wear shows the page as the system would in a look.
func (p *tab) wear(l look) {
	p.t.Helper()
	p.do("set what the system shows", func() error {
		_, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: l.scheme},
				{Name: "forced-colors", Value: l.forced}, {Name: "prefers-reduced-motion", Value: "reduce"}}})
		return err
	})
}

// axeRun asks axe-core about the page as it stands: all its rules, and those that it leaves off by itself for the size
// of targets and for names that do not hold the words that are seen; or only those about colours.
const axeRun = `(async (within, onlyColours) => {
	const rules = {"target-size": {enabled: true}, "label-content-name-mismatch": {enabled: true}};
	const options = onlyColours ? {runOnly: ["color-contrast", "link-in-text-block"]} : {rules};
	const {violations} = await axe.run(within, {...options, resultTypes: ["violations"], preload: false});
	const words = (all) => all.map(({message}) => message).join("; ");
	return violations.flatMap(({id, nodes}) => nodes.map(({target, any, all, none}) =>
		id + ": " + target.join(" ") + ": " + words([...any, ...all, ...none])));
})`

// axe fails the test for what axe-core finds in a state of the page.
func (p *tab) axe(state, within string, l look) {
	p.t.Helper()
	for _, found := range eval[[]string](p, fmt.Sprintf("%s(%q, %v)", axeRun, within, l.onlyColours)) {
		p.t.Errorf("%s, %s: %s", state, l.name, found)
	}
}

// looksOf is how the page is gone through at a size: by day with all that axe-core knows, by lamp and in forced colours
// with what depends on colours.
func looksOf(width, height int64) []look {
	return []look{{"by day", width, height, "light", "none", false}, {"by lamp", width, height, "dark", "none", true},
		{"in forced colours", width, height, "dark", "active", true}}
}

// othersNarrow are the parts of the page that a narrow window has in other places, over other grounds. What steps and
// dialogs hold has the same colours there as in a wide one.
var othersNarrow = []string{"html", "#hand", ".head", "#foot", ".notices", "#copies", "#draw"}

// axe-core finds nothing in any state of the page: wide, by day, by lamp or in forced colours, as chance has it for
// each state; every other day narrow too, in the parts that lie elsewhere there. A long run goes through all of it.
func TestAxe(t *testing.T) {
	script := axeScript(t)
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	chance := rand.New(rand.NewPCG(seed, 0))
	p := open(t, how{width: screens[0].width, height: screens[0].height})
	p.settled()
	eval[bool](p, script+";true")
	sizes := screens
	if !geometrytest.Long() && chance.IntN(2) == 0 {
		sizes = screens[:1]
	}
	for _, size := range sizes {
		all := looksOf(size.width, size.height)
		p.resize(size.width, size.height)
		p.wear(all[0])
		everyState(t, p, func(state, within string) {
			narrow := size.name == "narrow" && !geometrytest.Long()
			step := strings.HasPrefix(within, "[data-step")
			looks := all
			if !geometrytest.Long() {
				looks = all[max(0, chance.IntN(5)-2):][:1] // by day three times of five
			}
			for _, l := range looks {
				switch {
				case l.onlyColours && (step || narrow): // the colours of steps are looked at in all of them at once
				case !l.onlyColours && within == "#steps": // which were gone through one by one
				case narrow && !slices.Contains(othersNarrow, within):
				default:
					p.wear(l)
					p.axe(size.name+", "+state, within, l)
				}
			}
			p.wear(all[0])
		})
	}
}
