package joined

import (
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/overlay"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
)

// identify sets what each part is known by: its number, side and upper edge, and the letters of the joints it meets; in
// the free sheet, and what has no room there on a tab that is cut with the part and cut off once it is laid. It returns
// the numbers of parts that have room for neither.
func (j *Joined) identify() (lacking []string) {
	j.letters()
	height := j.o.Cut.Label.Height
	for k := range j.Parts {
		p := &j.Parts[k]
		p.cut, p.Letters = p.outline, []string{}
		var meets []Letter
		for _, l := range j.Letters {
			if l.side(p.Number) != "" {
				meets = append(meets, l)
				p.Letters = append(p.Letters, l.Letter)
			}
		}
		if height == 0 {
			continue // no label is wanted
		}
		if !j.identifyPart(k, meets, height) {
			lacking = append(lacking, fmt.Sprint(p.Number))
		}
	}
	return lacking
}

// identifyPart sets the texts of one part; false when some have no room on the sheet and no tab fits the bed.
func (j *Joined) identifyPart(k int, meets []Letter, height float64) bool {
	p := &j.Parts[k]
	var texts []cutplan.Text
	for _, l := range meets {
		t := cutplan.Text{Forms: []string{l.Letter}, Height: height + 1, Near: orb.LineString(l.line),
			Reach: letterReach}
		for _, other := range meets {
			if other.Letter != l.Letter {
				t.Others = append(t.Others, orb.LineString(other.line))
			}
		}
		texts = append(texts, t)
	}
	texts = append(texts, cutplan.Text{Forms: j.names(p), Height: height})
	done := j.Sheet(k).Write(texts, j.o.Cut.Holes.Diameter)

	var onTab []string
	name := done[len(meets)]
	p.written = nil
	for i, w := range done {
		switch {
		case w.Words != "":
			p.written = append(p.written, w)
		case i < len(meets):
			onTab = append(onTab, meets[i].side(p.Number)+" "+meets[i].Letter)
		}
	}
	if len(onTab) == 0 && name.Words != "" {
		return true
	}

	// The tab says whose it is, also when the part says so itself.
	words := j.short(p) + " side up ↑"
	if len(onTab) > 0 {
		words += "\n" + strings.Join(onTab, ", ")
	}
	p.Tab = j.tab(p, words)
	return p.Tab
}

// names are the wordings of what a part is called, from long to short: with the side that is up, and an arrow to the
// edge that is.
func (j *Joined) names(p *Part) []string {
	b := p.outline.Bound()
	u := j.unit()
	plate := ""
	if j.plate != "" {
		plate = j.plate + ", "
	}
	long := fmt.Sprintf("%s, %spart %d of %d  %s", j.l.Draft.Title, plate, p.Number, len(j.Parts),
		u.Size(b.Max[0]-b.Min[0], b.Max[1]-b.Min[1]))
	up := "this side up ↑ this edge up"
	if date := j.o.Cut.Label.Date; date != "" {
		long += "  " + date
	}
	middle := fmt.Sprintf("%spart %d of %d", plate, p.Number, len(j.Parts))
	return []string{long + "  " + up, long + "\n" + up, middle + "  " + up, middle + "\n" + up,
		middle + "\nthis side up ↑", j.short(p) + " side up ↑", j.short(p) + "\nside\nup ↑",
		j.short(p) + " up ↑", j.short(p) + "\nup ↑"}
}

// short is a part's number among all, behind that of its plate.
func (j *Joined) short(p *Part) string {
	name := fmt.Sprintf("%d/%d", p.Number, len(j.Parts))
	if j.plate != "" {
		name = fmt.Sprintf("plate %d, %s", j.plateNumber, name)
	}
	return name
}

// tab adds a tab with some words to a part, on a neck, on the side where it makes the part least larger; false when no
// part with a tab fits the bed.
func (j *Joined) tab(p *Part, words string) bool {
	text := cutplan.WrittenAt(words, tabText, orb.Point{})
	size := orb.Point{text.Box.Max[0] + 2*tabRim, text.Box.Max[1] + 2*tabRim}
	b := p.outline.Bound()
	bed := draft.Bed{Width: j.o.Bed.Width - j.l.Draft.Sheet.KerfTaken(),
		Height: j.o.Bed.Height - j.l.Draft.Sheet.KerfTaken()}
	shape := geometry.NewShape(p.outline)

	best, least := orb.Bound{}, math.Inf(1)
	var with orb.MultiPolygon
	for _, side := range []orb.Point{{0, 1}, {0, -1}, {1, 0}, {-1, 0}} {
		along, across := 0, 1
		if side[1] == 0 {
			along, across = 1, 0
		}
		for n := 0; n <= int((b.Max[along]-b.Min[along]-size[along])/tabStep); n++ {
			var r orb.Bound
			r.Min[along] = b.Min[along] + float64(n)*tabStep
			r.Min[across] = b.Max[across] + tabGap
			if side[across] < 0 {
				r.Min[across] = b.Min[across] - tabGap - size[across]
			}
			r.Max = geometry.Add(r.Min, size)
			all := b.Union(r)
			w, h := all.Max[0]-all.Min[0], all.Max[1]-all.Min[1]
			if !(w <= bed.Width && h <= bed.Height || w <= bed.Height && h <= bed.Width) || w*h >= least-1 {
				continue
			}
			if mp, ok := tabbed(p.outline, shape, r, side); ok {
				best, least, with = r, w*h, mp
			}
		}
	}
	if with == nil {
		return false
	}
	p.cut = with
	p.written = append(p.written, cutplan.WrittenAt(words, tabText, geometry.Add(best.Min, orb.Point{tabRim, tabRim})))
	return true
}

// tabbed returns a part's outline with a tab beside its box, on a neck that runs from it into the part; false where the
// neck would meet the part otherwise than across its edge.
func tabbed(mp orb.MultiPolygon, shape *geometry.Shape, tab orb.Bound, side orb.Point) (orb.MultiPolygon, bool) {
	into := geometry.Times(side, -1)
	edge := tab.Center() // middle of the tab's side that faces the part
	for axis := range 2 {
		if side[axis] > 0 {
			edge[axis] = tab.Min[axis]
		} else if side[axis] < 0 {
			edge[axis] = tab.Max[axis]
		}
	}
	beside := orb.Point{side[1], side[0]}
	deep := 0.0
	for _, off := range []float64{-neckHalf, -neckHalf / 2, 0, neckHalf / 2, neckHalf} {
		hit, ok := shape.RayHit(geometry.Add(edge, geometry.Times(beside, off)), into, maxNeck)
		if !ok {
			return nil, false
		}
		deep = math.Max(deep, hit)
	}
	neck := orb.Bound{Min: edge, Max: edge}.Extend(geometry.Add(edge, geometry.Times(into, deep+neckInto)))
	neck = neck.Extend(geometry.Add(edge, geometry.Times(beside, neckHalf)))
	neck = neck.Extend(geometry.Add(edge, geometry.Times(beside, -neckHalf)))
	neck = neck.Extend(geometry.Add(edge, geometry.Times(side, 0.5)))
	out, err := overlay.Union(mp, geometry.RectOutline(tab), geometry.RectOutline(neck))
	return out, err == nil && len(out) == 1 && len(out[0]) == len(mp[0])
}
