package main

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"text/template"
)

// edit changes a source file's text, or says why it cannot.
type edit func(text string) (string, error)

// edits are the changes, by the files' paths in ebiten's module.
var edits = map[string]edit{
	"internal/builtinshader/shader.go": writeShadersOut,

	// Packing images into a file for ebiten's own developers: a key that this program never gives it.
	"internal/graphicscommand/image_js.go": instead(`package graphicscommand

import (
	"errors"
	"image"

	"github.com/hajimehoshi/ebiten/v2/internal/graphicsdriver"
)

var errNoDump = errors.New("images are not written out in this build")

func (i *Image) Dump(graphicsdriver.Graphics, string, bool, image.Rectangle) (string, error) {
	return "", errNoDump
}

func DumpImages([]*Image, graphicsdriver.Graphics, string) (string, error) { return "", errNoDump }
`),

	// Gamepads, which are asked for every frame: once asked, a browser goes on looking for them in a thread of its own.
	"internal/ui/ui_js.go": all(
		without("github.com/hajimehoshi/ebiten/v2/internal/gamepad"),
		swap("\tif err := gamepad.Update(); err != nil {\n\t\treturn err\n\t}\n\n", ""),
	),

	// \A__t(\d+)\z
	"internal/shader/expr.go": all(
		without("regexp"),
		swap("var textureVariableRe = regexp.MustCompile(`\\A__t(\\d+)\\z`)", `
func textureVariable(name string) []string {
	digits, found := strings.CutPrefix(name, "__t")
	if !found || digits == "" || strings.Trim(digits, "0123456789") != "" {
		return nil
	}
	return []string{name, digits}
}`),
		swap("textureVariableRe.FindStringSubmatch(", "textureVariable("),
	),

	// ^[ \t\r\n]*//kage:unit\s+([^ \t\r\n]+)[ \t\r\n]*$
	"internal/shader/shader.go": all(
		without("regexp"),
		swap("reUnit := regexp.MustCompile(`^[ \\t\\r\\n]*//kage:unit\\s+([^ \\t\\r\\n]+)[ \\t\\r\\n]*$`)", ""),
		swap("reUnit.FindStringSubmatch(s.Text())", "unitLine(s.Text())"),
		add(`
func unitLine(line string) []string {
	words := strings.Fields(line)
	if len(words) != 2 || words[0] != "//kage:unit" {
		return nil
	}
	return words
}
`),
	),

	// \n\n+
	"internal/shaderir/glsl/glsl.go": all(
		without("regexp"),
		swap("nls := regexp.MustCompile(`\\n\\n+`)", ""),
		swap(`nls.ReplaceAllString(vs, "\n\n")`, `oneBlankLine(vs)`),
		swap(`nls.ReplaceAllString(fs, "\n\n")`, `oneBlankLine(fs)`),
		add(`
func oneBlankLine(text string) string {
	for strings.Contains(text, "\n\n\n") {
		text = strings.ReplaceAll(text, "\n\n\n", "\n\n")
	}
	return text
}
`),
	),
}

// all does one edit after the other.
func all(edits ...edit) edit {
	return func(text string) (string, error) {
		for _, change := range edits {
			var err error
			if text, err = change(text); err != nil {
				return "", err
			}
		}
		return text, nil
	}
}

// swap puts one text in the place of another, which has to stand there once.
func swap(old, text string) edit {
	return func(source string) (string, error) {
		if n := strings.Count(source, old); n != 1 {
			return "", fmt.Errorf("%q stands there %d times, not once", old, n)
		}
		return strings.Replace(source, old, text, 1), nil
	}
}

// without takes imports out, each on a line of its own.
func without(paths ...string) edit {
	var gone []edit
	for _, path := range paths {
		gone = append(gone, swap("\t"+strconv.Quote(path)+"\n", ""))
	}
	return all(gone...)
}

// add puts declarations at the end.
func add(declarations string) edit {
	return func(source string) (string, error) { return source + declarations, nil }
}

// instead puts a file of our own in the place of one.
func instead(text string) edit {
	return func(string) (string, error) { return text, nil }
}

// writeShadersOut puts what ebiten's template of shaders gives, for every filter, address and use of a colour matrix,
// in the place of the template.
func writeShadersOut(source string) (string, error) {
	counts := []string{fmt.Sprintf("const FilterCount = %d\n", filters),
		fmt.Sprintf("const AddressCount = %d\n", addresses)}
	for _, count := range counts {
		if !strings.Contains(source, count) {
			return "", fmt.Errorf("it does not say %q", count)
		}
	}

	const before, after = "template.Must(template.New(\"tmpl\").Parse(`", "`))"
	start := strings.Index(source, before)
	if start < 0 {
		return "", fmt.Errorf("its template is not found")
	}
	length := strings.Index(source[start:], after)
	if length < 0 {
		return "", fmt.Errorf("its template does not end")
	}
	text := source[start+len(before) : start+length]

	written, err := shaders(text)
	if err != nil {
		return "", err
	}
	source = source[:start] + written + source[start+length+len(after):]
	made := strings.Index(source, "\tvar buf bytes.Buffer\n")
	kept := strings.Index(source, "\tshaders[filter][address][c] = b\n")
	if made < 0 || kept < made {
		return "", fmt.Errorf("the function that fills in its template is not found")
	}
	source = source[:made] + "\tb := []byte(tmpl[filter][address][c])\n" + source[kept:]

	return without("bytes", "fmt", "text/template")(source)
}

// filters and addresses are how many of each ebiten has.
const filters, addresses = 2, 3

// shaders fills in ebiten's template for all that it is asked, as Go text: an array of strings.
func shaders(text string) (string, error) {
	shader, err := template.New("shader").Parse(text)
	if err != nil {
		return "", err
	}

	var out bytes.Buffer
	fmt.Fprintf(&out, "[FilterCount][AddressCount][2]string")
	fmt.Fprintf(&out, "{ // filter, address, colour matrix\n")
	for filter := range filters {
		out.WriteString("\t{\n")
		for address := range addresses {
			out.WriteString("\t\t{\n")
			for _, matrix := range []bool{false, true} {
				var filled bytes.Buffer
				if err := shader.Execute(&filled, map[string]any{
					"Filter": filter, "FilterNearest": 0, "FilterLinear": 1,
					"Address": address, "AddressUnsafe": 0, "AddressClampToZero": 1, "AddressRepeat": 2,
					"UseColorM": matrix,
				}); err != nil {
					return "", err
				}
				fmt.Fprintf(&out, "\t\t\t%s,\n", strconv.Quote(filled.String()))
			}
			out.WriteString("\t\t},\n")
		}
		out.WriteString("\t},\n")
	}
	out.WriteString("}")

	return out.String(), nil
}
