package symmetry

import "fmt"

// Sentence says in plain words what the element does to the field.
func (e Element) Sentence() string {
	switch e.Kind {
	case Mirror:
		return "Mirror: what lies on one side lies on the other too, reversed."
	case Glide:
		return "Glide: mirrored here and moved along by " + e.step() + "."
	}
	text := "Rotation point: given " + turns[e.Order] + " about it, the field falls on itself"
	if e.OnMirror {
		return text + fmt.Sprintf("; %d mirrors cross here.", e.Order)
	}
	return text + "; no mirror goes through it."
}

// turns names the smallest turn about a rotation point of each order.
var turns = map[int]string{
	2: "a half turn (180°)", 3: "a third of a turn (120°)", 4: "a quarter turn (90°)", 6: "a sixth of a turn (60°)",
}

// step says how far a glide moves things along.
func (e Element) step() string {
	k := 0
	if e.Along[k] == 0 {
		k = 1
	}
	share := Frac(e.Shift[k].Num, e.Shift[k].Den*e.Along[k])
	some := share.String() + " of "
	if share == Frac(1, 2) {
		some = "half "
	}
	switch e.Along {
	case [2]int{1, 0}:
		return some + "a cell, in the direction of a"
	case [2]int{0, 1}:
		return some + "a cell, in the direction of b"
	case [2]int{1, 1}, [2]int{1, -1}:
		return some + "the cell's diagonal"
	}
	return some + fmt.Sprintf("the way to the corner %d along a and %d along b", e.Along[0], e.Along[1])
}
