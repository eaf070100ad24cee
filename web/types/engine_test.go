package types

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"openwork/pattern/cutfile"
	"openwork/pattern/joined"
	"openwork/pattern/stepping"
	"openwork/pattern/study/pages"
)

// engineFolder is where the engine's program is. It is a program, so that its types cannot be reached by reflection.
const engineFolder = "../../wasm/engine"

// sourceFiles returns a folder's Go files without its tests.
func sourceFiles(t *testing.T, folder string) []string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil || len(all) == 0 {
		t.Fatalf("there are no Go files in %s: %v", folder, err)
	}
	return slices.DeleteFunc(all, func(path string) bool { return strings.HasSuffix(path, "_test.go") })
}

// source reads them.
func source(t *testing.T, folder string) []*ast.File {
	t.Helper()
	var out []*ast.File
	for _, path := range sourceFiles(t, folder) {
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, file)
	}
	return out
}

// isCall reports whether a call is of a function by its bare name.
func isCall(call *ast.CallExpr, name string) bool {
	id, ok := call.Fun.(*ast.Ident)
	return ok && id.Name == name
}

// literal returns the text of a string literal, "" for what is none.
func literal(e ast.Expr) string {
	if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING {
		text, _ := strconv.Unquote(lit.Value)
		return text
	}
	return ""
}

// The verbs are those that the worker's table answers.
func TestVerbs(t *testing.T) {
	verbs := map[string]bool{}
	for _, file := range source(t, engineFolder) {
		for _, decl := range file.Decls {
			f, ok := decl.(*ast.FuncDecl)
			if !ok || f.Name.Name != "carryOut" {
				continue
			}
			ast.Inspect(f, func(n ast.Node) bool {
				for _, verb := range verbsOf(n) {
					verbs[verb] = true
				}
				return true
			})
		}
	}
	var declared []string
	d := read(t)
	for _, m := range d.members["Verbs"] {
		declared = append(declared, m.name)
	}
	slices.Sort(declared)
	if got := slices.Sorted(maps.Keys(verbs)); !slices.Equal(got, declared) {
		t.Errorf("the worker answers %v, and Verbs declares %v", got, declared)
	}
}

// verbsOf returns what a switch over verb has cases for, or what verb is compared with.
func verbsOf(n ast.Node) []string {
	var out []string
	switch n := n.(type) {
	case *ast.SwitchStmt:
		if id, ok := n.Tag.(*ast.Ident); !ok || id.Name != "verb" {
			return nil
		}
		for _, c := range n.Body.List {
			for _, e := range c.(*ast.CaseClause).List {
				out = append(out, literal(e))
			}
		}
	case *ast.BinaryExpr:
		if id, ok := n.X.(*ast.Ident); ok && id.Name == "verb" && n.Op == token.EQL {
			out = append(out, literal(n.Y))
		}
	}
	return out
}

// What the page asks with and reads is what the engine's types have, member by member: the same names and kinds. An
// answer may hold more than the page reads.
func TestMembersOfTheEngine(t *testing.T) {
	d := read(t)
	structs := structsOf(t)
	for _, row := range []struct {
		declared, in string
		whole        bool
	}{
		{"EngineRequest", "request", true}, {"TraceOptions", "traceOptions", true}, {"Traced", "traced", true},
		{"TracedSize", "tracedSize", true}, {"Narrow", "narrow", true}, {"PreviewPaths", "previewPaths", true},
		{"MendAnswer", "mended", true}, {"JoinFile", "joinFile", false},
	} {
		t.Run(row.declared, func(t *testing.T) {
			fields, ok := structs[row.in]
			if !ok {
				t.Fatalf("the engine has no type %s", row.in)
			}
			for _, m := range d.members[row.declared] {
				if kind, ok := fields[m.name]; !ok {
					t.Errorf("%s is declared, and %s has no such member", m.name, row.in)
				} else if want := d.shape(m.kind); kind != want {
					t.Errorf("%s is declared as %s, and in %s it is %s", m.name, want, row.in, kind)
				}
				delete(fields, m.name)
			}
			for name := range fields {
				if row.whole {
					t.Errorf("%s.%s is missing in %s", row.in, name, row.declared)
				}
			}
		})
	}
}

// Answers that hold a type of the core are held against it by reflection, as far as the page reads them.
func TestAnswersOfTheCore(t *testing.T) {
	d := read(t)
	for declared, in := range map[string]any{
		"StepPlace": stepping.Place{}, "JoinedPart": joined.Part{}, "Joint": joined.Joint{}, "StudyMade": pages.Made{},
		"CutAnswer": cutfile.Made{}, "StepsAnswer": stepping.Stepping{}, "JoinAnswer": joined.Joined{},
	} {
		t.Run(declared, func(t *testing.T) {
			for _, m := range d.members[declared] {
				if m.name == "type" || m.name == "mapFrom" || m.name == "files" {
					continue // the engine's own: where in the block of bytes what stands
				}
				field := fieldOf(reflect.TypeOf(in), m.name)
				if field == nil {
					t.Errorf("%s.%s is declared, and %T has no such member", declared, m.name, in)
					continue
				}
				// Members of parts have rows of their own: here only that there are such parts.
				if kind := d.alias(strings.TrimSuffix(m.kind, "[]")); d.members[kind] != nil && field.Kind() == reflect.Slice {
					continue
				}
				for _, fault := range d.held(declared+"."+m.name, m.kind, field) {
					t.Error(fault)
				}
			}
		})
	}
}

// fieldOf returns the type of the member that JSON has by a name, nil when there is none.
func fieldOf(in reflect.Type, name string) reflect.Type {
	for _, field := range reflect.VisibleFields(in) {
		if key, _, _ := strings.Cut(field.Tag.Get("json"), ","); key == name {
			return field.Type
		}
	}
	return nil
}

// structsOf returns the engine's structs: by name, what kind of JSON each member is.
func structsOf(t *testing.T) map[string]map[string]string {
	t.Helper()
	out := map[string]map[string]string{}
	for _, file := range source(t, engineFolder) {
		ast.Inspect(file, func(n ast.Node) bool {
			spec, ok := n.(*ast.TypeSpec)
			if !ok {
				return true
			}
			if s, ok := spec.Type.(*ast.StructType); ok {
				out[spec.Name.Name] = membersOf(s)
			}
			return true
		})
	}
	return out
}

func membersOf(s *ast.StructType) map[string]string {
	out := map[string]string{}
	for _, field := range s.Fields.List {
		if field.Tag == nil {
			continue
		}
		tag, _ := strconv.Unquote(field.Tag.Value)
		if name, _, _ := strings.Cut(reflect.StructTag(tag).Get("json"), ","); name != "" && name != "-" {
			out[name] = shapeOf(field.Type)
		}
	}
	return out
}

// shapeOf is the kind of JSON that a type of Go's source is written as: "string", "number", "boolean", "list" or "object".
func shapeOf(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.ArrayType:
		return "list"
	case *ast.Ident:
		switch e.Name {
		case "string":
			return "string"
		case "int", "float64":
			return "number"
		case "bool":
			return "boolean"
		}
	case *ast.SelectorExpr:
		if e.Sel.Name == "Format" {
			return "string" // cutfile.Format, the only such name
		}
	}
	return "object"
}

// shape is the same of a declared kind.
func (d declarations) shape(kind string) string {
	switch kind = d.alias(kind); {
	case isString(kind):
		return "string"
	case kind == "number" || kind == "boolean":
		return kind
	case strings.HasSuffix(kind, "]"):
		return "list"
	}
	return "object"
}
