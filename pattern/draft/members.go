package draft

import (
	"strconv"
)

// Schema is a draft's file. What a member's name means to the painter stands in Words; lengths are mm, angles degrees.
// The defaults are the trade's usual numbers (common practice; see the caution texts): polyester film for knife and
// thick paste, 0.35 mm, kerf 0.2, bridges from 3 mm, openings from 1.5 mm, margin 20 mm.
var Schema = &Object{
	Lines: true,
	rule:  (*checker).cellNotTooFull,
	Members: []*Member{
		{Key: "openwork", Type: Format, Required: true, at: func(o any) any { return &o.(*Draft).Openwork }},
		{Key: "title", Type: Text, Default: "Untitled", Max: MaxText, Words: "title",
			Link: Coding{Since: 1, Kind: "text", Expected: ""}, at: func(o any) any { return &o.(*Draft).Title }},
		{Key: "units", Type: Choice, Default: "mm", Choices: []string{"mm"},
			Unknown: "known here; a draft is in \"mm\"", at: func(o any) any { return &o.(*Draft).Units }},
		{Key: "panel", Type: Record, Required: true, Of: PanelObject, at: func(o any) any { return &o.(*Draft).Panel }},
		{Key: "field", Type: Record, Of: FieldObject, at: func(o any) any { return &o.(*Draft).Field }},
		{Key: "repeat", Type: Record, Required: true, Of: repeatObject,
			at: func(o any) any { return &o.(*Draft).Repeat }},
		items(Member{Key: "silhouettes", Required: true, Max: MaxSilhouettes, Of: silhouetteObject,
			Link: Coding{Since: 1},
			id:   func(o any, i int) string { return o.(*Draft).Silhouettes[i].ID }},
			func(d *Draft) *[]Silhouette { return &d.Silhouettes }),
		plainItems(Member{Key: "motifs", Required: true, Max: MaxMotifs, Of: MotifObject, Link: Coding{Since: 1},
			id: func(o any, i int) string { return o.(*Draft).Motifs[i].ID }},
			func(d *Draft) *[]Motif { return &d.Motifs }),
		plainItems(Member{Key: "ties", Optional: true, Max: MaxTies, Of: TieObject, Link: Coding{Since: 2}},
			func(d *Draft) *[]Tie { return &d.Ties }),
		{Key: "sheet", Type: Record, Of: SheetObject, at: func(o any) any { return &o.(*Draft).Sheet }},
		plainItems(Member{Key: "swatches", Optional: true, Max: MaxSwatches, Of: swatchObject, Link: Coding{Since: 4},
			id: func(o any, i int) string { return o.(*Draft).Swatches[i].ID }},
			func(d *Draft) *[]Swatch { return &d.Swatches }),
		{Key: "paint", Type: Record, Optional: true, Of: PaintObject, Link: Coding{Since: 4, Kind: "paint"},
			at: func(owner any) any {
				if d := owner.(*Draft); d.Paint != nil {
					return d.Paint
				}
				return nil
			},
			add: func(owner any) any {
				d := owner.(*Draft)
				d.Paint = &Paint{}
				return d.Paint
			},
			drop: func(owner any) { owner.(*Draft).Paint = nil },
			none: &Paint{}},
		items(Member{Key: "subjects", Optional: true, Max: MaxSubjects, Of: SubjectObject, Link: Coding{Since: 4},
			id: func(o any, i int) string { return o.(*Draft).Subjects[i].ID }},
			func(d *Draft) *[]Subject { return &d.Subjects }),
	},
}

// PanelObject is the panel.
var PanelObject = &Object{Members: []*Member{
	size("width", "width", 600, func(o any) any { return &o.(*Panel).Width }),
	size("height", "height", 900, func(o any) any { return &o.(*Panel).Height }),
}}

// size is a side of the panel or of the bed, which must be there.
func size(key, words string, usual float64, at func(any) any) *Member {
	return &Member{Key: key, Required: true, Default: usual, Min: MinSize, Max: MaxSize, Unit: "mm", Words: words,
		Link: Coding{Since: 1, Kind: "number", Expected: usual}, at: at}
}

