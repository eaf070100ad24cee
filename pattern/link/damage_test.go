package link

import (
	"encoding/base64"
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"openwork/pattern/draft"
	"openwork/pattern/patterntest"
)

func someLink(t *testing.T) (string, draft.Draft) {
	t.Helper()
	d := patterntest.Draft(rand.New(rand.NewPCG(71, 0)), "p4gm")
	s, err := Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	if d, err = Decode(s); err != nil {
		t.Fatal(err)
	}
	return s, d
}

func TestDecodeTakes(t *testing.T) {
	s, want := someLink(t)
	for _, c := range []string{
		s, s[1:], "http://localhost:8017/" + s, "file:///home/a%20b/index.html" + s, " " + s + "\n",
		"<http://localhost" + s + ">", s + ").",
		s + "»,", s[:40] + "\r\n" + s[40:80] + "\n  " + s[80:],
	} {
		if got, err := Decode(c); err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%.30q…%q: %v", c, c[len(c)-3:], err)
		}
	}
}

func TestDecodeRefuses(t *testing.T) {
	s, _ := someLink(t)
	body := strings.TrimPrefix(s, "#"+head(plainLinks))
	for _, c := range []struct{ name, link, want string }{
		{"nothing", "", "the link is empty; copy the whole address"},
		{"white space", " \n", "the link is empty"},
		{"a sign alone", "#", "nothing follows the # of the link"},
		{"an address without a draft", "http://localhost:8017/", "the address has no # with a draft after it"},
		{"an address with nothing after the #", "http://localhost:8017/#", "nothing follows the # of the link"},
		{"a section", "#section-2", `"section-2" is not a link to a draft; one begins with #ow1.`},
		{"a section that begins alike", "#owl.feathers", `"owl.feathers" is not a link to a draft`},
		{"a route", "#/panel/3?x=1", `"/panel/3?x=1" is not a link to a draft`},
		{"words", "hello there", `"hellothere" is not a link to a draft`},
		{"a newer version", "#ow5." + body,
			"the link is of version 5, and this program reads version 4; a newer program is needed"},
		{"a far newer version", "#ow123.x", "the link is of version 123"},
		{"no version", "#ow." + body, "is not a link to a draft"},
		{"version 0", "#ow0." + body, `"0" is not a version of links`},
		{"version 01", "#ow01." + body, `"01" is not a version of links`},
		{"a negative version", "#ow-1." + body, "is not a link to a draft"},
		{"a huge version", "#ow99999999999999999999." + body, "is not a link to a draft"},
		{"head alone", "#ow1.", `is not a link to a draft`},
		{"head and a sign", "#ow1.A", "the link is cut short before the draft begins"},
		{"head and length", "#ow1.AAAA", "the link is cut short before the draft begins"},
		{"endless length", "#ow1._____wAAAAAA", "the link is damaged: its length makes no sense"},
		{"length with an idle byte", "#ow1.gAAAAAAA", "the link is damaged: its length makes no sense"},
		{"cut by one", s[:len(s)-1], "the link is cut short: "},
		{"cut in the middle", s[:len(s)/2], "the link is cut short: "},
		{"a strange sign", s[:30] + "*" + s[31:], `the link is damaged: it has a '*' after 25 characters of the draft`},
		{"a strange letter", s[:30] + "é" + s[31:], `the link is damaged: it has a 'é'`},
		{"percent signs", s[:30] + "%2D" + s[31:], `the link is damaged: it has a '%'`},
		{"padding", s + "==", "the link is damaged: it has a '='"},
		{"another link after it", s + s, "the link is damaged: it has a '#'"},
		{"letters after it", s + "abc", "the link goes on for 3 characters after its end"},
		{"a wrong letter", s[:50] + other(s[50]) + s[51:], "the link is damaged: its check sum does not agree"},
		{"far too long", "#ow1." + strings.Repeat("A", MaxLink), "the link has more than 6291456 characters"},
	} {
		t.Run(c.name, func(t *testing.T) {
			refused(t, c.link, c.want)
		})
	}
}

