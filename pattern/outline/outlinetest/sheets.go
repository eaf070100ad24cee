package outlinetest

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"math/rand"

	"openwork/geometry"
	"openwork/pattern/outline"

	"github.com/paulmach/orb"
)

// truth is a drawing known beforehand, in mm, with the corners that are meant to be sharp.
type truth struct {
	Name    string
	Outline orb.MultiPolygon
	Corners []orb.Point
}

// closedRing samples a curve n times and closes it.
func closedRing(n int, at func(t float64) orb.Point) orb.Ring {
	var r orb.Ring
	for k := range n {
		r = append(r, at(float64(k)/float64(n)))
	}
	return append(r, r[0])
}

func Circle(x, y, radius float64) orb.Ring {
	return closedRing(2000, func(t float64) orb.Point {
		return orb.Point{x + radius*math.Cos(2*math.Pi*t), y + radius*math.Sin(2*math.Pi*t)}
	})
}

// PolygonRing closes the corners given.
func PolygonRing(c ...orb.Point) orb.Ring { return append(append(orb.Ring{}, c...), c[0]) }

const TruthSize = 44.0 // mm, width and height of the sheet the truths are drawn on

func Truths() []truth {
	const m = TruthSize/2 + 0.0137 // not on a pixel's corner
	var star, gear []orb.Point
	for k := range 10 {
		a, r := math.Pi*float64(k)/5+0.3, []float64{18, 7.5}[k%2]
		star = append(star, orb.Point{m + r*math.Cos(a), m + r*math.Sin(a)})
	}
	const teeth = 18
	for k := range teeth {
		for _, c := range [][2]float64{{-0.30, 14}, {-0.18, 17}, {0.18, 17}, {0.30, 14}} {
			a := 2*math.Pi*(float64(k)+c[0])/teeth + 0.1
			gear = append(gear, orb.Point{m + c[1]*math.Cos(a), m + c[1]*math.Sin(a)})
		}
	}
	ellipse := closedRing(2000, func(t float64) orb.Point {
		x, y := 19*math.Cos(2*math.Pi*t), 8*math.Sin(2*math.Pi*t)
		return orb.Point{m + x*math.Cos(0.5) - y*math.Sin(0.5), m + x*math.Sin(0.5) + y*math.Cos(0.5)}
	})
	spiral := orb.Ring{}
	const turns = 3.0
	arm := func(t, w float64) orb.Point {
		a, r := 2*math.Pi*turns*t, 6+12*t+w
		return orb.Point{m + r*math.Cos(a), m + r*math.Sin(a)}
	}
	for k := range 1500 {
		spiral = append(spiral, arm(float64(k)/1499, 1.2))
	}
	for k := range 1500 {
		spiral = append(spiral, arm(1-float64(k)/1499, -1.2))
	}
	spiral = append(spiral, spiral[0])
	return append(letters(), []truth{
		{"disc", orb.MultiPolygon{{Circle(m, m, 15)}}, nil},
		{"ring", orb.MultiPolygon{{Circle(m, m, 16), geometry.Reversed(Circle(m+0.7, m, 9))}}, nil},
		{"star", orb.MultiPolygon{{PolygonRing(star...)}}, star},
		{"ellipse", orb.MultiPolygon{{ellipse}}, nil},
		{"gear", orb.MultiPolygon{{PolygonRing(gear...), geometry.Reversed(Circle(m, m, 4))}}, gear},
		{"spiral", orb.MultiPolygon{{spiral}}, []orb.Point{spiral[0], spiral[1499], spiral[1500], spiral[2999]}},
	}...)
}

// Spoil says what a scanner does to a drawing.
type Spoil struct {
	Name        string
	blur        float64 // standard deviation in pixels
	grain       float64 // standard deviation of each pixel, in greys
	light       float64 // part of the light that is lost from one corner to the opposite one
	paper, ink  float64 // greys
	jpegQuality int     // 0: PNG
}

var Spoils = []Spoil{
	{"clean", 0, 0, 0, 255, 0, 0},
	{"blurred", 0.8, 0, 0, 250, 20, 0},
	{"grainy", 0.7, 9, 0, 235, 30, 0},
	{"uneven light", 0.7, 5, 0.3, 240, 40, 0},
	{"all, as JPEG 75", 0.7, 7, 0.2, 235, 35, 75},
}

// Coverage renders an outline exactly: how much of each pixel it covers, rows from the top. Each edge adds, to the
// pixels it passes, the area between it and the pixel's right side, and to those right of them its height.
func Coverage(mp orb.MultiPolygon, width, height int, perMM float64) []float64 {
	acc := make([]float64, (width+2)*height)
	for _, p := range mp {
		for _, r := range p {
			for k := 0; k+1 < len(r); k++ {
				a := orb.Point{r[k][0] * perMM, float64(height) - r[k][1]*perMM}
				b := orb.Point{r[k+1][0] * perMM, float64(height) - r[k+1][1]*perMM}
				addEdge(acc, width, height, a, b)
			}
		}
	}
	out := make([]float64, width*height)
	for y := range height {
		sum := 0.0
		for x := range width {
			sum += acc[y*(width+2)+x]
			out[y*width+x] = math.Abs(sum)
		}
	}
	return out
}

