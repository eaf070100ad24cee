package main

import (
	"encoding/json"
	"fmt"
	"os"

	"openwork/pattern/draft"
	"openwork/pattern/paint"
	"openwork/pattern/progress"
)

// matchInput asks what comes nearest to a colour among tubes.
type matchInput struct {
	Colour string         `json:"colour"`
	Tubes  []draft.Swatch `json:"tubes"`

	path string
}

func (*matchInput) usual() *matchInput { return &matchInput{} }

func (in *matchInput) declare(f flagSet) {
	f.StringVar(&in.path, "tubes", "",
		`a file with the tubes, as JSON: [{"name": "Yellow ochre", "colour": "#c08a2e"}, …]`)
}

func (in *matchInput) take(colour string) error {
	in.Colour = colour
	if in.path == "" {
		return fmt.Errorf("%w: match needs the painter's tubes; give -tubes FILE.json", errUsage)
	}
	text, err := os.ReadFile(in.path)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(text, &in.Tubes); err != nil {
		return fmt.Errorf("%s holds no list of tubes: %w", in.path, err)
	}
	return nil
}

// run matches the colour.
func (in *matchInput) run(progress.Func) (*paint.Match, error) {
	return paint.MatchOf(in.Colour, in.Tubes)
}
