// Package link puts a whole draft into the part of an address after the #, and reads it back.
//
// A link is "#ow1." and base64url (RFC 4648, section 5, without padding) of: how many bytes of content follow the check
// sum (seven bits a byte, lowest first, the eighth set where more follow), the CRC-32 (IEEE) of "ow1." and the content,
// high byte first, and the content. The content is the draft's values in the order of the schema, written by an
// adaptive binary arithmetic coder (coder.go), which needs about 5 bits for a point of a smooth outline and 17 for one
// of an outline drawn with few points. Outlines are kept to 0.01 mm (tolerance.go), everything else exactly.
//
// Version 1 is frozen: links live in letters and on shop walls. What Encode writes may change only if Decode still
// reads what it wrote before; any other change takes a new version number and leaves the reading of the old one in
// place.
//
// Which version has which member stands in the schema (draft.Coding). Version 2 is version 1 with ties after the sheet,
// its "1." being "2." in the text and in the check sum. A draft without ties is still written in version 1, byte for
// byte, and version 2 has at least one. Version 3 has how the sheet is cut besides, where that is not by laser, and
// version 4 swatches, paint or subjects.
package link

import (
	"encoding/base64"
	"errors"
	"fmt"
	"hash/crc32"
	"slices"
	"strconv"
	"strings"

	"openwork/pattern/draft"
)

const (
	name    = "ow"
	version = 4 // the newest that is read

	plainLinks = 1 // the first version

	// MaxLink is how many characters of a link are read. 200,000 points in full precision, the most that a draft holds,
	// take some 4.3 million.
	MaxLink = 6 << 20
)

// head is what a link of a version begins with, after the #.
func head(version int) string { return name + strconv.Itoa(version) + "." }

// Encode returns the link of a draft: the fragment of an address, from # on. The same draft gives the same link, and so
// does the draft that the link opens to. Outlines in it lie within 0.005 mm of the draft's in x and in y, with points
// that fall together left out; all else is exact. A draft that does not pass Check has no link: that is the only error.
func Encode(d draft.Draft) (string, error) {
	if err := d.Check(); err != nil {
		return "", fmt.Errorf("the draft cannot be put into a link: %w", err)
	}
	c := newWriter()
	d = copied(d)
	version := needs(&d)
	c.draft(&d, version)
	return wrap(version, c.finish()), nil
}

// copied returns the draft with lists of its own: a coder sets what it codes, and may make a negative zero a plain one.
func copied(d draft.Draft) draft.Draft {
	d.Silhouettes, d.Motifs, d.Ties = slices.Clone(d.Silhouettes), slices.Clone(d.Motifs), slices.Clone(d.Ties)
	d.Subjects = slices.Clone(d.Subjects)
	if d.Swatches = slices.Clone(d.Swatches); d.Paint != nil {
		d.Paint = d.Paint.Clone()
	}
	if d.Sheet.Bed != nil {
		bed := *d.Sheet.Bed
		d.Sheet.Bed = &bed
	}
	return d
}

// wrap puts name, version, length and check sum before the content.
func wrap(version int, content []byte) string {
	var out []byte
	n := len(content)
	for ; n >= 0x80; n >>= 7 {
		out = append(out, byte(n)|0x80)
	}
	out = append(out, byte(n))
	sum := checkSum(version, content)
	out = append(out, byte(sum>>24), byte(sum>>16), byte(sum>>8), byte(sum))
	return "#" + head(version) + base64.RawURLEncoding.EncodeToString(append(out, content...))
}

func checkSum(version int, content []byte) uint32 {
	return crc32.Update(crc32.ChecksumIEEE([]byte(head(version))), crc32.IEEETable, content)
}

