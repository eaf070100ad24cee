package link

import (
	"math/rand/v2"
	"strings"
	"testing"

	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

// How a sheet is cut goes with its link, in version 3 alone; by laser a link is what it was before, with ties and
// without.
func TestHowInALink(t *testing.T) {
	d := patterntest.Draft(rand.New(rand.NewPCG(72, 0)), "p2gg")
	tied := d
	tied.Ties = []draft.Tie{{Silhouette: d.Silhouettes[0].ID, To: [2]float64{5, 1}, Width: 3}}
	for name, d := range map[string]draft.Draft{"plain": d, "tied": tied} {
		t.Run(name, func(t *testing.T) {
			before, err := Encode(d)
			if err != nil {
				t.Fatal(err)
			}
			for _, how := range []draft.How{"", draft.Laser, draft.Knife, draft.Waterjet} {
				d.Sheet.Cut = how
				s, err := Encode(d)
				if err != nil {
					t.Fatal(err)
				}
				got, err := Decode(s)
				if err != nil {
					t.Fatal(err)
				}
				plain := how == "" || how == draft.Laser
				if plain != (s == before) || plain == strings.HasPrefix(s, "#ow3.") ||
					got.Sheet.How() != d.Sheet.How() || len(got.Ties) != len(d.Ties) {
					t.Errorf("%q goes as %.8s and comes back as %q with %d ties", how, s, got.Sheet.Cut, len(got.Ties))
				}
			}
		})
	}
	c := newWriter()
	c.draft(&d, 3)
	if _, err := Decode(wrap(3, c.finish())); err == nil || !strings.Contains(err.Error(), "the version for cut") {
		t.Errorf("version 3 without what it is for: %v", err)
	}
}
