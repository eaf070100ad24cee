package draft

import (
	"fmt"

	"github.com/paulmach/orb"

	"openwork/geometry"
)

// Subject is what stands in front of the pattern: its outline, in its own frame, and where it stands on the panel. It
// carries the outline's point p to At + R(Turn)·Scale·M(p), in panel mm, where M mirrors x when Mirrored. Room is the
// distance in panel mm kept round it, and Edge says what becomes of the pattern there: Crop, Whole or Behind.
type Subject struct {
	ID       string           `json:"id"`
	Name     string           `json:"name"`
	Outline  orb.MultiPolygon `json:"outline"`
	At       [2]float64       `json:"at"`
	Turn     float64          `json:"turn"`
	Scale    float64          `json:"scale"`
	Mirrored bool             `json:"mirrored"`
	Room     float64          `json:"room"`
	Edge     Edge             `json:"edge"`
}

// Behind is the edge of a subject behind which the pattern runs on; a mask covers it while the pattern is laid. With
// Crop openings stop at the line of its room, and with Whole only copies that lie wholly outside the room are kept.
const Behind Edge = "behind"

// Map returns the map from the subject's own frame to panel mm.
func (s Subject) Map() geometry.Map {
	return Motif{At: s.At, Turn: s.Turn, Scale: s.Scale, Mirrored: s.Mirrored}.Map()
}

// Placed returns the subject's outline on the panel, in mm.
func (s Subject) Placed() orb.MultiPolygon {
	return geometry.Orient(geometry.Transform(s.Outline, s.Map()))
}

// Subject returns the index of the subject with the given id, −1 when there is none.
func (d Draft) Subject(id string) int {
	for i, s := range d.Subjects {
		if s.ID == id {
			return i
		}
	}
	return -1
}

// KeepsRoom reports whether the pattern gives way to a subject.
func (d Draft) KeepsRoom() bool {
	for _, s := range d.Subjects {
		if s.Edge != Behind {
			return true
		}
	}
	return false
}

// SubjectObject is a subject.
var SubjectObject = &Object{
	Members: []*Member{
		{Key: "id", Type: ID, Required: true, Max: MaxID, Link: Coding{Kind: "id", Expect: numbered("subject")},
			at: func(o any) any { return &o.(*Subject).ID }},
		{Key: "name", Type: Text, Max: MaxText, Words: "name",
			Link: Coding{Kind: "text", Expect: func(_ *Draft, owner any, _ int) any {
				return owner.(*Subject).ID
			}},
			missing: func(_ *Draft, owner any) { s := owner.(*Subject); s.Name = s.ID },
			at:      func(o any) any { return &o.(*Subject).Name }},
		{Key: "outline", Type: Outline, Required: true, at: func(o any) any { return &o.(*Subject).Outline }},
		{Key: "at", Type: Point, Required: true, Min: -MaxPlace, Max: MaxPlace, Unit: "mm",
			Words: "from the left, from the foot", Link: Coding{Kind: "number",
				Expect: func(d *Draft, _ any, _ int) any { return d.panelCentre() }},
			at: func(o any) any { return &o.(*Subject).At }},
		{Key: "turn", Min: -MaxTurn, Max: MaxTurn, Unit: "degrees", Words: "turned by",
			Link: Coding{Kind: "angle", Expected: 0.0}, at: func(o any) any { return &o.(*Subject).Turn }},
		{Key: "scale", Default: 1.0, Min: MinScale, Max: MaxScale, Words: "scale",
			Link: Coding{Kind: "scale", Expected: 1.0}, at: func(o any) any { return &o.(*Subject).Scale }},
		{Key: "mirrored", Type: Flag, Words: "mirrored", Link: Coding{Kind: "mirrored"},
			at: func(o any) any { return &o.(*Subject).Mirrored }},
		{Key: "room", Default: UsualRoom, Max: MaxRoom, Unit: "mm", Words: "room round it",
			Link: Coding{Kind: "number", Expected: UsualRoom}, at: func(o any) any { return &o.(*Subject).Room }},
		{Key: "edge", Type: Choice, Default: string(Crop),
			Choices: []string{string(Crop), string(Whole), string(Behind)},
			Unknown: "a way for the pattern at a subject; the ways are crop, whole and behind",
			at:      func(o any) any { return (*string)(&o.(*Subject).Edge) }},
	},
}

// UsualRoom is the room round a new subject, in mm.
const UsualRoom = 10.0

// OffPanel says that a subject, whose outline on the panel is placed, lies wholly off it; empty where it does not.
// Such a draft is valid: nothing of the subject is lost, and it can be brought back.
func (d Draft) OffPanel(s Subject, placed *geometry.Shape) string {
	panel, b := d.PanelBound(), placed.Bound()
	if panel.Contains(b.Min) && panel.Contains(b.Max) ||
		geometry.OverlapArea(geometry.RectShape(panel), placed, orb.Point{}) > 0 {
		return ""
	}
	return fmt.Sprintf("The subject %s lies off the panel, so that nothing gives way to it; its place may be from 0 "+
		"to %g mm across and from 0 to %g mm up.", s.Name, d.Panel.Width, d.Panel.Height)
}
