package outline

import (
	"bytes"
	"compress/gzip"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// element is one element of an SVG drawing.
type element struct {
	name string            // without its prefix
	attr map[string]string // by name without prefix; href is also xlink:href
	kids []*element
	text string // of a style element
}

const svgSpace = "http://www.w3.org/2000/svg"

// plainText returns what may be XML as UTF-8, unpacked if it is packed, or nil if it is not XML at all.
func plainText(data []byte) ([]byte, error) {
	if bytes.HasPrefix(data, []byte{0x1f, 0x8b}) {
		z, err := gzip.NewReader(bytes.NewReader(data))
		if err != nil {
			return nil, nil
		}
		data, err = io.ReadAll(io.LimitReader(z, maxSVGBytes+1))
		if err != nil && len(data) == 0 {
			return nil, nil
		}
		if err != nil {
			return nil, errors.New("is packed, and damaged or cut short")
		}
	}
	switch {
	case bytes.HasPrefix(data, []byte{0xef, 0xbb, 0xbf}):
		data = data[3:]
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}), bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		data = fromUTF16(data)
	}
	start := bytes.TrimLeft(data, " \t\r\n")
	if len(start) < 2 || start[0] != '<' {
		return nil, nil
	}
	return data, nil
}

// fromUTF16 returns UTF-8; the data starts with a byte order mark.
func fromUTF16(data []byte) []byte {
	high := 0
	if data[0] == 0xff {
		high = 1
	}
	units := make([]uint16, 0, min(len(data), maxSVGBytes)/2)
	for k := 2; k+1 < len(data) && k < 2*maxSVGBytes; k += 2 {
		units = append(units, uint16(data[k+high])<<8|uint16(data[k+1-high]))
	}
	return []byte(string(utf16.Decode(units)))
}

// errNotSVG tells that the file is XML but no drawing.
var errNotSVG = errors.New("is not an SVG drawing")

// parseXML reads the tree of elements. Everything that could make a small file large is refused: definitions of entities
// above all.
func parseXML(data []byte) (*element, error) {
	d := xml.NewDecoder(bytes.NewReader(data))
	d.CharsetReader = charset
	var root *element
	var open []*element
	count, skipping, prefix := 0, 0, ""
	for {
		t, err := d.RawToken()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, brokenXML(err, root)
		}
		switch t := t.(type) {
		case xml.Directive:
			if s := strings.ToUpper(string(t)); strings.Contains(s, "<!ENTITY") || strings.Contains(s, "[") {
				return nil, errors.New("defines entities of its own, which are not read; save it again as plain SVG")
			}
		case xml.ProcInst:
			if t.Target == "xml-stylesheet" {
				return nil, errors.New("wants a style sheet from another file, and nothing is fetched; save it again with its styles inside")
			}
		case xml.StartElement:
			count++
			switch {
			case count > maxElements:
				return nil, fmt.Errorf("has more than %d elements", maxElements)
			case len(open)+skipping >= maxDepth:
				return nil, fmt.Errorf("has elements within elements more than %d deep", maxDepth)
			case skipping > 0:
				skipping++
				continue
			}
			if root == nil {
				prefix = t.Name.Space
			}
			e, foreign := newElement(t, prefix)
			if root == nil {
				if e.name != "svg" {
					return nil, errNotSVG
				}
				root = e
			} else if len(open) == 0 {
				return nil, errors.New("has more than one root element")
			} else if foreign {
				skipping++
				continue
			} else {
				parent := open[len(open)-1]
				parent.kids = append(parent.kids, e)
			}
			open = append(open, e)
		case xml.EndElement:
			if skipping > 0 {
				skipping--
				continue
			}
			if len(open) == 0 || open[len(open)-1].name != t.Name.Local {
				return nil, fmt.Errorf("has an end </%.40s> that nothing began", t.Name.Local)
			}
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 && skipping == 0 && open[len(open)-1].name == "style" {
				open[len(open)-1].text += string(t)
			}
		}
	}
	switch {
	case root == nil:
		return nil, errNotSVG
	case len(open) > 0 || skipping > 0:
		return nil, errors.New("is cut short; save or send it again")
	}
	return root, nil
}

// newElement copies an element's name and attributes. foreign tells that it belongs to another language than the root.
// Prefixes are judged by themselves: that of the root and svg are SVG's, xlink is what it always is.
func newElement(t xml.StartElement, prefix string) (e *element, foreign bool) {
	e = &element{name: t.Name.Local, attr: map[string]string{}}
	foreign = t.Name.Space != "" && t.Name.Space != "svg" && t.Name.Space != prefix
	for _, a := range t.Attr {
		switch {
		case a.Name.Space == "":
			if a.Name.Local == "xmlns" && a.Value != svgSpace && e.name != "svg" {
				foreign = true
			}
			e.attr[a.Name.Local] = a.Value
		case a.Name.Local == "href" && a.Name.Space == "xlink":
			if _, ok := e.attr["href"]; !ok {
				e.attr["href"] = a.Value
			}
		}
	}
	return e, foreign
}

// brokenXML turns the decoder's error into a sentence's end.
func brokenXML(err error, root *element) error {
	if root == nil {
		return errNotSVG
	}
	var s *xml.SyntaxError
	if errors.As(err, &s) {
		if strings.Contains(s.Msg, "unexpected EOF") {
			return errors.New("is cut short; save or send it again")
		}
		return fmt.Errorf("is not well formed: line %d, %.80s", s.Line, s.Msg)
	}
	return fmt.Errorf("cannot be read: %w", err)
}

// charset lets through UTF-8 and turns Latin-1, near enough for names and numbers, into it.
func charset(label string, in io.Reader) (io.Reader, error) {
	switch strings.ToLower(label) {
	case "utf-8", "utf8", "us-ascii", "ascii", "utf-16":
		return in, nil // UTF-16 has been turned already
	case "iso-8859-1", "latin1", "windows-1252", "iso-8859-15":
		data, err := io.ReadAll(in)
		if err != nil {
			return nil, err
		}
		out := make([]byte, 0, len(data))
		for _, b := range data {
			out = utf8.AppendRune(out, rune(b))
		}
		return bytes.NewReader(out), nil
	}
	return nil, fmt.Errorf("its letters are coded as %.40s; save it again as UTF-8", label)
}
