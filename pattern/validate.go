package pattern

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/pattern/symmetry"
)

// PlaceError is a fault in a draft: where it is, as a path in the draft's file, and what is wrong there.
type PlaceError struct {
	Place string // "motifs[2].turn"; empty when the draft as a whole is meant
	Text  string // a sentence without its full stop
}

// Error returns place and text: "motifs[2].turn: not a number".
func (e *PlaceError) Error() string {
	if e.Place == "" {
		return e.Text
	}
	return e.Place + ": " + e.Text
}

// Check says what keeps the draft from being one that everything else can work with; nil when nothing does. It is what
// Decode asks of a file, and Apply of what a command made. An error is always a *PlaceError.
func (d Draft) Check() error { return d.CheckAfter(Draft{}) }

// CheckAfter is Check for a draft made from was, which has passed it: outlines that the two share are not gone through
// again, so that a motif can be dragged without paying for its silhouette at every step.
func (d Draft) CheckAfter(was Draft) error {
	for _, part := range []func() error{d.checkHead, d.checkPanel, d.checkRepeat,
		func() error { return d.checkSilhouettes(was) }, d.checkMotifs,
		func() error { return d.checkTies(was) }, d.checkSheet} {
		if err := part(); err != nil {
			return err
		}
	}
	return nil
}

func (d Draft) checkHead() error {
	if d.Openwork != Version {
		return &PlaceError{"openwork", otherVersion(float64(d.Openwork))}
	}
	if text := badText(d.Title, MaxText); text != "" {
		return &PlaceError{"title", text}
	}
	if d.Units != "mm" {
		return &PlaceError{"units", fmt.Sprintf("%.40q is not known here; a draft is in \"mm\"", d.Units)}
	}
	return nil
}

func otherVersion(v float64) string {
	if v > Version {
		return fmt.Sprintf("this draft is of version %g, and this program reads version %d; a newer program is needed", v, Version)
	}
	return fmt.Sprintf("%g is not a version of drafts; this program reads version %d", v, Version)
}

func (d Draft) checkPanel() error {
	f := d.Field
	if err := within([]span{
		{"panel.width", d.Panel.Width, MinSize, MaxSize, "mm"},
		{"panel.height", d.Panel.Height, MinSize, MaxSize, "mm"},
		{"field.margin", f.Margin, 0, MaxSize, "mm"},
		{"field.origin[0]", f.Origin[0], -MaxPlace, MaxPlace, "mm"},
		{"field.origin[1]", f.Origin[1], -MaxPlace, MaxPlace, "mm"},
		{"field.turn", f.Turn, -MaxTurn, MaxTurn, "degrees"},
	}); err != nil {
		return err
	}
	if half := math.Min(d.Panel.Width, d.Panel.Height) / 2; f.Margin >= half {
		return &PlaceError{"field.margin", fmt.Sprintf("%g mm leave no field on a panel of %g × %g mm; a margin under %g mm does",
			f.Margin, d.Panel.Width, d.Panel.Height, half)}
	}
	switch f.Edge {
	case Crop, Whole, Touching:
		return nil
	}
	return &PlaceError{"field.edge", fmt.Sprintf("%.40q is not an edge rule; the rules are %s, %s and %s", string(f.Edge), Crop, Whole, Touching)}
}

func (d Draft) checkRepeat() error {
	r := d.Repeat
	g, err := symmetry.Find(r.Group)
	if err != nil {
		return &PlaceError{"repeat.group", err.Error()}
	}
	if g.Symbol != r.Group {
		return &PlaceError{"repeat.group", fmt.Sprintf("%s is kept under its short symbol, %s", r.Group, g.Symbol)}
	}
	for _, v := range []struct {
		place string
		v     float64
	}{{"repeat.a", r.A}, {"repeat.b", r.B}, {"repeat.gamma", r.Gamma}} {
		if !finite(v.v) {
			return &PlaceError{v.place, "not a number"}
		}
	}
	if err := g.CheckCell(r.Cell()); err != nil {
		key, text, ok := strings.Cut(err.Error(), ": ")
		if !ok {
			return &PlaceError{"repeat", err.Error()}
		}
		return &PlaceError{"repeat." + key, text}
	}
	return nil
}

func (d Draft) checkSilhouettes(was Draft) error {
	if n := len(d.Silhouettes); n > MaxSilhouettes {
		return &PlaceError{"silhouettes", fmt.Sprintf("there are %d; a draft holds up to %d", n, MaxSilhouettes)}
	}
	seen := make(map[string]int, len(d.Silhouettes))
	points := 0
	for i, s := range d.Silhouettes {
		at := func(key, text string) error { return &PlaceError{"silhouettes[" + strconv.Itoa(i) + "]." + key, text} }
		if text := badID(s.ID, seen, i, "silhouettes"); text != "" {
			return at("id", text)
		}
		if text := badText(s.Name, MaxText); text != "" {
			return at("name", text)
		}
		if points += geometry.Points(s.Outline); points > MaxPoints {
			return &PlaceError{"silhouettes", tooManyPoints}
		}
		if i < len(was.Silhouettes) && sameOutline(s.Outline, was.Silhouettes[i].Outline) {
			continue
		}
		if old, ok := was.Silhouette(s.ID); ok && sameOutline(s.Outline, old.Outline) {
			continue
		}
		var fault *geometry.OutlineError
		if err := geometry.CheckOutline(s.Outline); errors.As(err, &fault) {
			return at("outline"+fault.Path(), fault.Text())
		} else if err != nil {
			return at("outline", err.Error())
		}
	}
	return nil
}

