package draft_test

import (
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"openwork/pattern/draft"
)

// Every member of the types with a key stands in the schema under that key, as what the type holds, and nothing else
// does.
func TestSchemaHasEveryMember(t *testing.T) {
	types := map[draft.Type]reflect.Type{draft.Number: reflect.TypeFor[float64](),
		draft.Text: reflect.TypeFor[string](),
		draft.Flag: reflect.TypeFor[bool](), draft.Point: reflect.TypeFor[[2]float64]()}
	var compare func(t *testing.T, of *draft.Object, owner reflect.Type)
	compare = func(t *testing.T, of *draft.Object, owner reflect.Type) {
		var keys []string
		for i := range owner.NumField() {
			f := owner.Field(i)
			key, _, _ := strings.Cut(f.Tag.Get("json"), ",")
			if key == "-" {
				continue
			}
			keys = append(keys, key)
			if i >= len(of.Members) || of.Members[i].Key != key {
				t.Errorf("%s.%s does not stand at its place in the schema", owner.Name(), f.Name)
				continue
			}
			m := of.Members[i]
			if want, ok := types[m.Type]; ok && want != f.Type {
				t.Errorf("%s.%s is a %v", owner.Name(), f.Name, f.Type)
			}
			if m.Type == draft.Number && m.Min >= m.Max {
				t.Errorf("%s.%s may be from %g to %g", owner.Name(), f.Name, m.Min, m.Max)
			}
			// A value set through the schema is the value of the field.
			if made := reflect.New(owner); m.Type != draft.List && m.Type != draft.Record {
				if got := reflect.ValueOf(m.Value(made.Interface())).Pointer(); got != made.Elem().Field(
					i).Addr().Pointer() {
					t.Errorf("%s.%s: the schema has the place of another field", owner.Name(), f.Name)
				}
			}
			if m.Of != nil {
				inner := f.Type
				for inner.Kind() == reflect.Slice || inner.Kind() == reflect.Pointer {
					inner = inner.Elem()
				}
				t.Run(key, func(t *testing.T) { compare(t, m.Of, inner) })
			}
		}
		if len(keys) != len(of.Members) {
			t.Errorf("the schema of %s has %d members, the type %v", owner.Name(), len(of.Members), keys)
		}
	}
	compare(t, draft.Schema, reflect.TypeFor[draft.Draft]())
}

// input is a number field of the page: its label, the object and name it sets, and its unit.
var input = regexp.MustCompile(`<label class="field[^>]*><span[^>]*>([^<]+)</span>` +
	`<input[^>]*data-field="(panel|field|sheet|place|paste|subjectPlace)\.(\w+)" data-unit="(\w+)"`)

// The page calls its number fields as the schema does, shows them in their units, and leaves none out.
func TestPageHasEveryNumber(t *testing.T) {
	page, err := os.ReadFile("../../web/index.html")
	if err != nil {
		t.Fatal(err)
	}
	label, unit := map[string]string{}, map[string]string{}
	for _, m := range input.FindAllStringSubmatch(string(page), -1) {
		label[m[2]+"."+m[3]], unit[m[2]+"."+m[3]] = m[1], m[4]
	}

	units := map[string][]string{"mm": {"length", "fine"}, "degrees": {"angle"}, "": {"ratio", "percent"},
		"ml":   {"volume"},
		"g/ml": {"density"}}
	fields := 0
	for step, o := range map[string]*draft.Object{"panel": draft.PanelObject, "field": draft.FieldObject,
		"sheet": draft.SheetObject, "place": draft.MotifObject, "paste": draft.PaintObject,
		"subjectPlace": draft.SubjectObject} {
		t.Run(step, func(t *testing.T) {
			for name, f := range o.Fields() {
				fields++
				at := step + "." + name
				if label[at] != f.Words {
					t.Errorf("%s is called %q on the page, %q in the schema", at, label[at], f.Words)
				}
				if !strings.Contains(strings.Join(units[f.Unit], " "), unit[at]) || unit[at] == "" {
					t.Errorf("%s is shown as a %q, and is %q", at, unit[at], f.Unit)
				}
			}
		})
	}
	if fields != len(label) {
		t.Errorf("the page has %d number fields of the draft's, the schema %d", len(label), fields)
	}
}
