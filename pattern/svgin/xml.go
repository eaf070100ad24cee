package svgin

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

	parent, before *element // the element around it, and the one before it there
}

const (
	svgSpace  = "http://www.w3.org/2000/svg"
	linkSpace = "http://www.w3.org/1999/xlink"
)

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
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}):
		data = fromUTF16(data[2:], 1)
	case bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		data = fromUTF16(data[2:], 0)
	case bytes.HasPrefix(data, []byte{'<', 0}):
		data = fromUTF16(data, 1)
	case bytes.HasPrefix(data, []byte{0, '<'}):
		data = fromUTF16(data, 0)
	}

	start := bytes.TrimLeft(data, " \t\r\n")
	if len(start) < 2 || start[0] != '<' {
		return nil, nil
	}
	return data, nil
}

// fromUTF16 returns UTF-8; high is which byte of each two counts 256 times.
func fromUTF16(data []byte, high int) []byte {
	units := make([]uint16, 0, min(len(data), maxSVGBytes)/2)
	for k := 0; k+1 < len(data) && k < 2*maxSVGBytes; k += 2 {
		units = append(units, uint16(data[k+high])<<8|uint16(data[k+1-high]))
	}
	return []byte(string(utf16.Decode(units)))
}

// errNotSVG tells that the file is XML but no drawing.
var errNotSVG = errors.New("is not an SVG drawing")

// errEntities tells that the file leans on definitions of its own.
var errEntities = errors.New("defines entities of its own, which are not read; save it again as plain SVG")

// unexpanded stands for an entity that the file defines. None is expanded: in the name of a namespace, where some
// programs write them, none is needed, and anywhere else the file is refused.
const unexpanded = "\ufffc"

// parseXML reads the tree of elements. Everything that could make a small file large is refused: entities of its own
// above all.
func parseXML(data []byte) (*element, error) {
	d := xml.NewDecoder(bytes.NewReader(data))
	d.CharsetReader = charset
	var root *element
	var open []*element
	count, skipping := 0, 0
	names := spaces{uri: map[string]string{}}
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
			if d.Entity == nil {
				d.Entity = map[string]string{}
			}
			if !namesEntities(string(t), d.Entity) {
				return nil, errEntities
			}
		case xml.ProcInst:
			if t.Target == "xml-stylesheet" {
				return nil, errors.New("wants a style sheet from another file, and nothing is fetched; save it again " +
					"with its styles inside")
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
				names.root = t.Name.Space
			}
			e, foreign := newElement(t, &names)
			if len(d.Entity) > 0 && !foreign {
				for _, v := range e.attr {
					if strings.Contains(v, unexpanded) {
						return nil, errEntities
					}
				}
			}
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
				e.parent = open[len(open)-1]
				if n := len(e.parent.kids); n > 0 {
					e.before = e.parent.kids[n-1]
				}
				e.parent.kids = append(e.parent.kids, e)
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
			if len(d.Entity) > 0 && skipping == 0 && bytes.Contains(t, []byte(unexpanded)) {
				return nil, errEntities
			}
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

// namesEntities adds the entities that a document type declaration defines to those that are known by name. It is false
// for one that builds definitions from parts.
func namesEntities(declaration string, names map[string]string) bool {
	for {
		at := strings.Index(declaration, "<!ENTITY")
		if at < 0 {
			return true
		}
		declaration = declaration[at+len("<!ENTITY"):]
		words := strings.Fields(declaration[:min(len(declaration), 200)])
		if len(words) == 0 || words[0] == "%" {
			return false
		}
		names[words[0]] = unexpanded
	}
}

// spaces are the prefixes of names and what they stand for: the last declaration of each, wherever it is, and that of
// the root.
type spaces struct {
	uri  map[string]string
	root string
}

// newElement copies an element's name and attributes. foreign tells that it belongs to another language than the root.
func newElement(t xml.StartElement, names *spaces) (e *element, foreign bool) {
	e = &element{name: t.Name.Local, attr: make(map[string]string, len(t.Attr))}
	for _, a := range t.Attr {
		if a.Name.Space == "xmlns" {
			names.uri[a.Name.Local] = a.Value
		}
	}
	foreign = t.Name.Space != "" && t.Name.Space != "svg" && t.Name.Space != names.root &&
		names.uri[t.Name.Space] != svgSpace
	for _, a := range t.Attr {
		switch {
		case a.Name.Space == "" && a.Name.Local == "xmlns":
			if a.Value != svgSpace && e.name != "svg" {
				foreign = true
			}
		case a.Name.Space == "":
			e.attr[a.Name.Local] = a.Value
		case a.Name.Local == "href" && (a.Name.Space == "xlink" || names.uri[a.Name.Space] == linkSpace):
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
