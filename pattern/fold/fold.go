// Package fold makes a silhouette symmetrical where it stands on a mirror or a rotation point: by keeping one part and
// mirroring it, or by gathering its images into one. Outlines in mm, y up, in the silhouette's own frame.
package fold

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/offset"
	"openwork/geometry/overlay"
	"openwork/pattern"
)

// Ways of making a silhouette symmetrical.
const (
	Keep   = "keep"   // the part between two mirrors that holds most of the silhouette is kept and mirrored
	Other  = "other"  // the part on the other side of a mirror of it
	Gather = "gather" // all images about the place are united
)

// overlapMM is how far beyond its mirrors a kept part is cut, in mm, so that it and its mirror image run into one
// another instead of only touching. It is below what the draft's grid keeps.
const overlapMM = 2e-5

// Outline returns the outline, in the silhouette's frame, that the motif would have after being made symmetrical in the
// given way at the place where it stands. The motif's place, turn and scale stay as they are. It fails when the motif
// stands on no mirror (keep, other) or on nothing at all, or when the part to keep is empty.
func Outline(l *pattern.Layout, motif int, way string) (orb.MultiPolygon, error) {
	if motif < 0 || motif >= len(l.Orbits) {
		return nil, fmt.Errorf("there is no motif %d", motif)
	}
	site := l.Site(motif)
	if site.Order == 1 {
		return nil, errors.New("the motif stands on no mirror and on no rotation point; drag it to one first")
	}
	if !site.Lacks {
		return nil, errors.New("the silhouette has the symmetry of its place already; there is nothing to mend")
	}
	o := l.Orbits[motif]
	back, ok := o.Place.Inverse()
	if !ok {
		return nil, errors.New("the motif has no size")
	}
	part := geometry.Transform(o.Bare.Outline(), o.Place)
	if way != Gather {
		var err error
		if part, err = cut(part, site, way); err != nil {
			return nil, err
		}
	}
	images := []orb.MultiPolygon{part}
	for _, g := range site.Fixing {
		images = append(images, geometry.Orient(geometry.Transform(part, g)))
	}
	whole, err := overlay.Union(images...)
	if err != nil {
		return nil, fmt.Errorf("the parts cannot be joined: %w", err)
	}
	return snap(geometry.Transform(whole, back))
}

// cut returns the part of a shape between two neighbouring mirrors.
func cut(shape orb.MultiPolygon, site pattern.Site, way string) (orb.MultiPolygon, error) {
	if site.Mirrors == 0 {
		return nil, errors.New("the motif stands on a rotation point without mirrors, where nothing can be folded; " +
			"gather it instead")
	}
	if way != Keep && way != Other {
		return nil, fmt.Errorf("a silhouette is made symmetrical by %s, %s or %s, not by %.40q", Keep, Other, Gather,
			way)
	}
	reach := 1.0
	for _, poly := range shape {
		for _, p := range poly[0] {
			reach = math.Max(reach, math.Hypot(p[0]-site.At[0], p[1]-site.At[1]))
		}
	}
	var parts []orb.MultiPolygon
	var areas []float64
	for _, w := range wedges(site, 4*reach) {
		part, err := overlay.Intersection(shape, orb.MultiPolygon{{w}})
		if err != nil {
			return nil, fmt.Errorf("the silhouette cannot be cut: %w", err)
		}
		parts, areas = append(parts, part), append(areas, geometry.Area(part))
	}
	n := len(parts)
	k := slices.Index(areas, slices.Max(areas))
	if way == Other {
		if k1, k2 := (k+1)%n, (k+n-1)%n; areas[k1] >= areas[k2] {
			k = k1
		} else {
			k = k2
		}
	}
	if areas[k] < 1 {
		return nil, errors.New("the silhouette has next to nothing on this side of the mirror; keep the other part, " +
			"or gather it")
	}
	return parts[k], nil
}

