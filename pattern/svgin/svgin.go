// Package svgin reads an SVG drawing to outlines in millimetres: it is walked element by element, with its style
// sheets, its filled shapes and its strokes are united and drawn with few points. Nothing is ever fetched and no entity
// is expanded.
package svgin

import (
	"fmt"

	"openwork/pattern/outline"
)

// Read reads an SVG drawing, plain or packed by gzip, in UTF-8, UTF-16 or Latin-1; name is only used in messages and
// may be empty. An error is a sentence to show to a person: what is wrong and what to do.
func Read(data []byte, name string, o outline.Options) (outline.Result, error) {
	return outline.ReadWith(func(data []byte, name string, o outline.Options) (outline.Result, error) {
		text, err := plainText(data)
		if err != nil {
			return outline.Result{}, fmt.Errorf("%s %w", name, err)
		}
		if text == nil {
			return outline.Result{}, outline.Unknown(name)
		}
		return readSVG(text, name, o)
	}, data, name, o)
}