// other returns a letter of base64url that is not c.
func other(c byte) string {
	if c == 'A' {
		return "B"
	}
	return "A"
}

func TestEveryDamageIsNoticed(t *testing.T) {
	s, _ := someLink(t)
	for k := range s {
		if _, err := Decode(s[:k]); err == nil {
			t.Fatalf("%d of %d characters open", k, len(s))
		} else if k > len("#ow1.") && !strings.Contains(err.Error(), "cut short") {
			t.Errorf("%d of %d characters: %v", k, len(s), err)
		}
		if k == 0 {
			continue // without its # a fragment opens as well
		}
		if _, err := Decode(s[:k] + s[k+1:]); err == nil {
			t.Fatalf("the link opens without character %d", k)
		}
		for _, c := range "AZaz09-_.#" {
			if wrong := s[:k] + string(c) + s[k+1:]; wrong != s {
				if _, err := Decode(wrong); err == nil {
					t.Fatalf("the link opens with %c for character %d", c, k)
				}
			}
		}
		if k+1 < len(s) && s[k] != s[k+1] {
			if _, err := Decode(s[:k] + string(s[k+1]) + string(s[k]) + s[k+2:]); err == nil {
				t.Fatalf("the link opens with characters %d and %d exchanged", k, k+1)
			}
		}
	}
}

// TestContentIsBounded opens links with a right check sum whose content no writer made: they ask for far more than a
// draft holds, or have values that are none.
func TestContentIsBounded(t *testing.T) {
	huge := func(change func(c *codec)) string {
		c := newWriter()
		change(c)
		return wrap(plainLinks, c.finish())
	}
	// begin writes a draft up to its silhouettes.
	begin := func(c *codec) {
		d := draft.Default()
		c.text(sameText, &d.Title, "", maxBytes)
		for range 5 {
			v := 1.0
			c.number(sameNumber, &v, 1)
		}
		v := 0.0
		c.number(sameAngle, &v, 0)
		c.raw(0, 2) // the edge rule
		c.group(&d.Repeat.Group)
		for range 2 {
			v := 1.0
			c.number(sameNumber, &v, 1)
		}
		c.number(sameAngle, &v, 0)
	}
	one := func(c *codec, step, polygons, rings, points int) {
		n, id := 1, "a"
		c.count(sizeCount, &n, 1, "")
		c.text(sameID, &id, "", maxBytes)
		c.text(sameText, &id, "a", maxBytes)
		c.tree(c.model.steps[:], 3, step)
		for _, k := range []int{polygons, rings, points} {
			c.count(sizeCount, &k, math.MaxInt, "")
		}
	}
	for _, c := range []struct {
		name, link, want string
	}{
		{"nothing", wrap(plainLinks, nil), ""},
		{"noise", wrap(plainLinks, []byte("it is a truth universally acknowledged")), ""},
		{"ones", wrap(plainLinks, []byte(strings.Repeat("\xff", 300))), ""},
		{"silhouettes", huge(func(c *codec) { begin(c); n := 1 << 29; c.count(sizeCount, &n, 1<<30, "") }),
			"it asks for more silhouettes than a draft holds"},
		{"polygons", huge(func(c *codec) { begin(c); one(c, 0, 1<<29, 1, 3) }),
			"it asks for more polygons than a draft holds"},
		{"rings", huge(func(c *codec) { begin(c); one(c, 0, 1, 1<<29, 3) }),
			"it asks for more rings than a draft holds"},
		{"points", huge(func(c *codec) { begin(c); one(c, 0, 1, 1, 1<<29) }),
			"it asks for more points than a draft holds"},
		{"two points", huge(func(c *codec) { begin(c); one(c, 0, 1, 1, 2) }), "a ring has fewer than three points"},
		{"a step that is none", huge(func(c *codec) { begin(c); one(c, 7, 1, 1, 3) }),
			"it rounds an outline to a step that is none"},
		{"a way that is none", huge(func(c *codec) {
			begin(c)
			one(c, 0, 1, 1, 3)
			c.tree(c.model.predictor[:], 2, 3)
		}), "its points are foretold in a way that is none"},
		{"far away", huge(func(c *codec) {
			begin(c)
			one(c, 0, 1, 1, 3)
			c.tree(c.model.predictor[:], 2, evenly)
			c.walk([]step{{1 << 39, 0}, {0, 0}, {0, 1}}, evenly)
		}), "an outline leaves the plane of a draft"},
		{"letters", huge(func(c *codec) {
			c.bit(&c.model.same[sameText], false)
			n := 1 << 20
			c.count(sizeText, &n, 1<<30, "")
		}), "it asks for more letters in a text than a draft holds"},
		{"a group that is none", huge(func(c *codec) {
			title := ""
			c.text(sameText, &title, "", maxBytes)
			for range 5 {
				v := 1.0
				c.number(sameNumber, &v, 1)
			}
			v := 0.0
			c.number(sameAngle, &v, 0)
			c.raw(0, 2)
			c.raw(31, 5)
		}), "its plane group is none"},
	} {
		t.Run(c.name, func(t *testing.T) {
			refused(t, c.link, c.want)
		})
	}
	// A draft that Check refuses: written past Encode.
	d := draft.Default()
	d.Panel.Width = 5
	c := newWriter()
	c.draft(&d, plainLinks)
	_, err := Decode(wrap(plainLinks, c.finish()))
	var place *draft.PlaceError
	if !errors.As(err, &place) || place.Place != "panel.width" {
		t.Errorf("got %v", err)
	}
	// Bytes after the draft's last.
	c = newWriter()
	d = draft.Default()
	c.draft(&d, plainLinks)
	if _, err := Decode(wrap(plainLinks, append(c.finish(), 0, 0, 0, 0, 0, 0, 1))); err == nil ||
		!strings.Contains(err.Error(), "it goes on after the draft") {
		t.Errorf("got %v", err)
	}
}

