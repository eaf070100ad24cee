package sheet

import "slices"

// Kind is what is wrong. Let O be the union of all openings after the edge rule and S the sheet less O.
type Kind string

// The kinds of problem.
const (
	Overlap Kind = "overlap" // two copies whose interiors meet, over OverlapFrom mm²
	Bridge  Kind = "bridge"  // a strip of S narrower than sheet.bridge, between two openings or within one
	Tip     Kind = "tip"     // sheet narrower than sheet.bridge that is held at one end only
	Island  Kind = "island"  // a connected piece of S that does not reach the sheet's outer edge
	Opening Kind = "opening" // a place where O is narrower than sheet.opening, or is lost to the kerf
	Release Kind = "release" // an opening so small beside the sheet's thickness that paste may stay in it: a warning
	Edge    Kind = "edge"    // an opening that leaves the sheet or comes nearer to its edge than sheet.bridge
	// a sheet that does not fit the bed: a warning, for there are cures that leave the sheet as it is
	Size    Kind = "size"
	Subject Kind = "subject" // a subject off the panel, to which nothing gives way: a warning
	Empty   Kind = "empty"   // a panel without an opening
	Unclear Kind = "unclear" // a place where the arithmetic failed, so that nothing can be promised of it
)

// kindRow is what there is to know of a kind, once: a new kind is a constant, its row and the check that finds it.
type kindRow struct {
	kind          Kind
	largerIsWorse bool // it is measured by area; all others by a width or a distance that is too small
	note          bool // a warning of it asks for nothing to be changed in the pattern
	fault         Speech
	warning       Speech
	moves         []Move // that may mend it, besides those that part copies which come too near each other
}

// Speech is how problems of one kind and severity are spoken of and drawn.
type Speech struct {
	One, Many string                                        // counted: "1 overlap", "4 overlaps"
	Worst     func(w Words, n int, measured float64) string // the worst figure of n; nil where none is measured
	Sentence  func(w Words, p Problem) string               // about one problem
	Sign      Sign                                          // at its place
	Label     func(w Words, p Problem) string               // beside the sign; "" for none
}

// Move is a way to mend problems.
type Move string

// The moves. Each is a command that package mends looks for.
const (
	NoMove     Move = "none"
	TakeOut    Move = "take out" // a motif whose copies are those of another
	Tying      Move = "ties"
	Rounding   Move = "round" // of the outline's corners, tails and necks
	Filling    Move = "fill"  // of holes and gaps of the outline, with what they close in
	Margin     Move = "margin"
	CropCopies Move = "crop" // at the margin, so that there are openings at all
)

// table has the kinds in the order of what matters most. Some kinds are never warnings or never faults; they have words
// all the same, so that nothing that is found can go unsaid.
var table = []kindRow{
	{kind: Empty, moves: []Move{CropCopies}, fault: emptySpeech, warning: emptySpeech},
	{kind: Overlap, moves: []Move{TakeOut}, largerIsWorse: true,
		fault: Speech{One: "overlap", Many: "overlaps", Sentence: Words.overlap, Sign: SignRing, Label: unlabelled},
		warning: Speech{One: "motif exactly on another's copies", Many: "motifs exactly on another's copies",
			Sentence: Words.twice, Sign: SignTwin, Label: labelled("twice")}},
	{kind: Island, moves: []Move{Tying, Filling}, largerIsWorse: true, fault: islandSpeech, warning: islandSpeech},
	{kind: Bridge, moves: []Move{Rounding, Filling}, fault: bridgeSpeech, warning: bridgeSpeech},
	{kind: Unclear, moves: []Move{NoMove}, fault: unclearSpeech, warning: unclearSpeech},
	{kind: Opening, moves: []Move{Rounding},
		fault: Speech{One: "place in an opening too narrow for paste", Many: "places in openings too narrow for paste",
			Worst: Words.narrowest, Sentence: Words.opening, Sign: SignDimension, Label: Words.openingLabel},
		warning: Speech{One: "tail of an opening that paste will not fill",
			Many:     "tails of openings that paste will not fill",
			Sentence: Words.tail, Sign: SignBead, Label: Words.tailLabel}},
	{kind: Release, moves: []Move{NoMove}, fault: releaseSpeech, warning: releaseSpeech},
	{kind: Edge, moves: []Move{Margin}, fault: edgeSpeech, warning: edgeSpeech},
	{kind: Size, moves: []Move{NoMove}, note: true, fault: sizeSpeech, warning: sizeSpeech},
	{kind: Subject, moves: []Move{NoMove}, fault: subjectSpeech, warning: subjectSpeech},
	{kind: Tip, moves: []Move{Rounding}, fault: tipSpeech, warning: tipSpeech},
}

