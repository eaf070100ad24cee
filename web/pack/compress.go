package main

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/andybalholm/brotli"
)

const (
	// brotliWindow is the largest window a browser must accept, 16 MiB: a wasm program repeats itself over all its
	// length.
	brotliWindow = 24
	// minSize is the size in bytes below which compressing saves no packet.
	minSize = 512
	// cacheKeeps is how many compressed files the cache holds: a few builds' worth, some 2 MB each at most.
	cacheKeeps = 32
)

// packedFile is one file of the page; gzip and brotli are nil where they would not be smaller.
type packedFile struct {
	name                string
	plain, gzip, brotli []byte
}

// compressible are the endings whose files are not compressed already.
var compressible = map[string]bool{
	".html": true, ".css": true, ".js": true, ".mjs": true, ".json": true, ".svg": true, ".ico": true, ".txt": true,
	".webmanifest": true, ".wasm": true,
}

// compressAll compresses every file as far as gzip and brotli go, as many at once as there are processors. Brotli at
// its best takes most of a minute for the wasm programs, so what it made is kept in the cache folder under the
// content's hash.
func compressAll(files map[string][]byte, cache string) ([]packedFile, error) {
	if err := os.MkdirAll(cache, 0o755); err != nil {
		return nil, fmt.Errorf("the cache %s cannot be made: %w", cache, err)
	}
	packed := make([]packedFile, 0, len(files))
	for name, data := range files {
		packed = append(packed, packedFile{name: name, plain: data})
	}

	// The largest first, so that the last one to finish is a small one; then by name, so that the order is always the
	// same.
	slices.SortFunc(packed, func(a, b packedFile) int {
		if d := len(b.plain) - len(a.plain); d != 0 {
			return d
		}
		return strings.Compare(a.name, b.name)
	})
	errs := make([]error, len(packed))
	slots := make(chan struct{}, runtime.NumCPU())
	var group sync.WaitGroup
	for i := range packed {
		slots <- struct{}{}
		group.Go(func() {
			errs[i] = compressOne(&packed[i], cache)
			<-slots
		})
	}
	group.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return packed, prune(cache)
}

// uncompressed returns the files as they are.
func uncompressed(files map[string][]byte) []packedFile {
	var out []packedFile
	for name, data := range files {
		out = append(out, packedFile{name: name, plain: data})
	}
	return out
}

// compressOne fills in a file's two compressed forms.
func compressOne(f *packedFile, cache string) error {
	if !compressible[path.Ext(f.name)] || len(f.plain) < minSize {
		return nil
	}
	zipped, err := gzipBest(f.plain)
	if err != nil {
		return fmt.Errorf("%s: %w", f.name, err)
	}
	small, err := cachedBrotli(f.plain, cache)
	if err != nil {
		return fmt.Errorf("%s: %w", f.name, err)
	}
	if len(zipped) < len(f.plain) {
		f.gzip = zipped
	}
	if len(small) < len(f.plain) {
		f.brotli = small
	}
	return nil
}

func gzipBest(data []byte) ([]byte, error) {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func brotliTo(data []byte, quality int) ([]byte, error) {
	var out bytes.Buffer
	w := brotli.NewWriterOptions(&out, brotli.WriterOptions{Quality: quality, LGWin: brotliWindow})
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// cachedBrotli compresses, or takes what an earlier build made of the same bytes. What comes out of the cache is opened
// and held against the original, so a damaged cache costs time and nothing else.
func cachedBrotli(data []byte, cache string) ([]byte, error) {
	sum := sha256.Sum256(data)
	kept := filepath.Join(cache, hex.EncodeToString(sum[:])+".br")
	if small, err := os.ReadFile(kept); err == nil {
		plain, err := io.ReadAll(io.LimitReader(brotli.NewReader(bytes.NewReader(small)), int64(len(data))+1))
		if err == nil && bytes.Equal(plain, data) {
			now := time.Now()
			_ = os.Chtimes(kept, now, now) // only the order in which old ones go depends on it
			return small, nil
		}
	}

	small, err := brotliTo(data, brotli.BestCompression)
	if err != nil {
		return nil, err
	}
	fresh, err := os.CreateTemp(cache, "new-*")
	if err != nil {
		return nil, fmt.Errorf("the cache cannot be written: %w", err)
	}
	defer os.Remove(fresh.Name()) // nothing is left there after the rename
	_, err = fresh.Write(small)
	if closeErr := fresh.Close(); err == nil {
		err = closeErr
	}
	if err == nil {
		err = os.Rename(fresh.Name(), kept)
	}
	if err != nil {
		return nil, fmt.Errorf("the cache cannot be written: %w", err)
	}
	return small, nil
}

// prune removes all but the newest files of the cache.
func prune(cache string) error {
	entries, err := os.ReadDir(cache)
	if err != nil {
		return fmt.Errorf("the cache cannot be read: %w", err)
	}
	type aged struct {
		path string
		time time.Time
	}
	var kept []aged
	for _, e := range entries {
		if info, err := e.Info(); err == nil && filepath.Ext(e.Name()) == ".br" {
			kept = append(kept, aged{filepath.Join(cache, e.Name()), info.ModTime()})
		}
	}
	slices.SortFunc(kept, func(a, b aged) int { return b.time.Compare(a.time) })
	for i := cacheKeeps; i < len(kept); i++ {
		if err := os.Remove(kept[i].path); err != nil {
			return fmt.Errorf("the cache cannot be pruned: %w", err)
		}
	}
	return nil
}