// addEdge cuts an edge at the pixels' sides and adds each bit.
func addEdge(acc []float64, width, height int, a, b orb.Point) {
	cuts := []float64{0, 1}
	for axis := range 2 {
		lo, hi := math.Min(a[axis], b[axis]), math.Max(a[axis], b[axis])
		for v := math.Ceil(lo); v <= hi; v++ {
			if d := b[axis] - a[axis]; d != 0 {
				cuts = append(cuts, (v-a[axis])/d)
			}
		}
	}

	sortFloats(cuts)

	for k := 0; k+1 < len(cuts); k++ {
		s, t := cuts[k], cuts[k+1]
		if t <= s || s < 0 || t > 1 {
			continue
		}
		p := orb.Point{a[0] + s*(b[0]-a[0]), a[1] + s*(b[1]-a[1])}
		q := orb.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
		x, y := int(math.Floor((p[0]+q[0])/2)), int(math.Floor((p[1]+q[1])/2))
		if y < 0 || y >= height {
			continue
		}
		x = min(max(x, 0), width-1)
		h := q[1] - p[1]
		part := float64(x+1) - (p[0]+q[0])/2
		acc[y*(width+2)+x] += h * part
		acc[y*(width+2)+x+1] += h * (1 - part)
	}
}

func sortFloats(v []float64) {
	for i := 1; i < len(v); i++ { // they come nearly sorted, and few
		for j := i; j > 0 && v[j] < v[j-1]; j-- {
			v[j], v[j-1] = v[j-1], v[j]
		}
	}
}

// GaussBlur blurs rows and columns.
func GaussBlur(v []float64, width, height int, sigma float64) []float64 {
	if sigma == 0 {
		return v
	}
	n := int(math.Ceil(4 * sigma))
	w, sum := make([]float64, 2*n+1), 0.0
	for i := range w {
		w[i] = math.Exp(-float64((i-n)*(i-n)) / (2 * sigma * sigma))
		sum += w[i]
	}
	along := make([]float64, width*height)
	padded := make([]float64, width+2*n)
	for y := range height {
		row := v[y*width : (y+1)*width]
		for i := range padded {
			padded[i] = row[min(max(i-n, 0), width-1)]
		}
		out := along[y*width : (y+1)*width]
		for i, k := range w {
			for x := range out {
				out[x] += k / sum * padded[x+i]
			}
		}
	}

	out := make([]float64, width*height)
	for y := range height {
		to := out[y*width : (y+1)*width]
		for i, k := range w {
			from := min(max(y+i-n, 0), height-1) * width
			for x, m := range along[from : from+width] {
				to[x] += k / sum * m
			}
		}
	}
	return out
}

// Scan renders a truth as a scanner would, at dpi, as the bytes of a file that says its resolution where the format can
// be told to by this test (PNG).
func Scan(t truth, s Spoil, dpi float64, seed int64) []byte {
	perMM := dpi / outline.MMPerInch
	n := int(math.Ceil(TruthSize * perMM))
	ink := blurredInk(t, n, perMM, s.blur)
	rng := rand.New(rand.NewSource(seed))
	p := image.NewGray(image.Rect(0, 0, n, n))
	for y := range n {
		for x := range n {
			c := ink[y*n+x]
			lamp := 1 - s.light*(0.7*float64(x)+0.3*float64(y))/float64(n)
			v := (s.paper*(1-c)+s.ink*c)*lamp + s.grain*rng.NormFloat64()
			p.SetGray(x, y, color.Gray{uint8(math.Max(0, math.Min(255, math.Round(v))))})
		}
	}
	var b bytes.Buffer
	if s.jpegQuality > 0 {
		if err := jpeg.Encode(&b, p, &jpeg.Options{Quality: s.jpegQuality}); err != nil {
			panic(err)
		}
	} else if err := png.Encode(&b, p); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// lastInk is what blurredInk returned last: drawings are spoiled several times after the same blur.
var lastInk struct {
	name         string
	perMM, blur  float64
	clean, after []float64
}

// blurredInk returns how much of each pixel a truth covers, blurred.
func blurredInk(t truth, n int, perMM, blur float64) []float64 {
	l := &lastInk
	if l.name != t.Name || l.perMM != perMM {
		l.name, l.perMM, l.blur = t.Name, perMM, 0
		l.clean = Coverage(t.Outline, n, n, perMM)
		l.after = l.clean
	}
	if l.blur != blur {
		l.blur, l.after = blur, GaussBlur(l.clean, n, n, blur)
	}
	return l.after
}
