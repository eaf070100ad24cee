package qr

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"openwork/geometry/geometrytest"
)

// pbm writes a code with its quiet zone, three pixels to the module.
func pbm(c *Code) []byte {
	const k, quiet = 3, 4
	n := (c.Size + 2*quiet) * k
	out := fmt.Appendf(nil, "P5\n%d %d\n255\n", n, n)
	for y := range n {
		for x := range n {
			x, y := x/k-quiet, y/k-quiet
			v := byte(255)
			if x >= 0 && y >= 0 && x < c.Size && y < c.Size && c.Dark(x, y) {
				v = 0
			}
			out = append(out, v)
		}
	}
	return out
}

// read returns what Debian's zbar reads in pictures, in their order.
func read(t *testing.T, codes []*Code) []string {
	t.Helper()
	if _, err := exec.LookPath("zbarimg"); err != nil {
		t.Fatal("zbarimg is missing: install Debian's package zbar-tools")
	}
	dir := t.TempDir()
	args := []string{"--quiet", "--raw", "-Sdisable", "-Sqrcode.enable"}
	for i, c := range codes {
		name := filepath.Join(dir, fmt.Sprintf("%03d.pgm", i))
		if err := os.WriteFile(name, pbm(c), 0o600); err != nil {
			t.Fatal(err)
		}
		args = append(args, name)
	}
	var errs bytes.Buffer
	cmd := exec.Command("zbarimg", args...)
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Errorf("zbarimg: %v %s", err, &errs)
	}
	return strings.Split(strings.TrimSuffix(string(out), "\n"), "\n")
}

const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.:/#"

// text returns a random text in the letters of a link.
func text(r *rand.Rand, n int) []byte {
	out := make([]byte, n)
	for k := range out {
		out[k] = letters[r.IntN(len(letters))]
	}
	return out
}

// Tables of ISO/IEC 18004, table 9, by level and version: code words for error correction in a block, and blocks. From
// memory.
var (
	correction = [2][41]int{
		{0, 7, 10, 15, 20, 26, 18, 20, 24, 30, 18, 20, 24, 26, 30, 22, 24, 28, 30, 28, 28,
			28, 28, 30, 30, 26, 28, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30},
		{0, 10, 16, 26, 18, 24, 16, 18, 22, 22, 26, 30, 22, 22, 24, 24, 28, 28, 26, 26, 26,
			26, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28, 28},
	}
	blocks = [2][41]int{
		{0, 1, 1, 1, 1, 1, 2, 2, 2, 2, 4, 4, 4, 4, 4, 6, 6, 6, 6, 7, 8,
			8, 9, 9, 10, 12, 12, 12, 13, 14, 15, 16, 17, 18, 19, 19, 20, 21, 22, 24, 25},
		{0, 1, 1, 1, 2, 2, 4, 4, 4, 5, 5, 5, 8, 9, 9, 10, 10, 11, 13, 14, 16,
			17, 17, 18, 20, 21, 23, 25, 26, 28, 29, 31, 33, 35, 37, 38, 40, 43, 45, 47, 49},
	}
)

// capacity returns how many bytes a version holds, by those tables and the modules that carry code words.
func capacity(version int, level Level) int {
	modules := 16*version*version + 128*version + 64
	if version >= 2 {
		a := version/7 + 2
		modules -= (25*a-10)*a - 55
	}
	if version >= 7 {
		modules -= 36
	}
	lengthBits := 8
	if version >= 10 {
		lengthBits = 16
	}
	words := modules/8 - correction[level][version]*blocks[level][version]
	return (words*8 - 4 - lengthBits) / 8
}

// encoded makes a code and holds its version and its level, which two modules beside the finders say, against what they
// must be.
func encoded(t *testing.T, data []byte, version int, level Level) *Code {
	t.Helper()
	c, err := Encode(data, level)
	if err != nil {
		t.Fatal(err)
	}
	n := 17 + 4*version
	if c.Version != version || c.Size != n {
		t.Fatalf("%d bytes: version %d of %d modules, want %d of %d", len(data), c.Version, c.Size, version, n)
	}
	if !c.Dark(8, n-1) || c.Dark(8, n-2) != (level == L) {
		t.Fatalf("version %d: the code does not say level %d", version, level)
	}
	return c
}

// A reader of others reads every version at both levels, filled to the last byte, and texts of other lengths; one byte
// more than a version holds takes the next.
func TestReadByZbar(t *testing.T) {
	const seed = 5
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var codes []*Code
	var want []string
	add := func(n, version int, level Level) {
		data := text(r, n)
		codes = append(codes, encoded(t, data, version, level))
		want = append(want, string(data))
	}
	var versions []int
	for version := 1; version <= 40; version++ {
		versions = append(versions, version)
	}
	for _, version := range geometrytest.Share(t, versions, 16) {
		for _, level := range []Level{L, M} {
			add(capacity(version, level), version, level)
			if version < 40 && version%6 == 1 {
				add(capacity(version, level)+1, version+1, level)
			}
		}
	}
	add(5, 1, M)
	got := read(t, codes)
	if len(got) != len(want) {
		t.Fatalf("%d codes read, want %d", len(got), len(want))
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("version %d: %.40q read, want %.40q", codes[i].Version, got[i], want[i])
		}
	}
}

// A code of level M is read with a tenth of its words spoilt in one place: the corrections are right, not only the
// data.
func TestSpoilt(t *testing.T) {
	const seed = 6
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	var codes []*Code
	var want []string
	for _, version := range []int{4, 11, 23, 34} {
		data := text(r, capacity(version, M))
		c := encoded(t, data, version, M)
		// A rectangle in the middle of about an eighth of the square's side each way, alignment pattern and all.
		for y := c.Size/2 - c.Size/16; y < c.Size/2+c.Size/16; y++ {
			for x := c.Size/2 - c.Size/8; x < c.Size/2+c.Size/8; x++ {
				c.dark[y*c.Size+x] = !c.dark[y*c.Size+x]
			}
		}
		codes, want = append(codes, c), append(want, string(data))
	}
	got := read(t, codes)
	for i := range want {
		if i >= len(got) || got[i] != want[i] {
			t.Errorf("version %d is not read", codes[i].Version)
		}
	}
}

// Capacities of ISO/IEC 18004, table 7, in bytes (from memory).
func TestCapacity(t *testing.T) {
	for _, v := range []struct {
		version int
		level   Level
		want    int
	}{{1, L, 17}, {1, M, 14}, {7, M, 122}, {9, L, 230}, {10, L, 271}, {27, L, 1465}, {40, M, 2331}, {40, L, MaxBytes}} {
		t.Run(fmt.Sprintf("version %d, level %v", v.version, v.level), func(t *testing.T) {
			if got := capacity(v.version, v.level); got != v.want {
				t.Errorf("version %d, level %d holds %d bytes, want %d", v.version, v.level, got, v.want)
			}
		})
	}
	c, err := Encode(make([]byte, 18), L)
	if err != nil || c.Version != 2 {
		t.Errorf("18 bytes: %v, version %d, want 2", err, c.Version)
	}
	if _, err := Encode(make([]byte, MaxBytes+1), L); err == nil ||
		!strings.Contains(err.Error(), "2954 bytes are more than the 2953") {
		t.Errorf("one byte too many: %v", err)
	}
}