// Decode opens a link: a whole address, or its fragment with or without the #. White space in it, as mail programs put
// it there, and marks of punctuation after it do not matter. The error says in a sentence what is wrong with the link:
// that it is empty, another page's, of a newer version, cut short, damaged, or holds a draft that does not pass Check.
func Decode(s string) (draft.Draft, error) {
	if len(s) > MaxLink {
		return draft.Draft{}, fmt.Errorf("the link has more than %d characters, which none has", MaxLink)
	}
	v, body, err := cut(s)
	if err != nil {
		return draft.Draft{}, err
	}
	content, err := unwrap(v, body)
	if err != nil {
		return draft.Draft{}, err
	}
	c := newReader(content)
	d := draft.Default()
	c.draft(&d, v)
	if c.left() {
		c.bad("it goes on after the draft")
	}
	if c.err != nil {
		return draft.Draft{}, fmt.Errorf("the link does not hold a draft: %w", c.err)
	}
	if err := d.Check(); err != nil {
		return draft.Draft{}, fmt.Errorf("the link holds a draft that cannot be used: %w", err)
	}
	return d, nil
}

// cut returns the version, and what follows it, in an address or a fragment.
func cut(s string) (int, string, error) {
	s = strings.Join(strings.Fields(s), "")
	s = strings.TrimRight(s, ".,;:!?)>]}'\"»")
	if s == "" {
		return 0, "", errors.New("the link is empty; copy the whole address, with everything after the #")
	}
	address, fragment, found := strings.Cut(s, "#")
	switch {
	case found && fragment == "":
		return 0, "", errors.New("nothing follows the # of the link; copy the whole address")
	case !found && strings.Contains(s, "://"):
		return 0, "", errors.New("the address has no # with a draft after it; copy the whole address")
	case !found:
		fragment = address
	}

	number, body, found := strings.Cut(strings.TrimPrefix(fragment, name), ".")
	v, err := strconv.ParseUint(number, 10, 31)
	if !found || err != nil || !strings.HasPrefix(fragment, name) {
		return 0, "", fmt.Errorf("%.40q is not a link to a draft; one begins with #%s", fragment, head(plainLinks))
	}
	if v > version {
		return 0, "", fmt.Errorf("the link is of version %d, and this program reads version %d; a newer program is "+
			"needed", v,
			version)
	}
	if v < plainLinks || !strings.HasPrefix(fragment, head(int(v))) {
		return 0, "", fmt.Errorf("%.40q is not a version of links; one begins with #%s", number, head(plainLinks))
	}
	return int(v), body, nil
}

// unwrap takes off base64, length and check sum.
func unwrap(version int, body string) ([]byte, error) {
	for i, c := range body {
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_') {
			return nil, fmt.Errorf("the link is damaged: it has a %q after %d characters of the draft, which no link "+
				"has; copy it again", c, i)
		}
	}
	short := errors.New("the link is cut short before the draft begins; copy the whole of it")
	whole := body
	if len(whole)%4 == 1 {
		whole = whole[:len(whole)-1] // half a byte: the link was cut here, and the length will tell
	}
	data, err := base64.RawURLEncoding.DecodeString(whole)
	if err != nil {
		return nil, errors.New("the link is damaged; copy it again")
	}
	n, used := 0, 0
	for {
		if used == len(data) {
			return nil, short
		}
		b := data[used]
		if used == 4 || (used > 0 && b == 0) {
			return nil, errors.New("the link is damaged: its length makes no sense; copy it again")
		}
		n |= int(b&0x7f) << (7 * used)
		if used++; b < 0x80 {
			break
		}
	}

	const sum = 4
	if len(data) < used+sum {
		return nil, short
	}
	if got, want := len(body), base64.RawURLEncoding.EncodedLen(used+sum+n); got < want {
		return nil, fmt.Errorf("the link is cut short: %d of its %d characters are there; copy the whole of it",
			got+1+len(head(version)), want+1+len(head(version)))
	} else if got > want {
		return nil, fmt.Errorf("the link goes on for %d characters after its end; copy it again", got-want)
	}
	content := data[used+sum:]
	given := uint32(data[used])<<24 | uint32(data[used+1])<<16 | uint32(data[used+2])<<8 | uint32(data[used+3])
	if given != checkSum(version, content) || base64.RawURLEncoding.EncodeToString(data) != body {
		return nil, errors.New("the link is damaged: its check sum does not agree; copy it again")
	}
	return content, nil
}
