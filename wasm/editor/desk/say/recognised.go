package say

import (
	"fmt"

	"openwork/pattern/symmetry"
)

// Recognised says what a field is when it is more than what was chosen; "" when it is that. times is how often the
// pattern repeats within the cell.
func Recognised(chosen, actual string, times int) string {
	if actual == chosen {
		if times < 2 {
			return ""
		}
		return fmt.Sprintf("The pattern repeats %d times within your cell: a smaller cell gives the same.", times)
	}

	text := fmt.Sprintf("You chose %s. As drawn, this is %s", chosen, actual)
	if more := moreThan(chosen, actual); more != "" {
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

// Coloured says what a field is when its colours count: the group that keeps them all, whose repeat is so many of the
// field's own, with the one that permutes the colours and the one that keeps one of them, where they are others. ""
// where no colours are known.
func Coloured(permutes, keptOne, kept string, times int) string {
	if kept == "" {
		return ""
	}
	text := "With its colours it is " + kept
	if times > 1 {
		text += fmt.Sprintf(", and its repeat is %d times as large", times)
	}
	if keptOne != kept {
		text += fmt.Sprintf("; %s keeps one colour", keptOne)
	}
	if permutes != kept || times > 1 {
		text += fmt.Sprintf("; %s carries colours into each other", permutes)
	}
	return text + "."
}
