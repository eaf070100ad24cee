package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// outFile is a file to write.
type outFile struct {
	path string
	data []byte
}

// writeFiles writes files so that all of them come whole or none: each is first written beside its place and brought to
// the disk, and only when all are there do they get their names. When something fails, no new file is left, and what
// stood under the names before still does. A path that is no regular file (a device, a pipe) is written straight on.
func writeFiles(files ...outFile) error {
	var staged []*stagedFile
	drop := func() {
		for _, s := range staged {
			s.end(true)
		}
	}
	seen := map[string]bool{}
	for _, f := range files {
		s, err := stage(f)
		if err != nil {
			drop()
			return err
		}
		if s == nil {
			continue
		}
		staged = append(staged, s)
		if seen[s.path] {
			drop()
			return fmt.Errorf("%s is asked for twice; give each file a name of its own", f.path)
		}
		seen[s.path] = true
	}
	return placeAll(staged)
}

// placeAll gives files that are written their names; when one cannot have its own, all are taken back.
func placeAll(staged []*stagedFile) (err error) {
	for _, s := range staged {
		if err = s.place(len(staged) > 1); err != nil {
			break
		}
	}
	for _, s := range staged {
		s.end(err != nil)
	}
	return err
}

// stagedFile is a file that is written, but does not have its name yet.
type stagedFile struct {
	path   string // with links followed
	beside string // where its content is; empty once it has its name
	before string // where what stood under the name before is kept meanwhile; empty for nothing
	placed bool
}

// stage writes a file beside its place; nil when it went straight to a device.
func stage(f outFile) (*stagedFile, error) {
	path := f.path
	mode := os.FileMode(0o644)
	switch info, err := os.Stat(path); {
	case err == nil && info.IsDir():
		return nil, fmt.Errorf("%s is a folder; give the name of a file", f.path)
	case err == nil && !info.Mode().IsRegular():
		return nil, os.WriteFile(path, f.data, mode)
	case err == nil:
		// Renaming asks nobody whether the file may be written; its owner may have meant it to stay.
		old, err := os.OpenFile(path, os.O_WRONLY, 0)
		if err != nil {
			return nil, err
		}
		if err := old.Close(); err != nil {
			return nil, err
		}
		if path, err = filepath.EvalSymlinks(path); err != nil {
			return nil, err
		}
		mode = info.Mode().Perm()
	case !errors.Is(err, os.ErrNotExist):
		return nil, err
	}

	s := &stagedFile{path: path}
	if err := s.write(f.data, mode); err != nil {
		s.end(true)
		return nil, fmt.Errorf("%s could not be written, and nothing is left of it: %w", f.path, err)
	}
	return s, nil
}

// write puts the content beside the file's place and brings it to the disk.
func (s *stagedFile) write(data []byte, mode os.FileMode) error {
	file, err := openBeside(s.path, mode)
	if err != nil {
		return err
	}
	s.beside = file.Name()
	n, err := file.Write(data)
	if err == nil && n < len(data) {
		err = io.ErrShortWrite
	}
	if err == nil {
		err = file.Sync()
	}
	if shut := file.Close(); err == nil {
		err = shut
	}
	return err
}

// maxBeside is how many names are tried for a file beside another.
const maxBeside = 1000

// openBeside makes a new file in the folder of path.
func openBeside(path string, mode os.FileMode) (*os.File, error) {
	for i := 0; ; i++ {
		name := filepath.Join(filepath.Dir(path), fmt.Sprintf(".%s.%d-%d.part", filepath.Base(path), os.Getpid(), i))
		file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if i < maxBeside && errors.Is(err, os.ErrExist) {
			continue
		}
		return file, err
	}
}

// place gives the file its name. Where there are others that may fail yet, what stood there before is kept.
func (s *stagedFile) place(others bool) error {
	info, err := os.Lstat(s.path)
	if err == nil && info.IsDir() {
		return fmt.Errorf("%s is a folder; give the name of a file", s.path)
	}
	if others && err == nil {
		keep := s.beside + ".before"
		if err := os.Rename(s.path, keep); err != nil {
			return err
		}
		s.before = keep
	}
	if err := os.Rename(s.beside, s.path); err != nil {
		return err
	}
	s.beside, s.placed = "", true
	return nil
}

// end takes away what is no longer needed; when the whole failed, also the file itself, and puts back what stood there.
func (s *stagedFile) end(failed bool) {
	if s.beside != "" {
		os.Remove(s.beside)
	}
	if failed && s.placed {
		os.Remove(s.path)
	}
	switch {
	case s.before != "" && failed:
		os.Rename(s.before, s.path)
	case s.before != "":
		os.Remove(s.before)
	}
}
