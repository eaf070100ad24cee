package cutplan

import (
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"openwork/pattern/draft"
	"openwork/pattern/measure"
)

// Fact is something that a shop asks about a file: a name and what is to be known.
type Fact struct{ Name, Value string }

// String is the fact on one line.
func (f Fact) String() string { return f.Name + ": " + f.Value }

// factKerf is the name of the fact who allows for the kerf.
const factKerf = "Kerf"

// KerfTaken says who allows for the kerf.
func (p *Plan) KerfTaken() string {
	for _, f := range p.Facts {
		if f.Name == factKerf {
			return f.Value
		}
	}
	return ""
}

// maxLink is how many characters of a draft's link a file carries at most: more than a QR code holds.
const maxLink = 8000

// facts says what a shop asks about the file, beyond its drawing: who allows for the kerf, the stock, how true the
// curves are, and what tells this file from another.
func (b *build) facts() []Fact {
	u := b.o.unit()
	out := []Fact{{factKerf, b.kerfTaken()}, {"Cut by", string(b.how())}, {"Stock", b.Stock}}
	if b.Thickness > 0 {
		out = append(out, Fact{"Thickness", u.Fine(b.Thickness)})
	}
	out = append(out, Fact{"Tolerance", "curves within " + u.Fine(b.o.Tolerance) + " of the outlines"})
	if b.o.Trim != TrimCut {
		out = append(out, Fact{"Outline", b.o.Trim.Said(b.o.Lines.Mark.Name)})
	}
	if b.o.Mirrored {
		out = append(out, Fact{"Side", "mirrored, to be cut from the back; words on it are read from there"})
	}
	if b.o.LeadIn > 0 && b.How != draft.Knife {
		out = append(out, Fact{"Lead-in", u.Fine(b.o.LeadIn) + ", from inside what drops out, where there is room"})
	}
	if b.o.Label.Date != "" {
		out = append(out, Fact{"Date", b.o.Label.Date})
	}
	out = append(out, Fact{"Checksum", b.made.Checksum + ", of what is cut"})
	switch {
	case len(b.o.Link) > maxLink:
		out = append(out, Fact{"Draft", "its link is too long for this file"})
	case b.o.Link != "":
		out = append(out, Fact{"Draft", b.o.Link})
	}
	for i := range out {
		out[i].Value = strings.ReplaceAll(out[i].Value, "\u00a0", " ")
	}
	return out
}

func (b *build) how() draft.How { return draft.Sheet{Cut: b.How}.How() }

// kerfTaken says who allows for the kerf.
func (b *build) kerfTaken() string {
	switch {
	case b.how() == draft.Knife:
		return "none; a knife takes no material away, and the lines are those of the openings"
	case b.Kerf == 0:
		return "0, not taken: the lines are those of the openings, and the machine compensates"
	}
	lie := "inside the openings and outside the sheet"
	if b.o.Trim != TrimCut {
		lie = "inside the openings"
	}
	return b.o.unit().Fine(b.Kerf) + ", taken already: the lines lie half of it " + lie +
		"; nothing is to be compensated again"
}

// unit is what figures in files and on labels are written in.
func (o Options) unit() measure.Unit { return measure.Of(o.Units) }

// size writes the sheet's size.
func (b *build) size(w, h float64) string {
	if u := b.o.unit(); u.Inches {
		return u.Size(w, h)
	}
	return fmt.Sprintf("%s × %s mm", length(w), length(h))
}

// labelFacts are those that are marked on the sheet, short.
func (b *build) labelFacts() []string {
	u := b.o.unit()
	stock := b.Stock
	if b.Thickness > 0 {
		stock = strings.TrimSpace(stock + " " + u.Fine(b.Thickness))
	}
	kerf := "kerf " + u.Fine(b.Kerf) + " taken"
	if b.Kerf == 0 {
		kerf = "kerf not taken"
	}
	return []string{stock + "  " + string(b.how()), kerf + "  within " + u.Fine(b.o.Tolerance) + "  " + b.made.Checksum}
}

// markFacts marks the facts in the margin, beside the label.
func (b *build) markFacts() {
	h, layer := b.o.Label.Height, b.o.Label.Layer
	if h == 0 {
		return
	}
	if layer == "" {
		layer = Mark
	}
	lines := b.labelFacts()
	if !b.write([]string{strings.Join(lines, "  ")}, h, layer, ClassFacts) &&
		!b.write(lines, h, layer, ClassFacts) && !b.write(lines[1:], h, layer, ClassFacts) {
		b.note("There is no room in the margin for stock, kerf and checksum; the file and the job sheet say them.")
	}
}

// checksum returns a checksum, CRC-32 in eight hexadecimal digits, of what is cut: the sheet's outline and its
// openings, in whole steps from the corner of its box, with the kerf that is taken, the tolerance, whether it is
// mirrored, and whether the outline is not cut. It is the same in every format, with any colours and any furniture.
func (s Sheet) checksum(o Options) string {
	var b []byte
	put := func(v float64) { b = binary.LittleEndian.AppendUint64(b, uint64(int64(math.Round(v/Step)))) }
	from := s.Outline.Bound().Min
	outline := func(mp orb.MultiPolygon, shift orb.Point) {
		for _, poly := range mp {
			for _, ring := range poly {
				for _, p := range ring {
					put(p[0] + shift[0] - from[0])
					put(p[1] + shift[1] - from[1])
				}
			}
		}
	}

	put(s.Kerf)
	put(o.Tolerance)
	if o.Mirrored {
		put(1)
	}
	if o.Trim != TrimCut {
		put(2)
	}
	outline(s.Outline, orb.Point{})
	sums := make([]uint32, 0, len(s.Openings))
	for _, o := range s.Openings {
		head := len(b)
		outline(o.Shape.Outline(), o.Shift)
		sums = append(sums, crc32.ChecksumIEEE(b[head:]))
		b = b[:head]
	}
	for _, v := range sums {
		b = binary.LittleEndian.AppendUint32(b, v)
	}
	return fmt.Sprintf("%08X", crc32.ChecksumIEEE(b))
}
