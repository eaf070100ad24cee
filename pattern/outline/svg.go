package outline

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"openwork/geometry/simplify"

	"github.com/paulmach/orb"
)

// drawing is an SVG drawing on its way to shapes.
type drawing struct {
	ids      map[string]*element
	sheet    sheet
	invert   bool
	shapes   []shape
	clipping bool              // what is walked is a clip path: only where it is counts, and its clip-rule
	active   map[*element]bool // use elements and clip paths being drawn, against going in circles
	drawn    int               // elements walked
	segments int               // that may still be read
	left     []string          // kinds of things left out, in the order they were met …
	count    map[string]int    // … and how often
}

// shape is something painted, in the order of painting.
type shape struct {
	c            curve
	m            matrix // from user units to mm, y up
	fill, stroke paint
	rule         fillRule
	pen          pen
	clips        []*clip
}

// clip is a region that cuts what is drawn within it: the union of shapes.
type clip struct {
	shapes []shape
	mp     orb.MultiPolygon
	known  bool
}

// readSVG reads an SVG drawing.
func readSVG(data []byte, name string, o Options) (Result, error) {
	if len(data) > maxSVGBytes {
		return Result{}, fmt.Errorf("%s is an SVG drawing of more than %d MB; simplify or part it first", name, maxSVGBytes>>20)
	}
	root, err := parseXML(data)
	if errors.Is(err, errNotSVG) {
		return Result{}, unknown(name)
	}
	if err != nil {
		return Result{}, fmt.Errorf("%s %w", name, err)
	}
	d := &drawing{ids: map[string]*element{}, invert: o.Invert, active: map[*element]bool{}, segments: maxSegments,
		count: map[string]int{}}
	if err := d.prepare(root); err != nil {
		return Result{}, fmt.Errorf("%s %w", name, err)
	}
	var r Result
	inner, m, v := page(&r, root, o)
	err = d.kids(root, d.styleOf(root, initialStyle), m.after(inner), v, []*clip{rectClip(m, [4]float64{0, 0, r.WidthMM, r.HeightMM})})
	if err != nil {
		return Result{}, fmt.Errorf("%s %w", name, err)
	}
	mp, tolerance, err := d.compose(r.WidthMM*r.HeightMM, o)
	if err != nil {
		return Result{}, fmt.Errorf("%s %w", name, err)
	}
	mp = withoutCrumbs(mp)
	r.Left = append(r.Left, d.sentences()...)
	if len(mp) == 0 {
		return Result{}, fmt.Errorf("no drawing found: %s has no filled shape and no stroke that can be seen%s", name, reasons(d.sentences()))
	}
	return r, r.draw(mp, simplify.Options{Tolerance: tolerance})
}

// withoutCrumbs drops pieces and holes so small that they are what rounding left where lines all but coincide.
func withoutCrumbs(mp orb.MultiPolygon) orb.MultiPolygon {
	var out orb.MultiPolygon
	for _, p := range mp {
		if len(p) == 0 || math.Abs(area(p[0])) < crumb {
			continue
		}
		q := orb.Polygon{p[0]}
		for _, hole := range p[1:] {
			if math.Abs(area(hole)) >= crumb {
				q = append(q, hole)
			}
		}
		out = append(out, q)
	}
	return out
}

// reasons puts what was left out behind a colon.
func reasons(left []string) string {
	if len(left) == 0 {
		return ""
	}
	return ": " + strings.TrimSuffix(strings.Join(left, " "), ".")
}