// wedges returns the parts of the plane between neighbouring mirrors, as far as reach, a little over their mirrors.
func wedges(site pattern.Site, reach float64) []orb.Ring {
	var rays []float64
	for _, g := range site.Fixing {
		if g.Det() < 0 {
			a := math.Mod(math.Atan2(g.C, g.A)/2+2*math.Pi, math.Pi)
			rays = append(rays, a, a+math.Pi)
		}
	}
	slices.Sort(rays)
	var out []orb.Ring
	for i, a := range rays {
		b := rays[(i+1)%len(rays)]
		if b <= a {
			b += 2 * math.Pi
		}
		middle := (a + b) / 2

		// The apex is moved back along the middle until both sides lie overlapMM over their mirrors.
		back := overlapMM / math.Sin((b-a)/2)
		apex := orb.Point{site.At[0] - back*math.Cos(middle), site.At[1] - back*math.Sin(middle)}
		ring := orb.Ring{apex}
		for _, t := range []float64{a, middle - (b-a)/4, middle, middle + (b-a)/4, b} {
			ring = append(ring, orb.Point{apex[0] + reach*math.Cos(t), apex[1] + reach*math.Sin(t)})
		}
		out = append(out, append(ring, apex))
	}
	return out
}

// snap puts an outline on the draft's grid and leaves out points and crumbs that this makes nothing of. Where the
// grid closes a hair of sheet or of opening, the outline is opened by a few hundredths of a millimetre first, far less
// than any kerf.
func snap(mp orb.MultiPolygon) (orb.MultiPolygon, error) {
	for _, opened := range []float64{0, 0.004, 0.012, 0.04} {
		try := mp
		if opened > 0 {
			for _, d := range []float64{-opened, opened} {
				var err error
				if try, err = offset.Offset(try, d, opened/10); err != nil {
					return nil, fmt.Errorf("the joined outline cannot be cleaned: %w", err)
				}
			}
		}
		if try = clean(try); len(try) > 0 && geometry.CheckOutline(try) == nil {
			return try, nil
		}
	}
	return nil, errors.New("the joined outline is too fine to be kept; make the silhouette larger or simpler")
}

// clean snaps an outline to the draft's grid, without straight points and crumbs.
func clean(mp orb.MultiPolygon) orb.MultiPolygon {
	var out orb.MultiPolygon
	for _, poly := range geometry.SnapOutline(mp) {
		var kept orb.Polygon
		for i, r := range poly {
			r = straightened(r)
			if len(r) >= 4 && math.Abs(geometry.Area(orb.MultiPolygon{{r}})) >= minMM2 {
				kept = append(kept, r)
			} else if i == 0 {
				break
			}
		}
		if len(kept) > 0 {
			out = append(out, kept)
		}
	}
	return out
}

// minMM2 is the area of a ring, in mm², below which it is a crumb of the cutting and no part of the drawing.
const minMM2 = 0.01

// straightMM is how far points may lie off the line that takes their place, in mm, and still be left out: the draft's
// grid.
const straightMM = 1e-4

// maxStraight is how many points in a row are left out at most: each that is added is held against all of them.
const maxStraight = 64

// straightened returns a closed ring without points that lie on the line between those that stay, from its lowest point
// on.
func straightened(r orb.Ring) orb.Ring {
	if len(r) < 4 {
		return r
	}
	n, first := len(r)-1, 0
	for i, p := range r[:n] {
		if p[1] < r[first][1] || p[1] == r[first][1] && p[0] < r[first][0] {
			first = i
		}
	}
	at := func(i int) orb.Point { return r[(first+i)%n] }

	out := orb.Ring{at(0)}
	last := 0
	for i := 1; i < n; i++ {
		keep := i-last > maxStraight
		for k := last + 1; k <= i && !keep; k++ {
			keep = !onLine(at(last), at(i+1), at(k))
		}
		if keep {
			out, last = append(out, at(i)), i
		}
	}

	if len(out) < 3 {
		return nil
	}
	return append(out, out[0])
}

// onLine reports whether p lies beside the segment a–b, no further than straightMM off.
func onLine(a, b, p orb.Point) bool {
	dx, dy := b[0]-a[0], b[1]-a[1]
	l := math.Hypot(dx, dy)
	if l == 0 {
		return false
	}
	along := ((p[0]-a[0])*dx + (p[1]-a[1])*dy) / l
	return math.Abs((p[0]-a[0])*dy-(p[1]-a[1])*dx)/l <= straightMM && along >= 0 && along <= l
}
