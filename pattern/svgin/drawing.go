package svgin

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"openwork/geometry"
	"openwork/geometry/fill"
	"openwork/geometry/simplify"
	"openwork/pattern/outline"

	"github.com/paulmach/orb"
)

// drawing is an SVG drawing on its way to shapes.
type drawing struct {
	ids      map[string]*element
	sheet    sheet
	rules    map[*element][]*rule // that match an element, once it has been looked at
	invert   bool
	host     matrix // from CSS pixels of the page to mm, y up
	shapes   []shape
	clipping bool              // what is walked is a clip path: only where it is counts, and its clip-rule
	boxing   bool              // what is walked is only measured
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
	rule         fill.Rule
	pen          pen
	strokeFirst  bool
	clips        []*clip
}

// clip is a region that cuts what is drawn within it: the union of shapes.
type clip struct {
	shapes []shape
	mp     orb.MultiPolygon
	known  bool
}

// readSVG reads an SVG drawing.
func readSVG(data []byte, name string, o outline.Options) (outline.Result, error) {
	if len(data) > maxSVGBytes {
		return outline.Result{}, fmt.Errorf("%s is an SVG drawing of more than %d MB; simplify or part it first", name,
			maxSVGBytes>>20)
	}
	root, err := parseXML(data)
	if errors.Is(err, errNotSVG) {
		return outline.Result{}, outline.Unknown(name)
	}
	if err != nil {
		return outline.Result{}, fmt.Errorf("%s %w", name, err)
	}
	d := &drawing{ids: map[string]*element{}, rules: map[*element][]*rule{}, invert: o.Invert,
		active:   map[*element]bool{},
		segments: maxSegments, count: map[string]int{}}
	if err := d.prepare(root); err != nil {
		return outline.Result{}, fmt.Errorf("%s %w", name, err)
	}
	var r outline.Result
	if err := d.root(&r, root, o); err != nil {
		return outline.Result{}, fmt.Errorf("%s %w", name, err)
	}
	mp, tolerance, err := d.compose(r.WidthMM*r.HeightMM, o)
	if err != nil {
		return outline.Result{}, fmt.Errorf("%s %w", name, err)
	}
	mp = withoutCrumbs(mp)
	r.Left = append(r.Left, d.sentences()...)
	if len(mp) == 0 {
		return outline.Result{}, fmt.Errorf("no drawing found: %s has no filled shape and no stroke that can be seen%s",
			name, reasons(d.sentences()))
	}
	return r, r.Simplify(mp, simplify.Options{Tolerance: tolerance})
}

// root lays out the page and walks the drawing.
func (d *drawing) root(r *outline.Result, root *element, o outline.Options) error {
	s := d.styleOf(root, initialStyle)
	_, hasBox := viewBox(root.attr["viewBox"])
	// neither page nor units: what is drawn is the page
	if !hasBox && s.of(root, "width") == "" && s.of(root, "height") == "" {
		x, y, w, h, err := d.boxOf(root, s, viewport{assumedWidth, assumedTall, s.font}, true)
		if err != nil {
			return err
		}
		if w > 0 && h > 0 {
			root.attr["viewBox"] = fmt.Sprintf("%g %g %g %g", x, y, w, h)
		}
	}
	inner, m, px, v := page(r, root, &s, o)
	d.host = m.after(matrix{px, 0, 0, px, 0, 0})
	clips := []*clip{rectClip(m, [4]float64{0, 0, r.WidthMM, r.HeightMM})}
	if s.none || s.opacity <= 0 {
		return nil
	}
	m, err := d.placed(root, s, d.host, v)
	if err != nil {
		return err
	}
	m = m.after(matrix{1 / px, 0, 0, 1 / px, 0, 0}).after(inner)
	if clips, err = d.cut(root, s, m, v, clips, 0); err != nil {
		return err
	}
	return d.walkAll(root.kids, s, m, v, clips, 0)
}

// reasons puts what was left out behind a colon.
func reasons(left []string) string {
	if len(left) == 0 {
		return ""
	}
	return ": " + strings.TrimSuffix(strings.Join(left, " "), ".")
}

