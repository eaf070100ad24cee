package desk

import (
	"encoding/json"
	"fmt"
	"math"

	"openwork/wasm/editor/desk/say"
)

// Found is what the engine recognised the field to be; see the verb recognise.
type Found struct {
	Chosen    string        `json:"chosen"`
	Actual    string        `json:"actual"`
	Primitive [2][2]float64 `json:"primitive"`
}

// Recognised takes the engine's answer, unless the draft has changed since it was asked under the check's token.
func (k *Session) Recognised(token int, text string) error {
	if token != k.token {
		return nil
	}
	var f Found
	if err := json.Unmarshal([]byte(text), &f); err != nil {
		return fmt.Errorf("the engine's answer cannot be read: %w", err)
	}
	k.found = &f
	k.Changed = true
	return nil
}

// RecogniseFailed lets the question rest until the draft changes.
func (k *Session) RecogniseFailed(token int) {
	if token == k.token {
		k.found = &Found{}
	}
}

// foundText says what the field is when it is more than what was chosen; "" when it is that, or not known yet.
func (k *Session) foundText() string {
	f := k.found
	if f == nil || f.Actual == "" || k.layout == nil {
		return ""
	}
	p := f.Primitive
	area := math.Abs(p[0][0]*p[1][1] - p[0][1]*p[1][0])
	own := k.layout.Cell.Area()
	if k.layout.Group.Centred {
		own /= 2
	}
	times := int(math.Round(own / math.Max(area, 1e-9)))
	return say.Recognised(f.Chosen, f.Actual, times)
}