var tooManyPoints = fmt.Sprintf("the outlines have more than %d points together; trace them with a wider tolerance", MaxPoints)

// sameOutline reports whether two outlines are one value in memory. Outlines are never changed in place.
func sameOutline(a, b orb.MultiPolygon) bool {
	return len(a) == len(b) && len(a) > 0 && &a[0] == &b[0]
}

func (d Draft) checkMotifs() error {
	if n := len(d.Motifs); n > MaxMotifs {
		return &PlaceError{"motifs", fmt.Sprintf("there are %d; a draft holds up to %d", n, MaxMotifs)}
	}
	seen := make(map[string]int, len(d.Motifs))
	points := 0
	for i, m := range d.Motifs {
		at := func(key, text string) error { return &PlaceError{"motifs[" + strconv.Itoa(i) + "]." + key, text} }
		if text := badID(m.ID, seen, i, "motifs"); text != "" {
			return at("id", text)
		}
		s, ok := d.Silhouette(m.Silhouette)
		if !ok {
			return at("silhouette", d.noSilhouette(m.Silhouette))
		}
		points += geometry.Points(s.Outline)
		for _, s := range [...]span{
			{"at[0]", m.At[0], -MaxPlace, MaxPlace, "mm"},
			{"at[1]", m.At[1], -MaxPlace, MaxPlace, "mm"},
			{"turn", m.Turn, -MaxTurn, MaxTurn, "degrees"},
			{"scale", m.Scale, MinScale, MaxScale, ""},
		} {
			if text := s.fault(); text != "" {
				return at(s.place, text)
			}
		}
	}
	if g, err := symmetry.Find(d.Repeat.Group); err == nil && points*len(g.Ops) > MaxCellPoints {
		return &PlaceError{"motifs", fmt.Sprintf("their copies in one cell of %s have %d points together, and the limit is %d; "+
			"trace the silhouettes with a wider tolerance, or take motifs out", g.Symbol, points*len(g.Ops), int(MaxCellPoints))}
	}
	return nil
}

// noSilhouette is the sentence for a name that no silhouette has. It lists those that there are, the first few.
func (d Draft) noSilhouette(id string) string {
	const few = 8
	var names []string
	for _, s := range d.Silhouettes[:min(few, len(d.Silhouettes))] {
		names = append(names, strconv.Quote(s.ID))
	}
	text := fmt.Sprintf("no silhouette is called %.40q; there ", id)
	switch n := len(d.Silhouettes); {
	case n == 0:
		return text + "is none"
	case n > few:
		return text + fmt.Sprintf("are %s and %d more", strings.Join(names, ", "), n-few)
	case n == 1:
		return text + "is " + names[0]
	}
	return text + "are " + strings.Join(names, ", ")
}

func (d Draft) checkSheet() error {
	s := d.Sheet
	if text := badText(s.Stock, MaxText); text != "" {
		return &PlaceError{"sheet.stock", text}
	}
	spans := []span{
		{"sheet.thickness", s.Thickness, MinThick, MaxThick, "mm"},
		{"sheet.kerf", s.Kerf, 0, MaxKerf, "mm"},
		{"sheet.bridge", s.Bridge, 0, MaxNarrow, "mm"},
		{"sheet.opening", s.Opening, 0, MaxNarrow, "mm"},
	}
	sizes := []span{{"sheet.width", s.Width, MinSize, MaxSize, "mm"}, {"sheet.height", s.Height, MinSize, MaxSize, "mm"}}
	if s.Bed != nil {
		sizes = append(sizes, span{"sheet.bed.width", s.Bed.Width, MinSize, MaxSize, "mm"},
			span{"sheet.bed.height", s.Bed.Height, MinSize, MaxSize, "mm"})
	}
	for _, size := range sizes {
		if size.v != 0 { // not said
			spans = append(spans, size)
		}
	}
	return within(spans)
}

// span is a number of the draft and where it may lie, both ends allowed.
type span struct {
	place  string
	v      float64
	lo, hi float64
	unit   string
}

// fault returns what is wrong with the number, empty when nothing is.
func (s span) fault() string {
	if !finite(s.v) {
		return "not a number"
	}
	if s.v >= s.lo && s.v <= s.hi {
		return ""
	}
	unit := s.unit
	if unit != "" {
		unit = " " + unit
	}
	return fmt.Sprintf("%g is out of range; it may be from %s to %s%s", s.v, plain(s.lo), plain(s.hi), unit)
}

// plain writes a limit without an exponent.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

func within(spans []span) error {
	for _, s := range spans {
		if text := s.fault(); text != "" {
			return &PlaceError{s.place, text}
		}
	}
	return nil
}

func finite(v float64) bool { return math.Abs(v) <= math.MaxFloat64 }

// badText returns what is wrong with a text, empty when nothing is.
func badText(s string, limit int) string {
	if strings.ToValidUTF8(s, "") != s {
		return "the text is not valid UTF-8"
	}
	if n := len([]rune(s)); n > limit {
		return fmt.Sprintf("the text has %d characters; up to %d are kept", n, limit)
	}
	return ""
}

// badID returns what is wrong with the id of list[i], empty when nothing is, and notes it in seen.
func badID(id string, seen map[string]int, i int, list string) string {
	if id == "" {
		return "an id must not be empty"
	}
	if text := badText(id, MaxID); text != "" {
		return text
	}
	if j, ok := seen[id]; ok {
		return fmt.Sprintf("%q is the id of %s[%d] already", id, list, j)
	}
	seen[id] = i
	return ""
}
