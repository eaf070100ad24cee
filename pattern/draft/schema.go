package draft

import "math"

// Type is what a member holds.
type Type uint8

// The types of members.
const (
	Number  Type = iota
	Text         // of up to Max characters
	Flag         // true or false
	Point        // x and y, both from Min to Max
	Choice       // one of Choices
	Group        // the short symbol of a plane group
	ID           // a text that no other item of its list has
	Ref          // the ID of an item of the list To; where it is Optional and must be there, null stands for none
	Outline      // polygons as GeoJSON has them
	Record       // an object of the members in Of; where it is Optional it may be missing as a whole
	List         // of up to Max objects of the members in Of
	Format       // the version of drafts
	Colour       // sRGB as #rrggbb
	Integer      // a whole number from Min to Max
	Pair         // two of them
	Row          // up to Max whole numbers, which a rule sees to
	Rows         // up to Max of those
	Refs         // up to Max IDs of the list To
	Numbers      // whole numbers by the IDs of the list To, which a rule sees to
)

// Items names the list that a Ref means items of.
type Items uint8

// The lists that have IDs.
const (
	Silhouettes Items = iota
	Motifs
	Swatches
)

// Member is one row of the schema: a key of an object in a draft's file, with all that is said of it. The reader, the
// writer, the validator, the link and the page's number fields go by it.
type Member struct {
	Key      string
	Type     Type
	Required bool // a file must have it; what else is missing has the Default
	// left out of the file where it is zero or empty, which means: not said; a Choice also where it is the first
	Optional bool
	Usual    bool     // a Number that is left out of the file where it has the Default
	To       Items    // of Ref, Refs and Numbers
	Default  any      // a float64, a string or a bool; nil for the zero value
	Min, Max float64  // of numbers, both ends allowed; Max also of a list's items
	Unit     string   // of numbers: "mm", "degrees" or none
	ZeroToo  bool     // zero is allowed though it lies outside the range: not said
	Choices  []string // of a Choice
	Unknown  string   // of a Choice: what another text is not, and what there is
	Words    string   // as the page calls it
	Of       *Object  // of a Record or a List
	Link     Coding

	at func(owner any) any // pointer to the value; nil for an Optional Record that is missing
	// makes an Optional Record, or one more item of a List, and returns a pointer to it
	add     func(owner any) any
	drop    func(owner any)                  // takes an Optional Record away
	none    any                              // one that says nothing
	count   func(owner any) int              // items of a List
	item    func(owner any, i int) any       // pointer to one
	id      func(owner any, i int) string    // its ID, where items have one
	same    func(owner, was any, i int) bool // whether item i is what it was; nil where that is not asked
	missing func(d *Draft, owner any)        // what a file without the member means, where Default does not say it
}

// Coding says how a link codes a member. It is frozen: what is expected of a value is part of the links' format,
// whatever becomes of its Default.
type Coding struct {
	Since    int    // the first version of links that has it: 0 for that of the object it is in
	Kind     string // values of one kind come true as expected equally often: link.kinds
	Expected any    // a float64 or a string: the value that takes least room
	// Expect, where it is not nil, returns the value expected of item i of the list that the owner is in.
	Expect func(d *Draft, owner any, i int) any
}

// Object is the members of an object in a draft's file, in the order in which they are written.
type Object struct {
	Members []*Member
	Lines   bool // each member is written on a line of its own
	// rule says what is wrong with the members taken together, and at which of them; no text where nothing is.
	rule func(c *checker, owner any) (key, text string)
}

// noLimit is a range's end for numbers that a rule of their object sees to.
const noLimit = math.MaxFloat64

// items fills in what a List needs of its slice; fresh is the zero item with its defaults.
func items[O, V any](m Member, list func(*O) *[]V) *Member {
	m.Type = List
	m.count = func(owner any) int { return len(*list(owner.(*O))) }
	m.add = func(owner any) any {
		l := list(owner.(*O))
		*l = append(*l, *new(V))
		return &(*l)[len(*l)-1]
	}
	m.item = func(owner any, i int) any { return &(*list(owner.(*O)))[i] }
	return &m
}

// plainItems is items for plain values, of which the validator passes over those that a command left as they were.
func plainItems[O any, V comparable](m Member, list func(*O) *[]V) *Member {
	m.same = func(owner, was any, i int) bool {
		before := *list(was.(*O))
		return i < len(before) && (*list(owner.(*O)))[i] == before[i]
	}
	return items(m, list)
}

// Value returns a pointer to what the member holds in its owner; nil for an Optional Record that is missing.
func (m *Member) Value(owner any) any { return m.at(owner) }

// Add makes an Optional Record, or one more item of a List, with its defaults, and returns a pointer to it.
func (m *Member) Add(owner any) any {
	v := m.add(owner)
	m.Of.fill(v)
	return v
}

// Len returns how many items a List has.
func (m *Member) Len(owner any) int { return m.count(owner) }

// Item returns a pointer to item i of a List.
func (m *Member) Item(owner any, i int) any { return m.item(owner, i) }
