package types

import (
	"encoding/json"
	"go/ast"
	"maps"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/sheet/panel"
	"openwork/wasm/editor/desk"
	"openwork/wasm/editor/desk/view"
)

// editorFolder is where the editor's program is.
const editorFolder = "../../wasm/editor"

func TestMembersOfTheEditor(t *testing.T) {
	d := read(t)
	for name, in := range map[string]any{
		"View": desk.State{}, "GroupCard": desk.GroupCard{}, "Action": desk.Action{}, "BenchLabel": view.Label{},
		"Command": pattern.Command{}, "DraftHistory": desk.History{}, "DraftStep": pattern.Step{},
		"CopyList": desk.CopyList{},
	} {
		t.Run(name, func(t *testing.T) {
			for _, fault := range d.held(name, name, reflect.TypeOf(in)) {
				t.Error(fault)
			}
		})
	}
}

// What Go leaves open in the view state is held by values: of an empty desk, of the demonstration before and after its
// check, and while something is drawn.
func TestValuesOfTheView(t *testing.T) {
	d := read(t)
	for name, at := range map[string]func(*testing.T) *desk.Desk{
		"empty": func(*testing.T) *desk.Desk { return desk.New(draft.Default()) }, "unchecked": demonstration,
		"checked": checked,
		"drawn": func(t *testing.T) *desk.Desk {
			k := demonstration(t)
			if err := k.Pen("open", k.Session.Draft().Silhouettes[0].ID, 0); err != nil {
				t.Fatal(err)
			}
			return k
		},
		"refused": func(t *testing.T) *desk.Desk {
			k := demonstration(t)
			k.Session.Answer(-1, "")
			return k
		},
	} {
		t.Run(name, func(t *testing.T) {
			k := at(t)
			for kind, value := range map[string]any{"View": k.State(), "BenchLabel[]": k.Labels(),
				"Action[]":    desk.Actions(),
				"GroupCard[]": desk.GroupCards(), "Tie[]": []draft.Tie{{}, {Silhouette: "s1"}}} {
				t.Run(kind, func(t *testing.T) {
					for _, fault := range d.values(kind, kind, again(t, value)) {
						t.Error(fault)
					}
				})
			}
		})
	}
}

func demonstration(t *testing.T) *desk.Desk {
	t.Helper()
	text, err := os.ReadFile("../../testdata/drafts/heron-over-carp.openwork.json")
	if err != nil {
		t.Fatal(err)
	}
	d, err := draft.Decode(strings.NewReader(string(text)))
	if err != nil {
		t.Fatal(err)
	}
	return desk.New(d)
}

// checked is the demonstration with the engine's answer on the whole panel, so that counts and areas are there.
func checked(t *testing.T) *desk.Desk {
	t.Helper()
	k := demonstration(t)
	report, err := panel.Check(k.Session.Layout())
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(report)
	if err != nil {
		t.Fatal(err)
	}
	if err := k.Session.Answer(k.State().Check.Token, string(text)); err != nil {
		t.Fatal(err)
	}
	if s := k.State(); s.Counts == nil || s.Areas == nil {
		t.Fatal("the answer was not taken")
	}
	return k
}

// again returns a value as the page reads it.
func again(t *testing.T, value any) any {
	t.Helper()
	text, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	var out any
	if err := json.Unmarshal(text, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// The bridge's table (bridge_js.go) compiles for a browser only, so its source is read: which functions it adds, which
// arguments of which kind each of them reads, and what it returns.
func TestBridge(t *testing.T) {
	declared := read(t).methods["Bridge"]
	found := bridge(t)
	for name, f := range found {
		if m, ok := declared[name]; !ok {
			t.Errorf("%s is missing in Bridge", name)
		} else if !slices.EqualFunc(m.args, f.args, isRead) || m.answer != f.answer {
			t.Errorf("%s is declared as %v → %s, and in Go it is %v → %s", name, m.args, m.answer, f.args, f.answer)
		}
	}
	for name := range declared {
		if _, ok := found[name]; !ok {
			t.Errorf("Bridge declares %s, and Go adds no such function", name)
		}
	}
}

// isRead reports whether an argument is declared as what Go reads it as. What Go does not read may be anything.
func isRead(declared, read string) bool { return read == "" || declared == read }

// readers are the functions by which the bridge reads an argument, and the kind each of them takes.
var readers = map[string]string{"arg": "string", "number": "number", "truth": "boolean", "bytesOf": "Uint8Array",
	"textsOf": "string[]"}

// bridge reads the table of functions.
func bridge(t *testing.T) map[string]method {
	t.Helper()
	out := map[string]method{}
	for _, file := range source(t, editorFolder) {
		ast.Inspect(file, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || !isCall(call, "add") || len(call.Args) != 2 {
				return true
			}
			name, body := literal(call.Args[0]), call.Args[1]
			out[name] = method{argumentsOf(body), answerOf(body)}
			return false
		})
	}
	if len(out) < 10 {
		t.Fatalf("only %d functions of the bridge were found", len(out))
	}
	return out
}

// argumentsOf returns the kinds of a function's arguments, in their order; "" for one before the last that is not read.
func argumentsOf(body ast.Node) []string {
	kinds := map[int]string{}
	ast.Inspect(body, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok || len(call.Args) != 2 {
			return true
		}
		for name, kind := range readers {
			if at, ok := call.Args[1].(*ast.BasicLit); ok && isCall(call, name) {
				i, _ := strconv.Atoi(at.Value)
				kinds[i] = kind
			}
		}
		return true
	})
	if len(kinds) == 0 {
		return nil
	}
	out := make([]string, slices.Max(slices.Collect(maps.Keys(kinds)))+1)
	for i, kind := range kinds {
		out[i] = kind
	}
	return out
}

// answerOf returns what a function returns: null for nil, what a method of the desk returns, else a text.
func answerOf(body ast.Node) string {
	answer := "string"
	ast.Inspect(body, func(n ast.Node) bool {
		back, ok := n.(*ast.ReturnStmt)
		if !ok || len(back.Results) != 1 {
			return true
		}
		switch e := back.Results[0].(type) {
		case *ast.Ident:
			if e.Name == "nil" {
				answer = "null"
			}
		case *ast.CallExpr:
			if s, ok := e.Fun.(*ast.SelectorExpr); ok {
				m, ok := reflect.TypeFor[*desk.Desk]().MethodByName(s.Sel.Name)
				if ok && m.Type.NumOut() == 1 && m.Type.Out(0).Kind() == reflect.Bool {
					answer = "boolean"
				}
			}
		}
		return true
	})
	return answer
}

// calledByName finds the names of the page's functions in a source.
var calledByName = regexp.MustCompile(`"(openwork[A-Z]\w*)"`)

// What the editor calls of the page is what the page declares to offer.
func TestPageCalls(t *testing.T) {
	called := map[string]bool{}
	for _, path := range sourceFiles(t, editorFolder) {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range calledByName.FindAllStringSubmatch(string(text), -1) {
			called[m[1]] = true
		}
	}
	got, want := slices.Sorted(maps.Keys(called)), slices.Sorted(maps.Keys(read(t).methods["PageCalls"]))
	if !slices.Equal(got, want) {
		t.Errorf("the editor calls %v, and PageCalls declares %v", got, want)
	}
}