// page writes the page's size into r. It returns the map from the root's user units to CSS-like units of mm with y down,
// that from these to mm with y up, and what lengths in per cent refer to.
func page(r *Result, root *element, o Options) (inner, flip matrix, v viewport) {
	box, hasBox := viewBox(root.attr["viewBox"])
	width, hasWidth := length(root.attr["width"], 0)
	height, hasHeight := length(root.attr["height"], 0)
	hasWidth, hasHeight = hasWidth && width > 0, hasHeight && height > 0
	r.DPISource = DPIFile
	switch {
	case hasWidth && hasHeight:
	case hasBox && hasWidth:
		height = width * box[3] / box[2]
	case hasBox && hasHeight:
		width = height * box[2] / box[3]
	case hasBox:
		width, height = box[2], box[3]
		r.DPISource = DPIAssumed
	default:
		if !hasWidth {
			width = assumedWidth
		}
		if !hasHeight {
			height = assumedTall
		}
		r.DPISource = DPIAssumed
	}
	if !hasBox {
		box = [4]float64{0, 0, width, height}
	}
	perPX := mmPerInch / 96
	switch {
	case o.HeightMM > 0:
		perPX = o.HeightMM / height
		r.DPISource = DPIHeight
	case o.DPI > 0:
		perPX = box[3] / height * mmPerInch / o.DPI
		r.DPISource = DPITyped
	case r.DPISource == DPIAssumed:
		r.Left = append(r.Left, "The drawing does not say its size; one unit is taken for 1/96 inch.")
	}
	r.WidthMM, r.HeightMM = width*perPX, height*perPX
	r.WidthPX = int(math.Min(math.Ceil(r.WidthMM*96/mmPerInch-1e-6), math.MaxInt32))
	r.HeightPX = int(math.Min(math.Ceil(r.HeightMM*96/mmPerInch-1e-6), math.MaxInt32))
	inner = fitBox(box, r.WidthMM, r.HeightMM, root.attr["preserveAspectRatio"])
	r.DPI = mmPerInch / math.Abs(inner.d)
	return inner, matrix{1, 0, 0, -1, 0, r.HeightMM}, viewport{box[2], box[3]}
}

// rectClip cuts to a rectangle x, y, width, height under the map.
func rectClip(m matrix, box [4]float64) *clip {
	var r orb.Ring
	for _, p := range [5][2]float64{{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 0}} {
		r = append(r, m.apply([2]float64{box[0] + p[0]*box[2], box[1] + p[1]*box[3]}))
	}
	if area(r) < 0 {
		r = backward(r)
	}
	return &clip{mp: orb.MultiPolygon{{r}}, known: true}
}

// prepare gathers ids and style rules from the whole tree, and refuses links to other hosts.
func (d *drawing) prepare(e *element) error {
	if id := e.attr["id"]; id != "" {
		if _, ok := d.ids[id]; !ok {
			d.ids[id] = e
		}
	}
	if e.name == "style" {
		for _, address := range d.sheet.add(e.text) {
			url, _, ok := urlOf(address)
			if !ok {
				url = strings.Trim(address, `"' `)
			}
			if isHost(url) {
				return hostError(url)
			}
			d.note("style sheet")
		}
	}
	if e.name != "a" && isHost(e.attr["href"]) {
		return hostError(e.attr["href"])
	}
	for _, name := range []string{"fill", "stroke", "filter", "mask", "clip-path", "style"} {
		if at := strings.Index(strings.ToLower(e.attr[name]), "url("); at >= 0 {
			if url, _, ok := urlOf(e.attr[name][at:]); ok && isHost(url) {
				return hostError(url)
			}
		}
	}
	for _, k := range e.kids {
		if err := d.prepare(k); err != nil {
			return err
		}
	}
	return nil
}

// isHost says whether an address leads to another machine.
func isHost(url string) bool {
	url = strings.ToLower(strings.TrimSpace(url))
	if strings.HasPrefix(url, "//") {
		return true
	}
	scheme, _, ok := strings.Cut(url, ":")
	return ok && !strings.ContainsAny(scheme, "/#?") && scheme != "data" && scheme != "file" && scheme != "javascript"
}

func hostError(url string) error {
	return fmt.Errorf("wants something from another place (%.80s), and nothing is fetched; save it again with everything inside", url)
}

// note remembers that something was left out.
func (d *drawing) note(what string) {
	if d.count[what] == 0 {
		d.left = append(d.left, what)
	}
	d.count[what]++
}

// sentences tells what was left out.
func (d *drawing) sentences() []string {
	if d.sheet.left > 0 && d.count["style rule"] == 0 {
		d.note("style rule")
		d.count["style rule"] = d.sheet.left
	}
	var out []string
	for _, what := range d.left {
		s := count(d.count[what], what)
		switch what {
		case "text":
			s += " left out; text made into paths is kept"
		case "gradient":
			s += " left out; what it fills is taken as ink"
		case "filter", "mask":
			s += " left out; what it works on is taken as it is without"
		case "style rule":
			s += " left out; only those for a tag, a class or an id are followed"
		case "dashed stroke":
			s += " taken as drawn through"
		case "white shape":
			s += " taken for paper; it covers what lies under it"
		case "background":
			s += " left out: it fills the whole page"
		case "link to another file", "style sheet":
			s += " not followed; nothing is fetched"
		case "path that is broken off":
			s += " drawn as far as it can be read"
		case "all white":
			s = "Everything is as light as paper, so it is taken for ink"
		default:
			s += " left out"
		}
		out = append(out, s+".")
	}
	return out
}