// page writes the page's size into r. It returns the map from the root's user units to CSS-like units of mm with y
// down, that from these to mm with y up, the mm of a CSS pixel, and what lengths in per cent refer to.
func page(r *outline.Result, root *element, s *style, o outline.Options) (inner, flip matrix, perPX float64,
	v viewport) {
	box, hasBox := viewBox(root.attr["viewBox"])
	width, hasWidth := length(s.of(root, "width"), 0, s.font)
	height, hasHeight := length(s.of(root, "height"), 0, s.font)
	hasWidth, hasHeight = hasWidth && width > 0, hasHeight && height > 0
	r.DPISource = outline.DPIFile
	switch {
	case hasWidth && hasHeight:
	case hasBox && hasWidth:
		height = width * box[3] / box[2]
	case hasBox && hasHeight:
		width = height * box[2] / box[3]
	case hasBox:
		width, height = box[2], box[3]
		r.DPISource = outline.DPIAssumed
	default:
		if !hasWidth {
			width = assumedWidth
		}
		if !hasHeight {
			height = assumedTall
		}
		r.DPISource = outline.DPIAssumed
	}
	if !hasBox {
		box = [4]float64{0, 0, width, height}
	}
	perPX = outline.MMPerInch / 96
	switch {
	case o.HeightMM > 0:
		perPX = o.HeightMM / height
		r.DPISource = outline.DPIHeight
	case o.DPI > 0:
		perPX = box[3] / height * outline.MMPerInch / o.DPI
		r.DPISource = outline.DPITyped
	case r.DPISource == outline.DPIAssumed:
		r.Left = append(r.Left, "The drawing does not say its size; one unit is taken for 1/96 inch.")
	}
	r.WidthMM, r.HeightMM = width*perPX, height*perPX
	r.WidthPX = int(math.Min(math.Ceil(r.WidthMM*96/outline.MMPerInch-1e-6), math.MaxInt32))
	r.HeightPX = int(math.Min(math.Ceil(r.HeightMM*96/outline.MMPerInch-1e-6), math.MaxInt32))
	inner = fitBox(box, r.WidthMM, r.HeightMM, root.attr["preserveAspectRatio"])
	r.DPI = outline.MMPerInch / math.Abs(inner.d)
	return inner, matrix{1, 0, 0, -1, 0, r.HeightMM}, perPX, viewport{box[2], box[3], s.font}
}

// rectClip cuts to a rectangle x, y, width, height under the map.
func rectClip(m matrix, box [4]float64) *clip {
	var r orb.Ring
	for _, p := range [5][2]float64{{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 0}} {
		r = append(r, m.apply([2]float64{box[0] + p[0]*box[2], box[1] + p[1]*box[3]}))
	}
	if geometry.RingArea(r) < 0 {
		r = geometry.Reversed(r)
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
	if media := strings.ToLower(e.attr["media"]); e.name == "style" &&
		(e.attr["type"] == "" || strings.EqualFold(e.attr["type"], "text/css")) &&
		(media == "" || strings.Contains(media, "all") || strings.Contains(media, "screen")) {
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
	return fmt.Errorf("wants something from another place (%.80s), and nothing is fetched; save it again with "+
		"everything inside", url)
}

// note remembers that something was left out.
func (d *drawing) note(what string) {
	if d.boxing {
		return
	}
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
		s := outline.Count(d.count[what], what)
		switch what {
		case "text":
			s += " left out; text made into paths is kept"
		case "gradient":
			s += " left out; what it fills is taken as ink"
		case "filter", "mask":
			s += " left out; what it works on is taken as it is without"
		case "style rule":
			s += " left out; those for tags, classes, ids and attributes are followed"
		case "marker":
			s = "1 path with markers drawn without them"
			if n := d.count[what]; n > 1 {
				s = fmt.Sprintf("%d paths with markers drawn without them", n)
			}
		case "transform in error":
			s = fmt.Sprintf("%s of a transform that is in error left out", outline.Count(d.count[what], "use"))
		case "white shape":
			s += " taken for paper; it covers what lies under it"
		case "background":
			s += " left out: it fills the whole page"
		case "link to another file", "style sheet":
			s += " not followed; nothing is fetched"
		case "broken path":
			s += " drawn as far as it can be read"
			if d.count[what] > 1 {
				s = strings.Replace(s, "it can", "they can", 1)
			}
		case "all white":
			s = "Everything is as light as paper, so it is taken for ink"
		default:
			s += " left out"
		}
		out = append(out, s+".")
	}
	return out
}
