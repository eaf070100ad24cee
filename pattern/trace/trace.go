// Package trace reads a drawing to outlines, whichever kind of file it comes in.
package trace

import (
	"openwork/pattern/outline"
	"openwork/pattern/scan"
	"openwork/pattern/svgin"
)

// Read reads a picture (PNG, JPEG, GIF, BMP, TIFF, WebP) or an SVG drawing. It looks at the content to tell which; name
// is only used in messages and may be empty. An error is a sentence to show to a person: what is wrong and what to do.
func Read(data []byte, name string, o outline.Options) (outline.Result, error) {
	if scan.IsPicture(data) {
		return scan.Read(data, name, o)
	}
	return svgin.Read(data, name, o)
}