// FieldObject is the field on it.
var FieldObject = &Object{
	rule: (*checker).marginLeavesAField,
	Members: []*Member{
		{Key: "margin", Default: 20.0, Max: MaxSize, Unit: "mm", Words: "margin all round",
			Link: Coding{Since: 1, Kind: "number", Expected: 20.0}, at: func(o any) any { return &o.(*Field).Margin }},
		{Key: "origin", Type: Point, Min: -MaxPlace, Max: MaxPlace, Unit: "mm", Words: "from the left, from the foot",
			Link: Coding{Since: 1, Kind: "number",
				Expect: func(d *Draft, _ any, _ int) any { return d.panelCentre() }},
			missing: func(d *Draft, _ any) { d.Field.Origin = d.panelCentre() },
			at:      func(o any) any { return &o.(*Field).Origin }},
		{Key: "turn", Min: -MaxTurn, Max: MaxTurn, Unit: "degrees", Words: "turned by",
			Link: Coding{Since: 1, Kind: "angle", Expected: 0.0}, at: func(o any) any { return &o.(*Field).Turn }},
		{Key: "edge", Type: Choice, Default: string(Crop),
			Choices: []string{string(Crop), string(Whole), string(Touching)},
			Unknown: "an edge rule; the rules are crop, whole and touching",
			Link:    Coding{Since: 1}, at: func(o any) any { return (*string)(&o.(*Field).Edge) }},
	},
}

func (d *Draft) panelCentre() [2]float64 { return [2]float64{d.Panel.Width / 2, d.Panel.Height / 2} }

// The cell's sides and angle have the ranges of its group; the rule asks for them.
var repeatObject = &Object{
	rule: (*checker).cellFitsGroup,
	Members: []*Member{
		{Key: "group", Type: Group, Required: true, Default: "p1", Link: Coding{Since: 1},
			at: func(o any) any { return &o.(*Repeat).Group }},
		{Key: "a", Required: true, Default: 150.0, Min: -noLimit, Max: noLimit, Unit: "mm", Words: "a, along",
			Link: Coding{Since: 1, Kind: "number", Expected: 150.0}, at: func(o any) any { return &o.(*Repeat).A }},
		{Key: "b", Required: true, Default: 120.0, Min: -noLimit, Max: noLimit, Unit: "mm", Words: "b, up",
			Link: Coding{Since: 1, Kind: "number", Expect: func(d *Draft, _ any, _ int) any { return d.Repeat.A }},
			at:   func(o any) any { return &o.(*Repeat).B }},
		{Key: "gamma", Required: true, Default: 90.0, Min: -noLimit, Max: noLimit, Unit: "degrees", Words: "γ, between",
			Link: Coding{Since: 1, Kind: "angle", Expected: 90.0}, at: func(o any) any { return &o.(*Repeat).Gamma }},
	},
}

var silhouetteObject = &Object{
	Members: []*Member{
		{Key: "id", Type: ID, Required: true, Max: MaxID, Link: Coding{Kind: "id", Expect: numbered("s")},
			at: func(o any) any { return &o.(*Silhouette).ID }},
		{Key: "name", Type: Text, Max: MaxText, Words: "name",
			Link: Coding{Kind: "text", Expect: func(_ *Draft, owner any, _ int) any {
				return owner.(*Silhouette).ID
			}},
			missing: func(_ *Draft, owner any) { s := owner.(*Silhouette); s.Name = s.ID },
			at:      func(o any) any { return &o.(*Silhouette).Name }},
		{Key: "outline", Type: Outline, Required: true, at: func(o any) any { return &o.(*Silhouette).Outline }},
	},
}

// numbered expects the ids that a draft's own commands give.
func numbered(prefix string) func(*Draft, any, int) any {
	return func(_ *Draft, _ any, i int) any { return prefix + strconv.Itoa(i+1) }
}

// MotifObject is a motif.
var MotifObject = &Object{Members: []*Member{
	{Key: "id", Type: ID, Required: true, Max: MaxID, Link: Coding{Kind: "id", Expect: numbered("m")},
		at: func(o any) any { return &o.(*Motif).ID }},
	{Key: "silhouette", Type: Ref, Required: true, Words: "silhouette",
		at: func(o any) any { return &o.(*Motif).Silhouette }},
	{Key: "at", Type: Point, Required: true, Min: -MaxPlace, Max: MaxPlace, Unit: "mm", Words: "x, y",
		Link: Coding{Kind: "number", Expected: [2]float64{}}, at: func(o any) any { return &o.(*Motif).At }},
	{Key: "turn", Min: -MaxTurn, Max: MaxTurn, Unit: "degrees", Words: "turn",
		Link: Coding{Kind: "angle", Expected: 0.0}, at: func(o any) any { return &o.(*Motif).Turn }},
	{Key: "scale", Default: 1.0, Min: MinScale, Max: MaxScale, Words: "scale",
		Link: Coding{Kind: "scale", Expected: 1.0}, at: func(o any) any { return &o.(*Motif).Scale }},
	{Key: "mirrored", Type: Flag, Words: "mirrored", Link: Coding{Kind: "mirrored"},
		at: func(o any) any { return &o.(*Motif).Mirrored }},
}}