// opensSoundly checks what must hold of whatever a link opens to.
func opensSoundly(t *testing.T, link string) {
	d, err := Decode(link)
	if err != nil {
		if len(err.Error()) < 20 {
			t.Fatalf("not a sentence: %v", err)
		}
		return
	}
	if err := d.Check(); err != nil {
		t.Fatalf("a link opened to what is no draft: %v", err)
	}
	s, err := Encode(d)
	if err != nil {
		t.Fatal(err)
	}
	again, err := Decode(s)
	if err != nil {
		t.Fatalf("%v in %s", err, s)
	}
	if two, err := Encode(again); err != nil || two != s {
		t.Fatalf("the link %s changes when it is opened, to %s (%v)", s, two, err)
	}
	like(t, d, again)
}

func FuzzLink(f *testing.F) {
	r := rand.New(rand.NewPCG(72, 0))
	for range 10 {
		s, err := Encode(anyDraft(r))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(s)
		f.Add("https://example.org/" + s[:len(s)-3])
	}
	for _, s := range []string{"", "#", "#section-2", "#ow1.", "#ow2.AAAA", "#ow1.AAAAAAA", "http://localhost:8017/"} {
		f.Add(s)
	}
	f.Fuzz(opensSoundly)
}

// FuzzContent goes past the check sum, which stops nearly everything that FuzzLink tries.
func FuzzContent(f *testing.F) {
	r := rand.New(rand.NewPCG(73, 0))
	for range 10 {
		s, err := Encode(anyDraft(r))
		if err != nil {
			f.Fatal(err)
		}
		data, err := base64.RawURLEncoding.DecodeString(strings.TrimPrefix(s, "#"+head(plainLinks)))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data[6:])
	}
	f.Fuzz(func(t *testing.T, content []byte) { opensSoundly(t, wrap(plainLinks, content)) })
}

// refused holds that a link is not opened: the error says what is wanted, and no draft comes with it.
func refused(t *testing.T, link, want string) {
	t.Helper()
	d, err := Decode(link)
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("got %v, want %s", err, want)
	}
	if !reflect.DeepEqual(d, draft.Draft{}) {
		t.Errorf("a draft came with the error")
	}
}
