package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
)

// readFile reads a file of up to limit bytes. A longer one is refused unread where its length is known, and otherwise,
// for a pipe or a device, as soon as it goes beyond.
func readFile(path string, limit int64) ([]byte, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return nil, err
	}
	if info.Mode().IsRegular() && info.Size() > limit {
		return nil, fmt.Errorf("%s has %d MB; files up to %d MB are read", path, info.Size()>>20, limit>>20)
	}
	return readUpTo(file, path, limit)
}

// readUpTo reads up to limit bytes, and refuses what is longer without reading on.
func readUpTo(r io.Reader, name string, limit int64) ([]byte, error) {
	var b bytes.Buffer
	n, err := b.ReadFrom(io.LimitReader(r, limit+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("%s could not be read: %w", name, err)
	case n > limit:
		return nil, fmt.Errorf("%s has more than %d MB; files up to %d MB are read", name, limit>>20, limit>>20)
	}
	return b.Bytes(), nil
}
