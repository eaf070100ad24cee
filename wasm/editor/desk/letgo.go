package desk

// dropHand puts back what the gesture in hand changed.
func (k *Desk) dropHand() {
	g := k.hand
	k.hand = gesture{}
	if g.deed == idle || g.deed == panning || g.deed == pinching {
		return
	}
	if penGesture(g.deed) {
		k.dropPen(g)
		return
	}
	k.history.Abandon()
	if g.travel >= slop {
		k.settled(false)
	}
}

// letGo ends what is in hand as if it were let go of, before something else changes the draft: a drag stays as far as it
// went, and a stroke or a trial of a drawing, which is nothing yet, goes.
func (k *Desk) letGo() {
	k.endNudge()
	g := k.hand
	switch {
	case g.deed == idle, g.deed == panning, g.deed == pinching:
	case g.deed == setting: // the point is set already
		k.hand = gesture{}
	case penGesture(g.deed):
		k.dropHand()
	default:
		k.hand = gesture{}
		k.history.Settle()
		if g.travel >= slop {
			k.rest()
			k.pictures++
		}
	}
}

// InHand reports whether a drag of a copy, a handle or the cell is under way.
func (k *Desk) InHand() bool {
	switch k.hand.deed {
	case idle, panning, pinching, stroking, setting, nudgingPoints, bending: // the draft stands still until the hand lets go
		return k.nudging
	}
	return true
}
