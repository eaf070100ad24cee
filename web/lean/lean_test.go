package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The program prints every shader that ebiten brings, as written and as translated for the browser, and what it says
// to shaders whose first lines are odd.
const printing = `package main

import (
	"fmt"

	"github.com/hajimehoshi/ebiten/v2/internal/builtinshader"
	"github.com/hajimehoshi/ebiten/v2/internal/graphics"
	"github.com/hajimehoshi/ebiten/v2/internal/shaderir/glsl"
)

func main() {
	sources := builtinshader.AppendShaderSources(nil)
	for _, first := range []string{
		"//kage:unit pixels", " \t//kage:unit \t texels\t", "//kage:unit", "//kage:unit pixels texels", ` +
	`"//kage:units pixels",
		"//kage:unit inches", "//kage:unit pixels\n//kage:unit texels", "// //kage:unit pixels", "",
	} {
		sources = append(sources, []byte(first+"\n\npackage main\n\nvar Tint vec4\n\n"+
			"func Fragment(to vec4, at vec2) vec4 {\n\treturn imageSrc0At(at) * Tint + imageSrc1At(at)\n}\n"))
	}
	for _, source := range sources {
		fmt.Printf("%s\n", source)
		program, err := graphics.CompileShader(source)
		if err != nil {
			fmt.Println("error:", err)
			continue
		}
		vertex, fragment := glsl.Compile(program, glsl.GLSLVersionES300)
		fmt.Println(program.Unit, program.Uniforms, program.TextureCount, vertex, fragment)
	}
}
`

func TestShadersAreThoseOfEbiten(t *testing.T) {
	t.Chdir("../..")
	before := printed(t, nil)
	after := printed(t, edits)

	if n := strings.Count(before, "func Fragment"); n < 14+9 {
		t.Fatalf("only %d shaders were printed", n)
	}
	if before != after {
		t.Errorf("ebiten's shaders before:\n%s\nand after:\n%s", before, after)
	}
}

// printed is what the program prints in a copy of ebiten with some edits.
func printed(t *testing.T, edits map[string]edit) string {
	t.Helper()
	folder := t.TempDir()
	if err := run(folder, "./wasm/editor", edits); err != nil {
		t.Fatal(err)
	}
	program := filepath.Join(folder, "ebiten", "printing", "main.go")
	if err := os.MkdirAll(filepath.Dir(program), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(program, []byte(printing), 0o644); err != nil {
		t.Fatal(err)
	}

	out, err := exec.Command("go", "run", "-modfile="+filepath.Join(folder, "go.mod"),
		ebiten+"/printing").CombinedOutput()
	if err != nil {
		t.Fatalf("go run in a copy of ebiten: %v\n%s", err, out)
	}
	return string(out)
}

func TestEditsSayWhatTheyDoNotFind(t *testing.T) {
	for path, change := range edits {
		t.Run(path, func(t *testing.T) {
			if strings.HasSuffix(path, "image_js.go") {
				t.Skip("replaced whole")
			}
			if changed, err := change("package odd\n"); err == nil {
				t.Errorf("a file with nothing in it became %q", changed)
			}
		})
	}
}

func TestNothingCallsMethodsByName(t *testing.T) {
	t.Chdir("../..")
	folder := t.TempDir()
	if err := run(folder, "./wasm/editor", edits); err != nil {
		t.Fatal(err)
	}
	list := exec.Command("go", "list", "-modfile="+filepath.Join(folder, "go.mod"), "-deps", "./wasm/editor")
	list.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	out, err := list.Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range strings.Fields(string(out)) {
		switch path {
		case "text/template", "html/template", "regexp", "archive/zip":
			t.Errorf("the editor links %s, which makes it large: see web/lean", path)
		}
	}
}
