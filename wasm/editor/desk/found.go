package desk

import (
	"encoding/json"
	"fmt"
	"math"

	"openwork/pattern/symmetry"
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
	if f.Actual == f.Chosen {
		if times < 2 {
			return ""
		}
		return fmt.Sprintf("The pattern repeats %d times within your cell: a smaller cell gives the same.", times)
	}
	text := fmt.Sprintf("You chose %s. As drawn, this is %s", f.Chosen, f.Actual)
	if more := moreThan(f.Chosen, f.Actual); more != "" {
		text += ": " + more
	}
	return text + "."
}

// moreThan says what a field of the second group has that the first does not promise.
func moreThan(chosen, actual string) string {
	c, err := symmetry.Find(chosen)
	if err != nil {
		return ""
	}
	a, err := symmetry.Find(actual)
	if err != nil {
		return ""
	}
	has, more := c.Facts(), a.Facts()
	switch {
	case more.Mirrors && !has.Mirrors && more.Order > has.Order:
		return fmt.Sprintf("there are mirrors you can use, and %s", turnWords[more.Order])
	case more.Mirrors && !has.Mirrors:
		return "there are mirrors you can use"
	case more.Order > has.Order:
		return fmt.Sprintf("there are %s you can use", turnWords[more.Order])
	case a.Order > c.Order:
		return "there are more mirrors than you asked for"
	case more.Glides && !has.Glides:
		return "there are glides you can use"
	}
	return ""
}

var turnWords = map[int]string{2: "half turns", 3: "third turns", 4: "quarter turns", 6: "sixth turns"}
