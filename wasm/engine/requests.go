package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"image/png"
	"math"
	"strings"

	"openwork/pattern"
	"openwork/pattern/cutfile"
	"openwork/pattern/fold"
	"openwork/pattern/outline"
	"openwork/pattern/progress"
	"openwork/pattern/study"
	"openwork/pattern/symmetry"
	"openwork/pattern/trace"
)

// request is what the page sends a worker, less the bytes of a picture.
type request struct {
	Draft   string       `json:"draft"`
	Name    string       `json:"name"`
	Width   int          `json:"width"`
	Height  int          `json:"height"`
	Motif   string       `json:"motif"`
	Way     string       `json:"way"`
	Options traceOptions `json:"options"`

	Format  cutfile.Format  `json:"format"` // of a cut file; empty: svg
	Cut     json.RawMessage `json:"cut"`    // cutfile.Options as far as they are not the usual ones; empty: those
	Picture study.Options   `json:"picture"`
	Study   json.RawMessage `json:"study"`  // pages.Options as far as they are not the usual ones
	Job     json.RawMessage `json:"job"`    // jobsheet.Options likewise; jobsheet.Options.Cut is Cut unless it says otherwise
	Paper   string          `json:"paper"`  // that the map of a stepping sheet is printed on
	Sheets  json.RawMessage `json:"sheets"` // of steps and join: stepping.Options or joined.Options, without Cut
	// Unsound are the reasons why the sheet does not hold, which the person knows; the cut file carries them.
	Unsound []string `json:"unsound"`
}

// traceOptions are outline.Options; see there.
type traceOptions struct {
	DPI       float64       `json:"dpi"`
	Height    float64       `json:"height"`
	Points    [2][2]float64 `json:"points"`
	Distance  float64       `json:"distance"`
	Upright   int           `json:"upright"`
	Crop      [4]float64    `json:"crop"`
	Turn      float64       `json:"turn"`
	Flat      bool          `json:"flat"`
	Level     float64       `json:"level"`
	Invert    bool          `json:"invert"`
	Pencil    bool          `json:"pencil"`
	Gap       float64       `json:"gap"`
	Specks    float64       `json:"specks"`
	Pinholes  float64       `json:"pinholes"`
	Tolerance float64       `json:"tolerance"`
	Smoothing float64       `json:"smoothing"`
	Opening   float64       `json:"opening"`
	Bridge    float64       `json:"bridge"`
	Look      bool          `json:"look"` // the picture is wanted too, as PNG
}

// choices returns them as the tracing takes them.
func (o traceOptions) choices(told progress.Func) outline.Options {
	out := outline.Options{DPI: o.DPI, HeightMM: o.Height, Points: o.Points, DistanceMM: o.Distance, Upright: o.Upright,
		Turn: o.Turn, Flat: o.Flat, Level: o.Level, Invert: o.Invert, Pencil: o.Pencil, GapMM: o.Gap, SpecksMM2: o.Specks,
		PinholesMM2: o.Pinholes, ToleranceMM: o.Tolerance, SmoothingMM: o.Smoothing, OpeningMM: o.Opening, BridgeMM: o.Bridge,
		Look: o.Look, Progress: told}
	for k, v := range o.Crop {
		out.Crop[k] = int(math.Round(v))
	}
	return out
}

// reply carries out one request of the page: a verb, its arguments as JSON, and the bytes of a picture where there is one. It
// returns JSON, and bytes where the answer is a file. It never panics: a panic in the core is a sentence to the page, not a
// dead worker.
func reply(verb string, args, in []byte, told progress.Func) (string, []byte, error) {
	return safely(func() (string, []byte, error) {
		var r request
		if err := json.Unmarshal(args, &r); err != nil {
			return "", nil, fmt.Errorf("the engine could not read what it was asked: %w", err)
		}
		return carryOut(verb, r, in, told)
	})
}

func safely(do func() (string, []byte, error)) (text string, data []byte, err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("something in the engine went wrong (%v); the draft is untouched", r)
		}
	}()
	return do()
}

// last is what this worker checked last.
var last lastChecked

