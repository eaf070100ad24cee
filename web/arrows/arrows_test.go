package arrows

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// graphOf asks Go for all packages of the module and what they reach, for one system.
func graphOf(t *testing.T, system, processor string) (Graph, string) {
	t.Helper()
	list := func(args ...string) []byte {
		cmd := exec.Command("go", append([]string{"list"}, args...)...)
		cmd.Dir = "../.."
		cmd.Env = append(os.Environ(), "GOOS="+system, "GOARCH="+processor, "CGO_ENABLED=0")
		var complaints bytes.Buffer
		cmd.Stderr = &complaints
		out, err := cmd.Output()
		if err != nil {
			t.Fatalf("go list %s: %v\n%s", strings.Join(args, " "), err, complaints.String())
		}
		return out
	}
	module := strings.TrimSpace(string(list("-m")))
	graph := Graph{}
	stream := json.NewDecoder(bytes.NewReader(list("-e", "-deps",
		"-json=ImportPath,Standard,Imports,TestImports,XTestImports", "./...")))
	for {
		var p Package
		if err := stream.Decode(&p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
		graph[p.ImportPath] = p
	}
	return graph, module
}

func TestImportsRunDownwards(t *testing.T) {
	for _, on := range []struct {
		system, processor string
		rules             []Rule
	}{
		{"linux", "amd64", append([]Rule{Draftless}, Floors...)},
		{"js", "wasm", append([]Rule{Draftless, Editor}, Floors...)},
	} {
		t.Run(on.system, func(t *testing.T) {
			graph, module := graphOf(t, on.system, on.processor)
			for _, b := range Breaks(graph, module, on.rules) {
				t.Error(b)
			}
			for _, rule := range on.rules {
				held := 0
				for path := range graph {
					if rule.holds(module, path) {
						held++
					}
				}
				t.Logf("%d packages held by: %s", held, rule.Why)
			}
			if len(graph) < 50 || len(graph[module+"/pattern"].Imports) == 0 {
				t.Errorf("the graph has %d packages, and pattern imports %d: it cannot be the whole one",
					len(graph), len(graph[module+"/pattern"].Imports))
			}
		})
	}
}

// The rule on what needs no draft is one list beside the floors, so that it is held against a made-up house here.
func TestWhatNeedsNoDraft(t *testing.T) {
	for _, c := range []struct {
		name, house, want string
	}{
		{"all is well", "m/pattern/paper/pdf: m/geometry\nm/pattern/study: m/pattern m/pattern/paper/pdf", ""},
		{"PDF knows the draft", "m/pattern/paper/pdf: m/pattern", "m/pattern/paper/pdf → m/pattern"},
		{"the pen's test knows the draft", "m/geometry/pen test: m/pattern", "m/geometry/pen → m/pattern"},
		{"progress knows the draft by way of a stranger", "m/pattern/progress: m/x\nm/x: m/pattern",
			"m/pattern/progress → m/x → m/pattern"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var ways []string
			for _, b := range Breaks(draw(c.house), "m", []Rule{Draftless}) {
				ways = append(ways, strings.Join(b.Path, " → "))
			}
			if got := strings.Join(ways, "; "); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

// draw makes a graph from lines "a: b c" (a imports b and c; "a test: b" for its tests). Paths without a dot or "m/"
// are Go's own library.
func draw(text string) Graph {
	g := Graph{}
	for line := range strings.Lines(text) {
		name, imports, ok := strings.Cut(strings.TrimSpace(line), ":")
		if !ok {
			continue
		}
		name, test := strings.CutSuffix(name, " test")
		p := g[name]
		p.ImportPath = name
		p.Standard = !strings.Contains(name, ".") && !strings.HasPrefix(name, "m/") && name != "m"
		if test {
			p.TestImports = strings.Fields(imports)
		} else {
			p.Imports = strings.Fields(imports)
		}
		g[name] = p
	}
	return g
}

// sound is a made-up house in which all is well, with everything in it that a rule speaks of.
const sound = `
	m/geometry: math github.com/paulmach/orb
	m/geometry/offset: m/geometry github.com/tdewolff/canvas
	m/geometry/offset: m/geometry m/geometry/offset
	m/pattern/symmetry: m/geometry
	m/pattern: m/geometry m/pattern/symmetry encoding/json
	m/pattern/sheet: m/pattern m/pattern/symmetry m/geometry m/geometry/offset
	m/pattern/outline: m/geometry
	m/pattern/scan: m/pattern/outline image/png
	m/pattern/svgin: m/pattern/outline encoding/xml
	m/pattern/trace: m/pattern/scan m/pattern/svgin m/pattern/outline
	m/pattern/link: m/pattern
	m/pattern/cutfile: m/pattern/sheet m/geometry/offset
	m/pattern/study: m/pattern/sheet github.com/fogleman/gg
	m/wasm/editor: m/pattern github.com/hajimehoshi/ebiten/v2 syscall/js
	m/wasm/engine: m/pattern/cutfile m/pattern/study m/pattern/trace m/pattern/link syscall/js
	m/web: embed
	m/web/serve: m/web net/http
	m/web/browser test: m/pattern/cutfile github.com/chromedp/chromedp
	net/http: syscall/js
	syscall: syscall/js
	math: syscall
	github.com/hajimehoshi/ebiten/v2: image syscall/js
	github.com/tdewolff/canvas: image/png encoding/xml
`

func TestBreaks(t *testing.T) {
	rules := append([]Rule{Editor}, Floors...)
	for _, c := range []struct {
		name string
		add  string // lines that take the place of the sound ones
		want string // the ways of the breaks; empty for none
	}{
		{"all is well", "", ""},
		{"an empty house", "-", ""},
		{"geometry knows the draft", "m/geometry: m/pattern", "m/geometry → m/pattern"},
		{"geometry's test knows the draft", "m/geometry/offset test: m/pattern", "m/geometry/offset → m/pattern"},
		{"geometry knows the draft by way of a stranger",
			"m/geometry/offset: example.org/x\nexample.org/x: m/pattern/link",
			"m/geometry/offset → example.org/x → m/pattern/link; m/pattern/cutfile → m/geometry/offset → " +
				"example.org/x → m/pattern/link"},
		{"pattern knows the page", "m/pattern/study: m/web/serve",
			"m/pattern/study → m/web/serve; m/wasm/engine → m/pattern/study → m/web/serve"},
		{"pattern's test knows the engine", "m/pattern/cutfile test: m/wasm/engine",
			"m/pattern/cutfile → m/wasm/engine; m/pattern/cutfile → m/wasm/engine → syscall/js"},
		{"a program knows the page", "m/wasm/engine: m/web", "m/wasm/engine → m/web"},
		{"the server knows geometry", "m/web/serve: m/geometry", "m/web/serve → m/geometry"},
		{"ebiten in pattern", "m/pattern/study: github.com/hajimehoshi/ebiten/v2",
			"m/pattern/study → github.com/hajimehoshi/ebiten/v2"},
		{"ebiten's lower floors in web", "m/web/serve: github.com/hajimehoshi/ebiten/v2/vector",
			"m/web/serve → github.com/hajimehoshi/ebiten/v2/vector"},
		{"syscall/js in geometry", "m/geometry: syscall/js", "m/geometry → syscall/js"},
		{"syscall/js by way of a stranger", "m/pattern/scan: example.org/x\nexample.org/x: syscall/js",
			"m/pattern/scan → example.org/x → syscall/js"},
		{"syscall/js by way of Go's library", "m/pattern/study: net/http", ""},
		{"symmetry knows the draft", "m/pattern/symmetry: m/pattern/link\nm/pattern/link: m/geometry",
			"m/pattern/symmetry → m/pattern/link; m/pattern/cutfile → m/pattern/sheet → m/pattern/symmetry → " +
				"m/pattern/link"},
		{"the draft knows the sheet",
			"m/pattern: m/pattern/sheet\nm/pattern/sheet: m/geometry\nm/wasm/editor: math\nm/pattern/link: m/geometry",
			"m/pattern → m/pattern/sheet"},
		{"the sheet knows the cut file", "m/pattern/sheet: m/pattern/cutfile\nm/pattern/cutfile: m/geometry",
			"m/pattern/sheet → m/pattern/cutfile"},
		{"a scan knows links", "m/pattern/scan: m/pattern/link", "m/pattern/scan → m/pattern/link"},
		{"a scan knows the draft", "m/pattern/scan: m/pattern", "m/pattern/scan → m/pattern"},
		{"a scan knows SVG", "m/pattern/scan: m/pattern/svgin", "m/pattern/scan → m/pattern/svgin"},
		{"the cut file knows the study", "m/pattern/cutfile: m/pattern/study", "m/pattern/cutfile → m/pattern/study"},
		{"the editor links canvas", "m/wasm/editor: github.com/tdewolff/canvas\ngithub.com/tdewolff/canvas: math",
			"m/wasm/editor → github.com/tdewolff/canvas"},
		{"the editor links a picture library by way of Go's own", "m/wasm/editor: net/http\nnet/http: image/png",
			"m/wasm/editor → net/http → image/png"},
		{"the editor links the overlay by way of the sheet",
			"m/wasm/editor: m/pattern/sheet\nm/pattern/sheet: m/geometry/offset\nm/geometry/offset: m/geometry",
			"m/wasm/editor → m/pattern/sheet → m/geometry/offset"},
		{"the editor's test may", "m/wasm/editor test: image/png", ""},
		{"a name that only begins alike", "m/geometryx: m/pattern\nm/patternx: m/web", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			graph := draw(sound)
			if c.add == "-" {
				graph = Graph{}
			}
			for name, p := range draw(c.add) {
				old := graph[name]
				if p.TestImports != nil {
					p.Imports = old.Imports
				}
				graph[name] = p
			}
			var ways []string
			for _, b := range Breaks(graph, "m", rules) {
				ways = append(ways, strings.Join(b.Path, " → "))
			}
			if got := strings.Join(ways, "; "); got != c.want {
				t.Errorf("got  %q\nwant %q", got, c.want)
			}
		})
	}
}

// TestAllowedHaveTheirOwnRule holds up what the walk relies on when it stops at an allowed package.
func TestAllowedHaveTheirOwnRule(t *testing.T) {
	for _, rule := range Floors {
		for _, allowed := range rule.Allow {
			held := slices.ContainsFunc(Floors, func(r Rule) bool {
				return slices.Contains(r.From, allowed) &&
					(len(r.Allow) > 0 || slices.Contains(r.Forbid, "./pattern/..."))
			})
			if !held {
				t.Errorf("%s: %s is allowed, and no rule holds it from the floors above", rule.Why, allowed)
			}
		}
	}
}

func TestEveryBreakIsTold(t *testing.T) {
	breaks := Breaks(draw("m/geometry: m/pattern m/web syscall/js\nm/pattern: m/wasm/engine"), "m", Floors)
	if len(breaks) != 5 { // geometry three times; pattern twice, for it breaks two rules
		for _, b := range breaks {
			t.Log(b)
		}
		t.Errorf("%d breaks", len(breaks))
	}
}
