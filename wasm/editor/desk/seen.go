package desk

import (
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/sentences"
	"openwork/pattern/sheet/whole"
)

// see looks at the field: at the cell for the marks at the copy in hand, and at the whole panel for the line at the foot.
func (k *Desk) see() {
	k.live = sheet.Check(k.layout, &k.looked.Within)
	k.seen = nil
	if r, ok := k.looked.Look(k.layout, k.InHand()); ok {
		k.seen = &r
	}
}

// seenVerdict says what a frame's look at the whole panel showed. Where that was all of it, it is what the check in the
// engine will say; where not, the line says so, and nothing is said to hold.
func (k *Desk) seenVerdict(r *whole.Report) Verdict {
	scope := sentences.Scope{Frame: true}
	if r.Partial {
		scope.Partial = true
		scope.Rest = "Where openings run together or the edge cuts them, not all is looked at yet" + k.whenRest()
	}
	return k.words().Verdict(r.Report, told(k.shown()), scope)
}

// whenRest says when the engine looks at the rest.
func (k *Desk) whenRest() string {
	if k.InHand() {
		return "; that is done when you let go."
	}
	return "; that is being done."
}