// carryOut is the worker's table of verbs.
func carryOut(verb string, r request, in []byte, told progress.Func) (string, []byte, error) {
	if verb == "trace" {
		return traceAnswer(r, in, told)
	}
	d, err := pattern.Decode(strings.NewReader(r.Draft))
	if err != nil {
		return "", nil, err
	}
	switch verb {
	case "check":
		report, err := last.check(r.Draft, d, told)
		if err != nil {
			return "", nil, err
		}
		return asJSON(report, nil)
	case "mends":
		offered, err := last.mends(r.Draft, d, told)
		if err != nil {
			return "", nil, err
		}
		return asJSON(offered, nil)
	case "mend":
		m, err := mend(d)
		if err != nil {
			return "", nil, err
		}
		return asJSON(m, nil)
	case "recognise":
		found, err := recognition(d)
		if err != nil {
			return "", nil, err
		}
		return asJSON(found, nil)
	case "pictures":
		return picturesAnswer(d, r.Width, r.Height)
	case "steps", "join":
		return sheetsAnswer(verb, d, r, told)
	}
	l, err := layoutOf(d)
	if err != nil {
		return "", nil, err
	}
	var b bytes.Buffer
	switch verb {
	case "cut":
		format, o, err := r.cutting()
		if err != nil {
			return "", nil, err
		}
		o.Progress = told
		made, err := cutfile.Write(l, &b, format, o)
		if err != nil {
			return "", nil, err
		}
		return asJSON(map[string]any{"type": format.Type(), "openings": made.Openings, "notes": made.Notes, "made": made}, b.Bytes())
	case "remake":
		mp, err := fold.Outline(l, d.Motif(r.Motif), r.Way)
		if err != nil {
			return "", nil, err
		}
		return asJSON(mp, nil)
	case "study":
		return studyAnswer(l, r.Study, told)
	case "job":
		return jobAnswer(l, r.Cut, r.Job, told)
	case "picture":
		o := r.Picture
		o.Progress = told
		if err := study.Picture(l, o, &b); err != nil {
			return "", nil, err
		}
		return asJSON(map[string]any{"type": "image/png"}, b.Bytes())
	}
	return "", nil, errors.New("the engine has no verb called " + verb)
}

func asJSON(v any, data []byte) (string, []byte, error) {
	b, err := json.Marshal(v)
	return string(b), data, err
}

// maxSmall in px of a side of the small pictures: a card of them on a fine screen, and more.
const maxSmall = 2048

// picturesAnswer draws the seventeen small pictures, end to end in one block of bytes.
func picturesAnswer(d pattern.Draft, width, height int) (string, []byte, error) {
	type row struct {
		Symbol string `json:"symbol"`
		Offset int    `json:"offset"`
		Length int    `json:"length"`
	}
	var rows []row
	var all bytes.Buffer
	if min(width, height) < 1 || max(width, height) > maxSmall {
		return "", nil, fmt.Errorf("small pictures of %d × %d px cannot be had; both sides lie between 1 and %d", width, height, maxSmall)
	}
	cache := pattern.NewShapes()
	e := png.Encoder{CompressionLevel: png.BestSpeed}
	for _, g := range symmetry.Groups() {
		img, err := study.Small(d, g.Symbol, width, height, cache)
		if err != nil {
			return "", nil, err
		}
		from := all.Len()
		if err := e.Encode(&all, img); err != nil {
			return "", nil, err
		}
		rows = append(rows, row{g.Symbol, from, all.Len() - from})
	}
	return asJSON(rows, all.Bytes())
}

// traceAnswer traces a picture: the silhouettes as text to hand on, their sizes, and paths to lay over the picture.
func traceAnswer(r request, in []byte, told progress.Func) (string, []byte, error) {
	got, err := trace.Read(in, r.Name, r.Options.choices(told))
	if err != nil {
		return "", nil, err
	}
	text, err := json.Marshal(silhouettes(got, r.Name))
	if err != nil {
		return "", nil, err
	}
	if got.Look == nil {
		return asJSON(preview(got, string(text)), nil)
	}
	var picture bytes.Buffer
	e := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := e.Encode(&picture, got.Look); err != nil {
		return "", nil, err
	}
	return asJSON(preview(got, string(text)), picture.Bytes())
}