// TieObject is a tie. Its ends must lie apart. Many run along x or y, and most are as wide as the one before.
var TieObject = &Object{
	rule: (*checker).tieHasLength,
	Members: []*Member{
		{Key: "silhouette", Type: Ref, Required: true, Optional: true, Link: Coding{Kind: "field's"},
			at: func(o any) any { return &o.(*Tie).Silhouette }},
		{Key: "from", Type: Point, Required: true, Min: -MaxPlace, Max: MaxPlace, Unit: "mm",
			Link: Coding{Kind: "tie", Expected: [2]float64{}}, at: func(o any) any { return &o.(*Tie).From }},
		{Key: "to", Type: Point, Required: true, Min: -MaxPlace, Max: MaxPlace, Unit: "mm",
			Link: Coding{Kind: "tie", Expect: func(_ *Draft, owner any, _ int) any { return owner.(*Tie).From }},
			at:   func(o any) any { return &o.(*Tie).To }},
		{Key: "width", Required: true, Min: MinTie, Max: MaxTie, Unit: "mm", Words: "tie width",
			Link: Coding{Kind: "tie width", Expect: func(d *Draft, _ any, i int) any {
				if i == 0 {
					return 3.0
				}
				return d.Ties[i-1].Width
			}},
			at: func(o any) any { return &o.(*Tie).Width }},
	},
}

// SheetObject is the sheet.
var SheetObject = &Object{Members: []*Member{
	{Key: "stock", Type: Text, Default: "polyester film", Max: MaxText, Words: "stock",
		Link: Coding{Since: 1, Kind: "text", Expected: "polyester film"},
		at:   func(o any) any { return &o.(*Sheet).Stock }},
	asked("thickness", "thickness", 0.35, MinThick, MaxThick, func(o any) any { return &o.(*Sheet).Thickness }),
	asked("kerf", "kerf", 0.2, 0, MaxKerf, func(o any) any { return &o.(*Sheet).Kerf }),
	asked("bridge", "bridges from", 3, 0, MaxNarrow, func(o any) any { return &o.(*Sheet).Bridge }),
	asked("opening", "openings from", 1.5, 0, MaxNarrow, func(o any) any { return &o.(*Sheet).Opening }),
	side("width", "sheet width", func(o any) any { return &o.(*Sheet).Width }),
	side("height", "sheet height", func(o any) any { return &o.(*Sheet).Height }),
	{Key: "bed", Type: Record, Optional: true, Of: bedObject, Link: Coding{Since: 1, Kind: "bed"},
		at: func(owner any) any {
			if s := owner.(*Sheet); s.Bed != nil {
				return s.Bed
			}
			return nil
		},
		add: func(owner any) any {
			s := owner.(*Sheet)
			s.Bed = &Bed{}
			return s.Bed
		},
		drop: func(owner any) { owner.(*Sheet).Bed = nil },
		none: &Bed{}},
	{Key: "cut", Type: Choice, Optional: true,
		Choices: []string{string(Laser), string(Knife), string(Waterjet)}, Words: "how it is cut",
		Unknown: "a way of cutting; the ways are laser, knife and waterjet",
		Link:    Coding{Since: 3}, at: func(o any) any { return (*string)(&o.(*Sheet).Cut) }},
}}

// asked is a number that the stock or the shop asks for.
func asked(key, words string, usual, low, limit float64, at func(any) any) *Member {
	return &Member{Key: key, Default: usual, Min: low, Max: limit, Unit: "mm", Words: words,
		Link: Coding{Since: 1, Kind: "number", Expected: usual}, at: at}
}

// side is a side of the sheet; zero means the panel's own.
func side(key, words string, at func(any) any) *Member {
	return &Member{Key: key, Optional: true, Min: MinSize, Max: MaxSize, Unit: "mm", Words: words,
		Link: Coding{Since: 1, Kind: "number", Expected: 0.0}, at: at}
}

// A bed of which one side is not said has it zero.
var bedObject = &Object{Members: []*Member{
	bedSide("width", "bed width", 600, func(o any) any { return &o.(*Bed).Width }),
	bedSide("height", "bed height", 900, func(o any) any { return &o.(*Bed).Height }),
}}

func bedSide(key, words string, usual float64, at func(any) any) *Member {
	m := size(key, words, usual, at)
	m.Default = nil
	m.ZeroToo = true
	return m
}
