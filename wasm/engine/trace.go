package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"

	"openwork/pattern"
	"openwork/pattern/draft"
	"openwork/pattern/outline"
	"openwork/pattern/progress"
	"openwork/pattern/trace"
)

// traceInput is a picture with what it is called.
type traceInput struct {
	Name    string       `json:"name"`
	Options traceOptions `json:"options"`

	picture []byte
	path    string // of the picture's file on a command line
}

func (in *traceInput) bring(picture []byte) { in.picture = picture }

func (in *traceInput) take(path string) (err error) {
	in.Name, in.path = path, path
	in.picture, err = readFile(path, outline.MaxBytes)
	return err
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
func (o traceOptions) choices(report progress.Func) outline.Options {
	out := outline.Options{DPI: o.DPI, HeightMM: o.Height, Points: o.Points, DistanceMM: o.Distance, Upright: o.Upright,
		Turn: o.Turn, Flat: o.Flat, Level: o.Level, Invert: o.Invert, Pencil: o.Pencil, GapMM: o.Gap,
		SpecksMM2:   o.Specks,
		PinholesMM2: o.Pinholes, ToleranceMM: o.Tolerance, SmoothingMM: o.Smoothing, OpeningMM: o.Opening,
		BridgeMM: o.Bridge,
		Look:     o.Look, Progress: report}
	for k, v := range o.Crop {
		out.Crop[k] = int(math.Round(v))
	}
	return out
}

func (*traceInput) usual() *traceInput { return &traceInput{} }

// run finds the silhouettes in a picture: as text to hand on, their sizes, and paths to lay over the picture.
func (in *traceInput) run(report progress.Func) (*traced, error) {
	r, err := trace.Read(in.picture, in.Name, in.Options.choices(report))
	if err != nil && in.path != "" {
		err = fmt.Errorf("%s: %w", in.path, err)
	} else if err != nil && len(r.Gaps) > 0 { // the page shows where the lines are open
		out := preview(r, "[]")
		out.Failed = pattern.Sentence(err.Error())
		if r.Look != nil {
			out.look, err = fastPNG(nil, r.Look)
			return out, err
		}
		return out, nil
	}
	if err != nil {
		return nil, err
	}

	pieces, err := json.Marshal(silhouettes(r, in.Name))
	if err != nil {
		return nil, err
	}
	out := preview(r, string(pieces))
	if r.Look != nil {
		out.look, err = fastPNG(nil, r.Look)
	}
	return out, err
}

// silhouettes names what was traced after the file: "carp", "carp 2", …
func silhouettes(r outline.Result, name string) []draft.Silhouette {
	base := strings.TrimSuffix(filepath.Base(name), filepath.Ext(name))
	if base == "" || base == "." {
		base = "silhouette"
	}

	out := []draft.Silhouette{}
	for i, p := range r.Pieces {
		s := draft.Silhouette{ID: fmt.Sprintf("s%d", i+1), Name: base, Outline: p.Outline}
		if i > 0 {
			s.Name = fmt.Sprintf("%s %d", base, i+1)
		}
		out = append(out, s)
	}
	return out
}

func (t *traced) block() []byte { return t.look }

// print prints the silhouettes, on one line: outlines are long. What was left out goes to standard error.
func (t *traced) print(out io.Writer) error {
	for _, s := range append(t.Left, t.leftMore...) {
		fmt.Fprintln(os.Stderr, s)
	}
	_, err := fmt.Fprintln(out, t.Pieces)
	return err
}
