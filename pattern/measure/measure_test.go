package measure

import "testing"

// A kerf of 0.254 mm is 0.010 in; sentences in mm come in inches figure by figure.
func TestUnitFineAndSaid(t *testing.T) {
	in, mm := Of("in"), Of("mm")
	for _, c := range []struct{ got, want string }{
		{in.Fine(0.254), "0.010\u00a0in"}, {mm.Fine(0.254), "0.254\u00a0mm"}, {in.Fine(3.175), "0.125\u00a0in"},
		{mm.Fine(0.35), "0.35\u00a0mm"}, {in.Way(3048), "10.0\u00a0ft"}, {mm.Way(3048), "3.05\u00a0m"},
		{mm.Weight(61.84), "61.8\u00a0g"}, {mm.Weight(1234), "1.23\u00a0kg"}, {mm.Weight(0.5), "0.5\u00a0g"},
		{in.Weight(28.349523125), "1\u00a0oz"}, {in.Weight(61.84), "2.18\u00a0oz"}, {in.Weight(453.6), "1.00\u00a0lb"},
		{in.Weight(1234), "2.72\u00a0lb"}, {in.Weight(3), "0.106\u00a0oz"},
		{in.Said("room for 2 holes of 4 mm"), "room for 2 holes of 0.157 in"},
		{in.Said("at (25.4, 50.8) mm and 254\u00a0mm"), "at (1, 2) in and 10\u00a0in"},
		{in.Said("600 × 900 mm, 645.16 mm²"), "23.622 × 35.433 in, 1 in²"},
		{in.Said("(0.8 to 1.2 mm)"), "(0.031 to 0.047 in)"},
		{in.Said("45 mm/s"), "1.772 in/s"}, {in.Said("no figures of mm, 3 commas"), "no figures of mm, 3 commas"},
		{mm.Said("4 mm"), "4 mm"},
		{in.Said("The bridge is 3.41 mm wide; this sheet needs 5. And 261 more bridges too thin."),
			"The bridge is 0.134 in wide; this sheet needs 0.197. And 261 more bridges too thin."},
		{in.Said("narrows to just under 2.5 mm; paste needs 2.5."),
			"narrows to just under 0.098 in; paste needs 0.098."},
		{in.Said("Bridge of 2 mm, at least 3 needed"), "Bridge of 0.079 in, at least 0.118 needed"},
		{in.Said("this sheet needs 3 mm of it"), "this sheet needs 0.118 in of it"},
		{mm.Volume(198.6), "199\u00a0ml"}, {in.Volume(2 * PerOunce), "2\u00a0fl\u00a0oz"},
		{mm.Volume(7.25), "7.3\u00a0ml"},
		{mm.Volume(0.123), "0.12\u00a0ml"},
		{in.Surface(64516), "100\u00a0in²"}, {mm.Surface(90800), "908\u00a0cm²"},
		{in.Said("it needs 3 holes"), "it needs 3 holes"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
