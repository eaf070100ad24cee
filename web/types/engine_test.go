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

	"openwork/pattern/colouring/subgroups"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/evenness"
	"openwork/pattern/fit"
	"openwork/pattern/joined"
	"openwork/pattern/nest"
	"openwork/pattern/paint"
	"openwork/pattern/plates"
	"openwork/pattern/stepping"
	"openwork/pattern/study/pages"
	"openwork/pattern/subject"
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

// The verbs are those rows of the engine's table that the page may ask for.
func TestVerbs(t *testing.T) {
	verbs := slices.Sorted(maps.Values(pageVerbs(t)))
	var declared []string
	for _, m := range read(t).members["Verbs"] {
		declared = append(declared, m.name)
	}
	slices.Sort(declared)
	if !slices.Equal(verbs, declared) {
		t.Errorf("the worker answers %v, and Verbs declares %v", verbs, declared)
	}
}

// pageVerbs returns the names of the verbs that the page may ask for, by the type of their input.
func pageVerbs(t *testing.T) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, file := range source(t, engineFolder) {
		ast.Inspect(file, func(n ast.Node) bool {
			row, ok := n.(*ast.CompositeLit)
			if !ok || len(row.Elts) == 0 {
				return true
			}
			of, ok := row.Type.(*ast.IndexListExpr)
			if !ok {
				return true
			}
			if id, ok := of.X.(*ast.Ident); ok && (id.Name == "onPage" || id.Name == "onBoth") {
				if in, ok := of.Indices[0].(*ast.StarExpr); ok {
					out[in.X.(*ast.Ident).Name] = nameOf(row.Elts[0])
				}
			}
			return true
		})
	}
	return out
}

// nameOf returns the name in a row's heading: a text, or the first of several.
func nameOf(e ast.Expr) string {
	if heading, ok := e.(*ast.CompositeLit); ok && len(heading.Elts) > 0 {
		e = heading.Elts[0]
	}
	return literal(e)
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
		{"EngineRequest", "inputs", true}, {"TraceOptions", "traceOptions", true}, {"Traced", "traced", true},
		{"TracedSize", "tracedSize", true}, {"Narrow", "narrow", true}, {"PreviewPaths", "previewPaths", true},
		{"MendAnswer", "mended", true}, {"JoinFile", "joinFile", false}, {"NestFile", "nestFile", false},
		{"FieldState", "fieldState", true},
		{"EvennessAnswer", "evennessFound", true}, {"GapPlace", "gapPlace", true}, {"BandPlace", "bandPlace", true},
		{"StripePlace", "stripePlace", true}, {"GapsRaster", "gapsRaster", true},
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
		"StepPlace": stepping.Place{}, "NestPlaced": nest.Placed{}, "NestPiece": nest.Piece{},
		"JoinedPart": joined.Part{}, "Joint": joined.Joint{}, "StudyMade": pages.Made{},
		"CutAnswer": cutplan.Made{}, "StepsAnswer": stepping.Stepping{}, "JoinAnswer": joined.Joined{},
		"ColouringRow": subgroups.Class{}, "PlateFile": plates.Plate{}, "PaintAnswer": paint.Reckoning{},
		"PasteRow": paint.Row{}, "PasteAmount": paint.Amount{}, "MatchAnswer": paint.Match{}, "PaintMix": paint.Mix{},
		"FittedRow": fit.Answer{}, "Evenness": evenness.Gaps{},
		"Repeat": draft.Repeat{}, "Motif": draft.Motif{}, "FigureRead": subject.Reading{}, "Tangent": subject.Tangent{},
	} {
		t.Run(declared, func(t *testing.T) {
			for _, m := range d.members[declared] {
				if slices.Contains([]string{"type", "mapFrom", "files", "holds", "was", "picture", "draft", "plates",
					"offset", "length", "said"}, m.name) {
					continue // the engine's own: where in the block of bytes what stands, and what it adds to a fit
				}
				field := fieldOf(reflect.TypeOf(in), m.name)
				if field == nil {
					t.Errorf("%s.%s is declared, and %T has no such member", declared, m.name, in)
					continue
				}
				// Members of parts have rows of their own: here only that there are such parts.
				if kind := d.alias(strings.TrimSuffix(m.kind, "[]")); d.members[kind] != nil &&
					field.Kind() == reflect.Slice {
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

// structsOf returns the engine's structs: by name, what kind of JSON each member is; under "inputs" what all inputs of
// verbs have together, with the structs that they are read through.
func structsOf(t *testing.T) map[string]map[string]string {
	t.Helper()
	out, inputs, embedded := map[string]map[string]string{}, map[string]string{}, map[string][]string{}
	for _, file := range source(t, engineFolder) {
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.TypeSpec:
				if s, ok := n.Type.(*ast.StructType); ok {
					out[n.Name.Name], embedded[n.Name.Name] = membersOf(s), embeddedIn(s)
				}
			case *ast.ValueSpec:
				if s, ok := n.Type.(*ast.StructType); ok {
					maps.Copy(inputs, membersOf(s))
				}
			}
			return true
		})
	}
	for name, parts := range embedded {
		for _, part := range parts { // whose members are written as the struct's own
			maps.Copy(out[name], out[part])
		}
	}
	asked := pageVerbs(t)
	for name, members := range out {
		if _, ok := asked[name]; ok || name == "drafted" || name == "cutting" {
			maps.Copy(inputs, members)
		}
	}
	out["inputs"] = inputs
	return out
}

// embeddedIn returns the names of the engine's own types that a struct embeds.
func embeddedIn(s *ast.StructType) (names []string) {
	for _, field := range s.Fields.List {
		if id, ok := field.Type.(*ast.Ident); ok && len(field.Names) == 0 {
			names = append(names, id.Name)
		}
	}
	return names
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

// shapeOf is the kind of JSON that a type of Go's source is written as: "string", "number", "boolean", "list" or
// "object".
func shapeOf(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.ArrayType:
		return "list"
	case *ast.Ident:
		switch e.Name {
		case "string":
			return "string"
		case "int", "uint64", "float64":
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
