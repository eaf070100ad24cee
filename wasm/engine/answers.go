package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"openwork/pattern"
	"openwork/pattern/outline"
	"openwork/pattern/recognise"
)

// recognition is the answer of recognise.
func recognition(d pattern.Draft) (recognise.Finding, error) {
	l, err := layoutOf(d)
	if err != nil {
		return recognise.Finding{}, err
	}
	return recognise.Of(l)
}

// layoutOf lays a draft out.
func layoutOf(d pattern.Draft) (*pattern.Layout, error) {
	return pattern.NewLayout(d, pattern.NewShapes())
}

// silhouettes names what was traced after the file: "carp", "carp 2", …
func silhouettes(r outline.Result, name string) []pattern.Silhouette {
	base := strings.TrimSuffix(filepath.Base(name), filepath.Ext(name))
	if base == "" || base == "." {
		base = "silhouette"
	}
	out := []pattern.Silhouette{}
	for i, p := range r.Pieces {
		s := pattern.Silhouette{ID: fmt.Sprintf("s%d", i+1), Name: base, Outline: p.Outline}
		if i > 0 {
			s.Name = fmt.Sprintf("%s %d", base, i+1)
		}
		out = append(out, s)
	}
	return out
}
