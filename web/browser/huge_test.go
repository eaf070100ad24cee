package browser

import (
	"os"
	"path/filepath"
	"testing"
)

// countReads notes how many bytes of files the page reads.
const countReads = `globalThis.bytesRead = 0;
	for (const name of ["arrayBuffer", "text", "bytes", "stream"]) {
		const real = Blob.prototype[name];
		if (real) Blob.prototype[name] = function () { globalThis.bytesRead += this.size; return real.call(this); };
	}
	const link = URL.createObjectURL;
	URL.createObjectURL = (it) => { globalThis.bytesRead += it.size ?? 0; return link.call(URL, it); };`

// A file of 1 GB, mostly holes, is refused with a sentence wherever it is given, and is not read to find out.
func TestHugeFiles(t *testing.T) {
	p := open(t, how{before: countReads})
	p.click("[data-step=silhouettes] .step-head")
	for _, c := range []struct{ name, into, said string }{
		{"wall.png", "#open-file", "wall.png is 1024 MB; the most that can be read is 128 MB."},
		{"wall.openwork.json", "#open-file", "wall.openwork.json is 1024 MB; the most that can be read is 64 MB."},
		{"under.png", "#under-file", "under.png is 1024 MB; the most that can be read is 128 MB."},
		{"scan.svg", "#bring-file", "scan.svg is 1024 MB; the most that can be read is 128 MB."},
	} {
		path := filepath.Join(t.TempDir(), c.name)
		if err := os.WriteFile(path, nil, 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.Truncate(path, 1<<30); err != nil {
			t.Skipf("no file with holes can be made here: %v", err)
		}
		p.choose(c.into, path)
		p.wait("the sentence about "+c.name,
			`document.body.innerText.includes("`+c.said+`") ||
			document.getElementById("bring-form").textContent.includes("`+c.said+`")`)
	}
	if n := eval[float64](p, `globalThis.bytesRead`); n > 1<<20 {
		t.Errorf("%.0f bytes were read", n)
	}
}
