package draft_test

import (
	"cmp"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"openwork/pattern/draft"
)

func TestCheckNamesThePlace(t *testing.T) {
	square := func(size float64) orb.MultiPolygon {
		return orb.MultiPolygon{{orb.Ring{{0, 0}, {size, 0}, {size, size}, {0, size}, {0, 0}}}}
	}
	base := func() draft.Draft {
		d := draft.Default()
		d.Silhouettes = []draft.Silhouette{{ID: "carp", Name: "Carp", Outline: square(20)},
			{ID: "leaf", Outline: square(9)}}
		d.Motifs = []draft.Motif{{ID: "m1", Silhouette: "carp", Scale: 1}, {ID: "m2", Silhouette: "leaf", Scale: 2}}
		return d
	}
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		place, text string // text is how the sentence begins; both empty for a good draft
		change      func(d *draft.Draft)
	}{
		{"", "", func(d *draft.Draft) {}},
		{"", "", func(d *draft.Draft) { *d = draft.Default() }},
		{"", "", func(d *draft.Draft) { d.Sheet.Width = 20000 }},
		{"", "", func(d *draft.Draft) { d.Sheet.Bed = &draft.Bed{Width: 600} }},
		{"", "", func(d *draft.Draft) { d.Motifs[0].Scale, d.Motifs[1].Scale = 0.001, 1000 }},
		{"", "", func(d *draft.Draft) { d.Title, d.Motifs[0].ID = strings.Repeat("ß", 200), strings.Repeat("ß", 64) }},
		{"openwork", "this draft is of version 7, and this program reads version 1; a newer program is needed",
			func(d *draft.Draft) { d.Openwork = 7 }},
		{"openwork", "0 is not a version of drafts", func(d *draft.Draft) { d.Openwork = 0 }},
		{"title", "the text has 201 characters; up to 200 are kept",
			func(d *draft.Draft) { d.Title = strings.Repeat("ß", 201) }},
		{"title", "the text is not valid UTF-8", func(d *draft.Draft) { d.Title = "\xff" }},
		{"units", `"in" is not known here; a draft is in "mm"`, func(d *draft.Draft) { d.Units = "in" }},
		{"panel.width", "9.9 is out of range; it may be from 10 to 20000 mm",
			func(d *draft.Draft) { d.Panel.Width = 9.9 }},
		{"panel.height", "not a number", func(d *draft.Draft) { d.Panel.Height = nan }},
		{"panel.height", "not a number", func(d *draft.Draft) { d.Panel.Height = inf }},
		{"field.margin", "-1 is out of range", func(d *draft.Draft) { d.Field.Margin = -1 }},
		{"field.margin", "300 mm leave no field on a panel of 600 × 900 mm; a margin under 300 mm does",
			func(d *draft.Draft) { d.Field.Margin = 300 }},
		{"field.origin[1]", "not a number", func(d *draft.Draft) { d.Field.Origin[1] = nan }},
		{"field.origin[0]", "-2e+06 is out of range; it may be from -1000000 to 1000000 mm",
			func(d *draft.Draft) { d.Field.Origin[0] = -2e6 }},
		{"field.turn", "not a number", func(d *draft.Draft) { d.Field.Turn = -inf }},
		{"field.edge", `"bleed" is not an edge rule; the rules are crop, whole and touching`,
			func(d *draft.Draft) { d.Field.Edge = "bleed" }},
		{"repeat.group", `"p7" is not a plane group; the seventeen are p1, `,
			func(d *draft.Draft) { d.Repeat.Group = "p7" }},
		{"repeat.group", "pmm is kept under its short symbol, p2mm", func(d *draft.Draft) { d.Repeat.Group = "pmm" }},
		{"repeat.a", "a cell's side must be from 0.5 to 100000 mm, not 0", func(d *draft.Draft) { d.Repeat.A = 0 }},
		{"repeat.b", "not a number", func(d *draft.Draft) { d.Repeat.B = nan }},
		{"repeat.gamma", "a cell's angle must be from 5 to 175 degrees, not 180",
			func(d *draft.Draft) { d.Repeat.Gamma = 180 }},
		{"repeat.gamma", "p2mm has a rectangular cell, whose angle is 90 degrees, not 80",
			func(d *draft.Draft) { d.Repeat.Group, d.Repeat.Gamma = "p2mm", 80 }},
		{"repeat.b", "p4 has a square cell, whose sides are equal; a is 150 and b is 120",
			func(d *draft.Draft) { d.Repeat.Group = "p4" }},
		{"silhouettes[1].id", `"carp" is the id of silhouettes[0] already`,
			func(d *draft.Draft) { d.Silhouettes[1].ID = "carp" }},
		{"silhouettes[0].id", "an id must not be empty", func(d *draft.Draft) { d.Silhouettes[0].ID = "" }},
		{"silhouettes[0].id", "the text has 65 characters",
			func(d *draft.Draft) { d.Silhouettes[0].ID = strings.Repeat("a", 65) }},
		{"silhouettes[1].name", "the text has 201 characters",
			func(d *draft.Draft) { d.Silhouettes[1].Name = strings.Repeat("a", 201) }},
		{"silhouettes[0].outline", "the outline is empty", func(d *draft.Draft) { d.Silhouettes[0].Outline = nil }},
		{"silhouettes[1].outline[0][0]", "the ring crosses itself near (2, 2) mm", func(d *draft.Draft) {
			d.Silhouettes[1].Outline = orb.MultiPolygon{{orb.Ring{{0, 0}, {4, 4}, {4, 0}, {0, 4}, {0, 0}}}}
		}},
		{"silhouettes[1].outline[0][0][1]", "a coordinate is not a finite number", func(d *draft.Draft) {
			d.Silhouettes[1].Outline = orb.MultiPolygon{{orb.Ring{{0, 0}, {nan, 4}, {4, 0}, {0, 0}}}}
		}},
		{"silhouettes[0].outline[0][0]", "the outer ring runs clockwise", func(d *draft.Draft) {
			d.Silhouettes[0].Outline = orb.MultiPolygon{{orb.Ring{{0, 0}, {0, 4}, {4, 0}, {0, 0}}}}
		}},
		{"silhouettes", "there are 201; a draft holds up to 200",
			func(d *draft.Draft) { d.Silhouettes = make([]draft.Silhouette, 201) }},
		{"silhouettes", "the outlines have more than 200000 points together", func(d *draft.Draft) {
			d.Silhouettes[1].Outline = orb.MultiPolygon{{make(orb.Ring, 200002)}}
		}},
		{"motifs", "there are 501; a draft holds up to 500",
			func(d *draft.Draft) { d.Motifs = make([]draft.Motif, 501) }},
		{"motifs[1].id", `"m1" is the id of motifs[0] already`, func(d *draft.Draft) { d.Motifs[1].ID = "m1" }},
		{"motifs[1].silhouette", `no silhouette is called "heron"; there are "carp", "leaf"`,
			func(d *draft.Draft) { d.Motifs[1].Silhouette = "heron" }},
		{"motifs[0].silhouette", `no silhouette is called "carp"; there is none`,
			func(d *draft.Draft) { d.Silhouettes = nil }},
		{"motifs[0].silhouette",
			`no silhouette is called ""; there are "0", "1", "2", "3", "4", "5", "6", "7" and 3 more`,
			func(d *draft.Draft) {
				d.Silhouettes = nil
				for i := range 11 {
					d.Silhouettes = append(d.Silhouettes,
						draft.Silhouette{ID: string(rune('0' + i)), Outline: square(1)})
				}
				d.Motifs[0].Silhouette = ""
			}},
		{"motifs[1].scale", "0 is out of range; it may be from 0.001 to 1000",
			func(d *draft.Draft) { d.Motifs[1].Scale = 0 }},
		{"motifs[1].scale", "-1 is out of range; it may be from 0.001 to 1000",
			func(d *draft.Draft) { d.Motifs[1].Scale = -1 }},
		{"motifs[1].scale", "1000.5 is out of range", func(d *draft.Draft) { d.Motifs[1].Scale = 1000.5 }},
		{"motifs[0].turn", "not a number", func(d *draft.Draft) { d.Motifs[0].Turn = nan }},
		{"motifs[0].at[1]", "1.1e+06 is out of range", func(d *draft.Draft) { d.Motifs[0].At[1] = 1.1e6 }},
		{"motifs[0].at[0]", "not a number", func(d *draft.Draft) { d.Motifs[0].At[0] = nan }},
		{"sheet.stock", "the text has 201 characters",
			func(d *draft.Draft) { d.Sheet.Stock = strings.Repeat("a", 201) }},
		{"sheet.thickness", "0 is out of range; it may be from 0.01 to 50 mm",
			func(d *draft.Draft) { d.Sheet.Thickness = 0 }},
		{"sheet.kerf", "5.1 is out of range; it may be from 0 to 5 mm", func(d *draft.Draft) { d.Sheet.Kerf = 5.1 }},
		{"sheet.bridge", "-3 is out of range; it may be from 0 to 100 mm",
			func(d *draft.Draft) { d.Sheet.Bridge = -3 }},
		{"sheet.opening", "not a number", func(d *draft.Draft) { d.Sheet.Opening = nan }},
		{"sheet.width", "5 is out of range; it may be from 10 to 20000 mm", func(d *draft.Draft) { d.Sheet.Width = 5 }},
		{"sheet.height", "not a number", func(d *draft.Draft) { d.Sheet.Height = nan }},
		{"sheet.bed.height", "30000 is out of range",
			func(d *draft.Draft) { d.Sheet.Bed = &draft.Bed{Width: 600, Height: 30000} }},
	} {
		t.Run(cmp.Or(c.text, "a good draft"), func(t *testing.T) {
			d := base()
			c.change(&d)
			err := d.Check()
			if c.text == "" {
				if err != nil {
					t.Errorf("a good draft: %v", err)
				}
				return
			}
			var e *draft.PlaceError
			if !errors.As(err, &e) {
				t.Errorf("got %v, want %s", err, c.text)
			} else if e.Place != c.place || !strings.HasPrefix(e.Text, c.text) {
				t.Errorf("got %s: %s\nwant %s: %s", e.Place, e.Text, c.place, c.text)
			}
		})
	}
}

