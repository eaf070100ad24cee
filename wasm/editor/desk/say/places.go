package say

import (
	"fmt"

	"openwork/pattern"
)

// Site says where a motif stands: inCell is how many copies a cell holds, full how many operations the group has.
// offers are the ways of making the silhouette symmetrical where that would help: "keep", "other", "gather".
func Site(s pattern.Site, inCell, full int) (text string, offers []string) {
	switch {
	case s.Order == 1 && inCell < full:
		return fmt.Sprintf("Stands where copies coincide: %d in a cell instead of %d.", inCell, full), nil
	case s.Order == 1:
		return "", nil
	case s.Lacks && s.Mirrors > 0:
		return special(s) + ", but the silhouette is not the same on both sides: its copies run into each other. " +
			"Fold it, gather it, or drag it off.", []string{"keep", "other", "gather"}
	case s.Lacks:
		return special(s) + ", but the silhouette is another when turned about it: its copies run into each other. " +
			"Gather them into one, or drag it off.", []string{"gather"}
	}
	return fmt.Sprintf("%s: %d in a cell instead of %d.", special(s), inCell, full), nil
}

// Coincides is said of a motif whose copies are those of another.
const Coincides = "Lies exactly on another motif's copies; each place is cut once."

// special names a mirror or a rotation point.
func special(s pattern.Site) string {
	turns := turnWords[s.Turn]
	switch {
	case s.Turn == 1:
		return "On a mirror"
	case s.Mirrors == 0:
		return "On a rotation point of " + turns
	}
	return fmt.Sprintf("On a rotation point of %s, where %d mirrors cross", turns, s.Mirrors)
}

var turnWords = map[int]string{2: "half turns", 3: "third turns", 4: "quarter turns", 6: "sixth turns"}
