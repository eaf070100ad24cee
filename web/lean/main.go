// Lean writes a copy of ebiten for the browser to .cache/lean, without what this program never runs, and a go.mod
// that takes it, for go build -modfile. Nothing that is drawn changes.
//
// Ebiten writes its own shaders by text/template, which may call any exported method by its name: the linker then has
// to keep every method of every type. It also packs its images into zip files on request, and reads three short
// patterns by regexp. Without these the editor is a fifth smaller, compressed; edits.go has them one by one.
//
// It is run by ./build.sh, from the root of the repository. Another release of ebiten that reads otherwise is an
// error that names the place.
package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// ebiten is the module's path.
const ebiten = "github.com/hajimehoshi/ebiten/v2"

func main() {
	to := flag.String("to", ".cache/lean", "folder to write the copy, its go.mod and go.sum to")
	program := flag.String("program", "./wasm/editor", "package whose parts of ebiten are copied")
	flag.Parse()
	if err := run(*to, *program, edits); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(to, program string, edits map[string]edit) error {
	copied := filepath.Join(to, "ebiten")
	if err := write(copied, program, edits); err != nil {
		return err
	}

	return writeModule(to, copied)
}

// pkg is what go list says of a package.
type pkg struct {
	Dir                         string
	GoFiles, SFiles, EmbedFiles []string
	Module                      *struct{ Path, Dir string }
}

// write makes the folder anew with the packages of ebiten that a program needs in a browser, changed by the edits,
// whose keys are paths within the module. An edit whose file is not needed is an error.
func write(folder, program string, edits map[string]edit) error {
	packages, err := needed(program)
	if err != nil {
		return err
	}
	if err := os.RemoveAll(folder); err != nil {
		return err
	}

	left := len(edits)
	for _, p := range packages {
		inner, err := filepath.Rel(p.Module.Dir, p.Dir)
		if err != nil {
			return err
		}
		for _, name := range append(append(p.GoFiles, p.SFiles...), p.EmbedFiles...) {
			path := filepath.ToSlash(filepath.Join(inner, name))
			change, has := edits[path]
			if has {
				left--
			}
			if err := copyFile(filepath.Join(folder, inner, name), filepath.Join(p.Dir, name), change); err != nil {
				return fmt.Errorf("ebiten's %s: %w", path, err)
			}
		}
	}
	if left > 0 {
		return fmt.Errorf("%d of ebiten's files that web/lean/edits.go changes are not part of %s", left, program)
	}

	return copyFile(filepath.Join(folder, "go.mod"), filepath.Join(packages[0].Module.Dir, "go.mod"), nil)
}

// needed lists ebiten's packages that a program is made of in a browser.
func needed(program string) ([]pkg, error) {
	list := exec.Command("go", "list", "-deps", "-json=Dir,GoFiles,SFiles,EmbedFiles,Module", program)
	list.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	list.Stderr = os.Stderr
	out, err := list.Output()
	if err != nil {
		return nil, fmt.Errorf("go list %s: %w", program, err)
	}

	var found []pkg
	for in := json.NewDecoder(bytes.NewReader(out)); ; {
		var p pkg
		if err := in.Decode(&p); err == io.EOF {
			break
		} else if err != nil {
			return nil, fmt.Errorf("go list %s: %w", program, err)
		}
		if p.Module != nil && p.Module.Path == ebiten {
			found = append(found, p)
		}
	}
	if len(found) == 0 {
		return nil, fmt.Errorf("%s does not use %s", program, ebiten)
	}

	return found, nil
}

// copyFile writes a file's contents, changed, to another place.
func copyFile(to, from string, change edit) error {
	text, err := os.ReadFile(from)
	if err != nil {
		return err
	}

	if change != nil {
		changed, err := change(string(text))
		if err != nil {
			return err
		}
		text = []byte("// Changed for Openwork, by web/lean.\n\n" + changed)
	}

	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return err
	}
	return os.WriteFile(to, text, 0o644)
}

// writeModule writes a go.mod like the repository's that takes ebiten from a folder, and its go.sum.
func writeModule(to, copied string) error {
	copied, err := filepath.Abs(copied)
	if err != nil {
		return err
	}
	for _, name := range []string{"go.mod", "go.sum"} {
		if err := copyFile(filepath.Join(to, name), name, nil); err != nil {
			return err
		}
	}

	mod := exec.Command("go", "mod", "edit", "-replace", ebiten+"="+copied, filepath.Join(to, "go.mod"))
	if out, err := mod.CombinedOutput(); err != nil {
		return fmt.Errorf("go mod edit: %w: %s", err, strings.TrimSpace(string(out)))
	}
	return nil
}