func TestCheckAfterLooksAtNewOutlines(t *testing.T) {
	good := orb.MultiPolygon{{orb.Ring{{0, 0}, {9, 0}, {9, 9}, {0, 0}}}}
	bad := orb.MultiPolygon{{orb.Ring{{0, 0}, {9, 9}, {9, 0}, {0, 9}, {0, 0}}}}
	was := draft.Default()
	was.Silhouettes = []draft.Silhouette{{ID: "a", Outline: good}, {ID: "b", Outline: good}}
	if err := was.CheckAfter(draft.Draft{}); err != nil {
		t.Fatal(err)
	}
	for name, list := range map[string][]draft.Silhouette{
		"redrawn": {{ID: "a", Outline: good}, {ID: "b", Outline: bad}},
		"moved":   {{ID: "b", Outline: good}, {ID: "a", Outline: bad}},
		"new":     {{ID: "a", Outline: good}, {ID: "b", Outline: good}, {ID: "c", Outline: bad}},
	} {
		t.Run(name, func(t *testing.T) {
			next := was
			next.Silhouettes = list
			if err := next.CheckAfter(was); err == nil || !strings.Contains(err.Error(), "crosses itself") {
				t.Errorf("got %v", err)
			}
		})
	}
	next := was
	next.Silhouettes = was.Silhouettes[1:]
	if err := next.CheckAfter(was); err != nil {
		t.Error(err)
	}
	// What is not an outline's is gone through every time.
	next.Panel.Width = 1
	if err := next.CheckAfter(was); err == nil {
		t.Error("a panel of 1 mm was let through")
	}
}
