package outlinetest

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
)

// iconPackage is a release of an npm package of icons, with the SHA-256 of what npm brings for it. Nothing of it is
// kept in this repository: it is fetched once into the cache folder.
type iconPackage struct {
	release, file, sum string

	once  sync.Once
	files map[string][]byte // by path in the package
	err   error
}

// Both packages are under free licences: Apache 2.0, and CC BY 4.0 for the drawings of the other.
var (
	mdiPackage = iconPackage{release: "@mdi/svg@7.4.47", file: "mdi-svg-7.4.47.tgz",
		sum: "de92e5dc9ce46c392ab5c53aa7190b19f82b40cb48872a083f788c7e13e91fef"}
	fontAwesomePackage = iconPackage{release: "@fortawesome/fontawesome-free@7.3.1",
		file: "fortawesome-fontawesome-free-7.3.1.tgz",
		sum:  "ca4e32843bd81711894385c2466fb19c55cfd32ef3c58830b2d1df7bd42e6571"}
)

// iconCache is where packages are kept, from this package's folder.
const iconCache = "../../.cache"

// maxIconFile in bytes bounds what is unpacked of one file.
const maxIconFile = 16 << 20

// open returns the package's SVG files and lists, fetching it with npm when it is not in the cache.
func (p *iconPackage) open(t testing.TB) map[string][]byte {
	t.Helper()
	p.once.Do(func() { p.files, p.err = p.fetch() })
	if p.err != nil {
		t.Fatalf("%s: %v", p.release, p.err)
	}
	return p.files
}

func (p *iconPackage) fetch() (map[string][]byte, error) {
	path := filepath.Join(iconCache, p.file)
	packed, err := os.ReadFile(path)
	if errors.Is(err, os.ErrNotExist) {
		if packed, err = p.pack(); err == nil {
			err = keep(path, packed)
		}
	}
	if err != nil {
		return nil, err
	}
	if sum := sha256.Sum256(packed); hex.EncodeToString(sum[:]) != p.sum {
		return nil, errors.New(path + " is not the release it should be; remove it and try again")
	}
	plain, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, err
	}
	files := map[string][]byte{}
	for entries := tar.NewReader(plain); ; {
		entry, err := entries.Next()
		if errors.Is(err, io.EOF) {
			return files, nil
		}
		if err != nil {
			return nil, err
		}
		name := strings.TrimPrefix(entry.Name, "package/")
		if !strings.HasSuffix(name, ".svg") && name != "meta.json" && name != "metadata/categories.yml" {
			continue
		}
		if files[name], err = io.ReadAll(io.LimitReader(entries, maxIconFile)); err != nil {
			return nil, err
		}
	}
}

// pack has npm bring the package into a folder of its own, as other tests may be doing the same.
func (p *iconPackage) pack() ([]byte, error) {
	tool, err := exec.LookPath("npm")
	if err != nil {
		return nil, errors.New("npm is not installed, which fetches the icons to try; the Debian package npm brings it")
	}
	folder, err := os.MkdirTemp("", "icons")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	if out, err := exec.Command(tool, "pack", p.release, "--silent", "--pack-destination",
		folder).CombinedOutput(); err != nil {
		return nil, errors.New("npm could not fetch it: " + string(out))
	}
	return os.ReadFile(filepath.Join(folder, p.file))
}

// keep writes a file that is whole as soon as it is there.
func keep(path string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(path), "icons")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name()) // gone already when all went well
	_, err = f.Write(data)
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}

// MdiIcons returns all icons of @mdi/svg, by "mdi/" and their name.
func MdiIcons(t testing.TB) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	for path, data := range mdiPackage.open(t) {
		if name, ok := strings.CutPrefix(path, "svg/"); ok {
			out["mdi/"+strings.TrimSuffix(name, ".svg")] = data
		}
	}
	return out
}

// AnimalIcons returns the icons of animals of both packages, as the packages' own lists say which those are, by the
// package's short name ("mdi", "solid", "regular") and theirs.
func AnimalIcons(t testing.TB) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	var list []struct {
		Name string   `json:"name"`
		Tags []string `json:"tags"`
	}
	mdi := MdiIcons(t)
	if err := json.Unmarshal(mdiPackage.open(t)["meta.json"], &list); err != nil {
		t.Fatal(err)
	}
	for _, icon := range list {
		if data, ok := mdi["mdi/"+icon.Name]; ok && slices.Contains(icon.Tags, "Animal") {
			out["mdi/"+icon.Name] = data
		}
	}
	files := fontAwesomePackage.open(t)
	for _, name := range namesUnder(string(files["metadata/categories.yml"]), "animals") {
		for _, style := range []string{"solid", "regular"} {
			if data, ok := files["svgs/"+style+"/"+name+".svg"]; ok {
				out[style+"/"+name] = data
			}
		}
	}
	return out
}

// namesUnder returns the names listed in a category of a YAML file that holds nothing but categories of names.
func namesUnder(yaml, category string) []string {
	var out []string
	in := false
	name := regexp.MustCompile(`^ +- ['"]?([a-z0-9-]+)['"]?\s*$`)
	for line := range strings.Lines(yaml) {
		if !strings.HasPrefix(line, " ") {
			in = strings.HasPrefix(line, category+":")
		} else if m := name.FindStringSubmatch(line); in && m != nil {
			out = append(out, m[1])
		}
	}
	return out
}
