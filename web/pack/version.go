package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
)

// offlineFile is the service worker: it is told which files the page has. indexFile shows the version.
const (
	offlineFile = "offline.js"
	indexFile   = "index.html"
)

// The places that are filled in: the version as text in the index and as a string in the service worker, and there an
// object with the files' hashes, as a fetch's integrity has them.
const (
	versionShown  = "<!-- version -->"
	versionPlace  = "/* version */''"
	filesPlace    = "/* files */{}"
	versionLength = 8
)

// putVersion fills in what follows from all files together. The version is the beginning of a hash of their names and
// bytes, so that the same files always have the same. A page without a service worker is left as it is; one with, but
// without the places for it, is an error.
func putVersion(files map[string][]byte) error {
	offline, has := files[offlineFile]
	if !has {
		return nil
	}
	all := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(files)) {
		fmt.Fprintf(all, "%s %d\n", name, len(files[name]))
		all.Write(files[name])
	}
	version := hex.EncodeToString(all.Sum(nil))[:versionLength]

	hashes := map[string]string{}
	var err error
	if files[indexFile], err = fill(files[indexFile], indexFile, versionShown, version); err != nil {
		return err
	}
	for name, data := range files {
		if name != offlineFile {
			sum := sha256.Sum256(data)
			hashes[name] = "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
		}
	}
	list, err := json.MarshalIndent(hashes, "", "  ")
	if err != nil {
		return err
	}
	if offline, err = fill(offline, offlineFile, versionPlace, "'"+version+"'"); err != nil {
		return err
	}
	files[offlineFile], err = fill(offline, offlineFile, filesPlace, string(list))
	return err
}

// fill puts a text in the one place that a file has for it.
func fill(file []byte, name, place, text string) ([]byte, error) {
	if n := bytes.Count(file, []byte(place)); n != 1 {
		return nil, fmt.Errorf("%s has %d places %s; it must have one", name, n, place)
	}
	return bytes.Replace(file, []byte(place), []byte(text), 1), nil
}
