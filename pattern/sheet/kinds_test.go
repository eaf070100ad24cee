package sheet

import (
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"strconv"
	"testing"
)

// Every constant of type Kind has its row, and every row all its columns.
func TestTableOfKindsIsWhole(t *testing.T) {
	var named []Kind
	file, err := parser.ParseFile(token.NewFileSet(), "kinds.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range file.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.CONST {
			continue
		}
		for _, s := range g.Specs {
			v := s.(*ast.ValueSpec)
			if kind, ok := v.Type.(*ast.Ident); ok && kind.Name == "Kind" {
				text, err := strconv.Unquote(v.Values[0].(*ast.BasicLit).Value)
				if err != nil {
					t.Fatal(err)
				}
				named = append(named, Kind(text))
			}
		}
	}
	if len(named) < 9 {
		t.Fatalf("only %d kinds were found in the source", len(named))
	}

	kinds := Kinds()
	for _, k := range named {
		if !slices.Contains(kinds, k) {
			t.Errorf("%s has no row", k)
		}
	}
	if len(kinds) != len(named) {
		t.Errorf("%d rows for %d kinds", len(kinds), len(named))
	}
	for _, r := range table {
		t.Run(string(r.kind), func(t *testing.T) {
			if len(r.moves) == 0 {
				t.Error("no move is named, and NoMove neither")
			}
			for _, s := range []Speech{r.fault, r.warning} {
				if s.One == "" || s.Many == "" || s.Sentence == nil || s.Sign == "" || s.Label == nil {
					t.Errorf("a column is missing: %+v", s)
				}
			}
		})
	}
}
