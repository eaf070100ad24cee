// Package scan traces a scan or a photo: it reads a picture and returns the outlines of its ink in millimetres.
//
// A picture is brought to grey, its uneven light is levelled, the ink's edge is followed between the pixels, what is
// too small is dropped, and the edge is drawn with few points. A drawing of lines is read as what its closed lines
// surround.
package scan

import "openwork/pattern/outline"

// IsPicture reports whether the data starts as a kind of picture does that is read here.
func IsPicture(data []byte) bool { return pictureDecoder(data) != nil }

// Read reads a picture (PNG, JPEG, GIF, BMP, TIFF, WebP), whose kind is known by its content; name is only used in
// messages and may be empty. An error is a sentence to show to a person: what is wrong and what to do.
//
// The outlines follow the ink's edge within Options.ToleranceMM, apart from sharp corners, which a lens and a scanner
// round off: there the two sides are carried on to where they meet.
func Read(data []byte, name string, o outline.Options) (outline.Result, error) {
	return outline.ReadWith(func(data []byte, name string, o outline.Options) (outline.Result, error) {
		d := pictureDecoder(data)
		if d == nil {
			return outline.Result{}, outline.Unknown(name)
		}
		return readPicture(data, d, name, o)
	}, data, name, o)
}