var (
	emptySpeech = Speech{One: "panel without an opening", Many: "panels without an opening", Sentence: Words.Empty,
		Sign: SignNone, Label: unlabelled}
	islandSpeech = Speech{One: "island that would drop out", Many: "islands that would drop out",
		Sentence: Words.island,
		Sign:     SignDoubleRing, Label: unlabelled}
	bridgeSpeech = Speech{One: "bridge too thin", Many: "bridges too thin", Worst: Words.thinnest,
		Sentence: Words.bridge,
		Sign:     SignDimension, Label: Words.bridgeLabel}
	unclearSpeech = Speech{One: "place that could not be measured", Many: "places that could not be measured",
		Sentence: Words.unclear, Sign: SignBroken, Label: labelled("not measured")}
	releaseSpeech = Speech{One: "opening that may hold its paste", Many: "openings that may hold their paste",
		Sentence: Words.release, Sign: SignBead, Label: labelled("may hold paste")}
	edgeSpeech = Speech{One: "opening too near the sheet's edge", Many: "openings too near the sheet's edge",
		Worst: Words.nearestEdge, Sentence: Words.edge, Sign: SignDimension, Label: Words.edgeLabel}
	sizeSpeech = Speech{One: "sheet larger than the bed", Many: "sheets larger than the bed", Sentence: Words.size,
		Sign: SignNone, Label: unlabelled}
	subjectSpeech = Speech{One: "subject off the panel", Many: "subjects off the panel", Sentence: Words.offPanel,
		Sign: SignNone, Label: unlabelled}
	tipSpeech = Speech{One: "tongue of sheet held at one end only", Many: "tongues of sheet held at one end only",
		Sentence: Words.tongue, Sign: SignLozenge, Label: Words.tongueLabel}
)

// rowOf returns a kind's row and its place in the table; a kind without one comes after all others.
func rowOf(k Kind) (kindRow, int) {
	for i, r := range table {
		if r.kind == k {
			return r, i
		}
	}
	return kindRow{kind: k}, len(table)
}

// Kinds returns every kind, what matters most first.
func Kinds() []Kind {
	out := make([]Kind, len(table))
	for i, r := range table {
		out[i] = r.kind
	}
	return out
}

// Rank returns a kind's place in Kinds; a kind that is not there comes last.
func (k Kind) Rank() int {
	_, i := rowOf(k)
	return i
}

// LargerIsWorse reports whether of two problems of this kind the one with the larger measure is the worse. Overlaps and
// islands are measured by area, all others by a width or a distance that is too small.
func (k Kind) LargerIsWorse() bool {
	r, _ := rowOf(k)
	return r.largerIsWorse
}

// MendedBy reports whether a move may mend problems of this kind.
func (k Kind) MendedBy(m Move) bool {
	r, _ := rowOf(k)
	return slices.Contains(r.moves, m)
}

// IsNote reports whether a problem asks for nothing to be changed in the pattern: a sheet larger than the bed is laid
// in another way.
func (p Problem) IsNote() bool {
	r, _ := rowOf(p.Kind)
	return r.note && p.Severity == Warning
}

// SpeechOf returns how problems of a kind and severity are spoken of.
func SpeechOf(k Kind, s Severity) Speech {
	r, _ := rowOf(k)
	if s == Warning {
		return r.warning
	}
	return r.fault
}

// Noun is what n problems are called.
func (s Speech) Noun(n int) string {
	if n == 1 {
		return s.One
	}
	return s.Many
}
