package fit

import (
	"errors"
	"fmt"
	"math"

	"openwork/pattern"
	"openwork/pattern/draft"
)

// nearby is found by Settle alone: a place that keeps the bridge, near the one that a motif has.
const nearby Find = "nearby"

// ErrNoPlace is returned where a motif has no place nearby that keeps the bridge.
var ErrNoPlace = errors.New("there is no place nearby where it keeps the narrowest bridge")

const (
	// settleWays is how many directions are tried round a motif's place, on settleRings rings.
	settleWays, settleRings = 8, 4
	// settleStep is the distance of the rings, settleBox the first step of a descent, in reaches: small, so that the
	// motif comes to rest near where it was let go.
	settleStep, settleBox = 0.15, 0.05
)

// Settle returns a motif moved, its turn kept, to a place where its copies keep the bridge from each other and from
// everything else: of those found from where it lies and from points round it, the nearest. The rest of the draft
// stays, faults of other motifs too. A motif that keeps the bridge where it is is returned as it is; one on a mirror
// or a rotation point is moved as any other.
func Settle(d draft.Draft, id string) (draft.Motif, error) {
	which := -1
	q := &Question{Draft: d, Find: nearby, Hold: Hold{Turn: true, Mirrored: true}, Leave: true,
		shapes: pattern.NewShapes()}
	for i, m := range d.Motifs {
		if m.ID == id {
			which = i
		} else {
			q.Hold.Motifs = append(q.Hold.Motifs, m.ID)
		}
	}
	if which < 0 {
		return draft.Motif{}, fmt.Errorf("no motif is called %.40q", id)
	}
	narrowest, cut, _, err := judge(d, which, q.shapes)
	if err != nil {
		return draft.Motif{}, err
	}
	if !cut && narrowest.D >= d.Sheet.Bridge {
		return d.Motifs[which], nil
	}

	groups, err := q.check()
	if err != nil {
		return draft.Motif{}, err
	}
	s, err := newSetting(q, groups[0])
	if err != nil {
		return draft.Motif{}, err
	}
	h := newSearch(s, 0)
	h.descent.look.only = which
	return h.nearest(which)
}

// nearest lets a motif down from where it is and from points round it, and returns it at the nearest place that holds.
func (h *search) nearest(which int) (draft.Motif, error) {
	s := h.setting
	at, reach := place(which), s.motifs[which].fine[0].reach
	hands := make([]int, len(s.motifs))
	best, moved := draft.Motif{}, math.Inf(1)
	for ring := range settleRings + 1 {
		away := float64(ring) * settleStep * reach
		if away > moved {
			break
		}
		for way := range max(1, min(ring, 1)*settleWays) {
			y := append([]float64(nil), s.start...)
			sin, cos := math.Sincos(2 * math.Pi * float64(way) / settleWays)
			y[at], y[at+1] = y[at]+away*cos, y[at+1]+away*sin
			h.bodies(hands, true)
			h.descent.breach = strictBreach
			end, _, breached := h.descent.run(y, settleBox*reach, fineEnd*reach, fineSteps)
			x, up := end[at]-s.start[at], end[at+1]-s.start[at+1]
			gone := math.Sqrt(x*x + up*up)
			if breached > fineBreach*reach || gone >= moved {
				continue
			}
			d, _, err := s.draftOf(found{y: append([]float64(nil), end...), hands: hands})
			if err != nil {
				continue
			}
			if narrowest, cut, _, err := judge(d, which, s.question.shapes); err != nil || cut ||
				narrowest.D < d.Sheet.Bridge {
				continue
			}
			best, moved = d.Motifs[which], gone
		}
	}
	if math.IsInf(moved, 1) {
		return best, ErrNoPlace
	}
	return best, nil
}
