package link

import (
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"openwork/geometry"
	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
	"openwork/pattern/symmetry"
)

var allEdges = []draft.Edge{draft.Crop, draft.Whole, draft.Behind}

// Subjects come back as they were, their outlines to 0.01 mm, in version 4; a draft without any has the link it had.
func TestSubjectsThroughALink(t *testing.T) {
	const seed = 91
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	groups := symmetry.Groups()
	for i := range 34 {
		plain := patterntest.Draft(r, groups[i%len(groups)].Symbol)
		d := patterntest.Subjects(r, plain, allEdges...)
		if err := d.Check(); err != nil {
			t.Fatal(err)
		}
		s, err := Encode(d)
		if err != nil || !strings.HasPrefix(s, "#ow4.") {
			t.Fatalf("%.10s, %v", s, err)
		}
		got, err := Decode(s)
		if err != nil {
			t.Fatal(err)
		}
		if again, err := Encode(got); err != nil || again != s {
			t.Fatalf("the link of the draft that %s opens to is %s (%v)", s, again, err)
		}
		for k, want := range d.Subjects {
			have := got.Subjects[k]
			a, b := geometry.NewShape(want.Placed()), geometry.NewShape(have.Placed())
			if !geometry.SameWithin(a, b, 0.02) {
				t.Errorf("draft %d: the outline of subject %d has moved", i, k)
			}
			want.Outline, have.Outline = nil, nil
			if !reflect.DeepEqual(want, have) {
				t.Errorf("draft %d: %+v comes back as %+v", i, want, have)
			}
		}
		if s, err = Encode(plain); err != nil || !strings.HasPrefix(s, "#ow1.") {
			t.Errorf("without subjects a link is %.10s (%v)", s, err)
		}
	}
}

// A subject of 300 points adds under 500 characters to a link.
func TestASubjectIsShortInALink(t *testing.T) {
	r := rand.New(rand.NewPCG(92, 0))
	d := patterntest.Demo(t)
	before, err := Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 8 {
		d.Subjects = []draft.Subject{{ID: "subject1", Name: "Heron", Outline: patterntest.Smooth(r, 150, 300),
			At: [2]float64{211.4, 388.25}, Turn: 12.5, Scale: 1.1, Room: 12, Edge: draft.Behind}}
		after, err := Encode(d)
		if err != nil {
			t.Fatal(err)
		}
		if more := len(after) - len(before); more >= 500 || more < 50 {
			t.Errorf("subject %d adds %d characters", i, more)
		}
	}
}

// A link of version 4 that has nothing of the picture was written by none of us.
func TestVersion4SaysSomething(t *testing.T) {
	d := patterntest.Demo(t)
	c := newWriter()
	c.draft(&d, 4)
	refused(t, wrap(4, c.finish()), "it is of the version for swatches or paint or subjects and has none")
}

// FuzzPictureContent goes past the check sum of version 4.
func FuzzPictureContent(f *testing.F) {
	r := rand.New(rand.NewPCG(93, 0))
	for range 6 {
		d := patterntest.Subjects(r, patterntest.Draft(r, "p4"), allEdges...)
		c := newWriter()
		c.draft(&d, 4)
		f.Add(c.finish())
	}
	f.Fuzz(func(t *testing.T, content []byte) { opensSoundly(t, wrap(4, content)) })
}
