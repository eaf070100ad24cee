package desk

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"openwork/wasm/editor/desk/say"
)

// Found is what the engine recognised the field to be; see the verb recognise.
type Found struct {
	Chosen    string        `json:"chosen"`
	Actual    string        `json:"actual"`
	Primitive [2][2]float64 `json:"primitive"`

	Permutes  string `json:"permutes"` // empty where the copies have no colours
	KeptOne   string `json:"keptOne"`
	Kept      string `json:"kept"`
	KeptCells int    `json:"keptCells"`
}

// Recognised takes the engine's answer, unless the draft has changed since it was asked under the check's token.
func (s *Session) Recognised(token int, text string) error {
	if token != s.token {
		return nil
	}
	var f Found
	if err := json.Unmarshal([]byte(text), &f); err != nil {
		return fmt.Errorf("the engine's answer cannot be read: %w", err)
	}
	s.found = &f
	s.Changed = true
	return nil
}

// RecogniseFailed lets the question rest until the draft changes.
func (s *Session) RecogniseFailed(token int) {
	if token == s.token {
		s.found = &Found{}
	}
}

// foundText says what the field is when it is more than what was chosen, and what its colours leave of it when they
// take some; "" when it is what was chosen, or not known yet.
func (s *Session) foundText() string {
	f := s.found
	if f == nil || f.Actual == "" || s.layout == nil {
		return ""
	}

	p := f.Primitive
	area := math.Abs(p[0][0]*p[1][1] - p[0][1]*p[1][0])
	own := s.layout.Cell.Area()
	if s.layout.Group.Centred {
		own /= 2
	}
	times := int(math.Round(own / math.Max(area, 1e-9)))
	text := say.Recognised(f.Chosen, f.Actual, times)
	if f.Kept != f.Actual || f.KeptCells > 1 {
		text = strings.TrimSpace(text + " " + say.Coloured(f.Permutes, f.KeptOne, f.Kept, f.KeptCells))
	}
	return text
}
