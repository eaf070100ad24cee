//go:build js

package main

import (
	"encoding/json"
	"image/color"
	"strconv"
	"syscall/js"

	"openwork/pattern"
	"openwork/wasm/editor/desk"
)

// export puts the functions the page calls on the global openwork. Texts are JSON; a refusal is {"error": sentence}.
func export(c *canvas) {
	k := c.desk
	out := map[string]any{}
	add := func(name string, f func(a []js.Value) any) {
		out[name] = js.FuncOf(func(_ js.Value, a []js.Value) any {
			r := f(a)
			if k.Session.Changed || k.Session.Redraw {
				call("openworkWake")
			}
			return r
		})
	}

	add("view", func([]js.Value) any {
		var out any
		k.Session.Show(func() { out = text(k.State()) })
		return out
	})
	add("look", func([]js.Value) any { k.Session.LookAgain(); return nil })
	add("groups", func([]js.Value) any { return text(desk.GroupCards()) })
	add("actions", func([]js.Value) any { return text(desk.Actions()) })
	add("command", func(a []js.Value) any {
		var cmd pattern.Command
		if err := json.Unmarshal([]byte(arg(a, 0)), &cmd); err != nil {
			return outcome(err)
		}
		return outcome(k.Do(cmd))
	})
	add("act", func(a []js.Value) any { return outcome(k.Act(arg(a, 0))) })
	add("select", func(a []js.Value) any { k.Select(arg(a, 0)); return nil })
	add("copies", func(a []js.Value) any { return text(k.Copies(int(number(a, 0)), int(number(a, 1)))) })
	add("holdCopy", func(a []js.Value) any {
		return outcome(k.HoldCopy(arg(a, 0), int(number(a, 1)), [2]int{int(number(a, 2)), int(number(a, 3))}))
	})
	add("placeHeld", func(a []js.Value) any { return outcome(k.PlaceHeld(arg(a, 0), number(a, 1))) })
	add("mirrorHeld", func([]js.Value) any { return outcome(k.MirrorHeld()) })
	add("goto", func(a []js.Value) any { k.Goto(int(number(a, 0))); return nil })
	add("open", func(a []js.Value) any { return outcome(k.OpenText(arg(a, 0))) })
	add("demonstration", func(a []js.Value) any { k.Demonstration(arg(a, 0)); return nil })
	add("stepInHand", func(a []js.Value) any { k.StepInHand(arg(a, 0)); return nil })
	add("start", func(a []js.Value) any { return outcome(k.Start(arg(a, 0))) })
	add("openLink", func(a []js.Value) any { return outcome(k.OpenLink(arg(a, 0))) })
	add("save", func([]js.Value) any { return string(k.Session.Draft().Encode()) })
	add("history", func([]js.Value) any { return text(k.Session.History()) })
	add("step", func(a []js.Value) any { return k.Session.StepText(int(number(a, 0))) })
	add("restore", func(a []js.Value) any {
		var kept desk.History
		if err := json.Unmarshal([]byte(arg(a, 0)), &kept); err != nil {
			return outcome(err)
		}
		return outcome(k.Restore(kept, textsOf(a, 1)))
	})
	add("visit", func(a []js.Value) any { return outcome(k.Visit(int(number(a, 0)))) })
	add("filename", func([]js.Value) any { return k.FileName() })
	add("link", func([]js.Value) any {
		s, err := k.Link()
		if err != nil {
			return outcome(err)
		}
		return text(map[string]string{"fragment": s})
	})
	add("pieces", func(a []js.Value) any {
		var chosen []int
		if err := json.Unmarshal([]byte(arg(a, 1)), &chosen); err != nil {
			return outcome(err)
		}
		return outcome(k.Pieces(arg(a, 0), chosen, arg(a, 2), arg(a, 3) != ""))
	})
	add("pen", func(a []js.Value) any { return outcome(k.Pen(arg(a, 0), arg(a, 1), number(a, 2))) })
	add("copySilhouette", func(a []js.Value) any { return outcome(k.CopySilhouette(arg(a, 0))) })
	add("mirrorSilhouette", func(a []js.Value) any { return outcome(k.MirrorSilhouette(arg(a, 0))) })
	add("pointer", func(a []js.Value) any {
		return k.Pointer(arg(a, 0), int(number(a, 1)), number(a, 2), number(a, 3), int(number(a, 4)), arg(a, 5))
	})
	add("wheel", func(a []js.Value) any {
		k.Wheel(number(a, 0), number(a, 1), number(a, 2), number(a, 3), int(number(a, 4)))
		return nil
	})
	add("key", func(a []js.Value) any {
		return k.Key(arg(a, 0), int(number(a, 1)), truth(a, 2), truth(a, 3))
	})
	add("answer", func(a []js.Value) any { return outcome(k.Session.Answer(int(number(a, 0)), arg(a, 1))) })
	add("checkAgain", func([]js.Value) any { k.Session.CheckAgain(); return nil })
	add("answerFailed", func(a []js.Value) any { k.Session.AnswerFailed(int(number(a, 0)), arg(a, 1)); return nil })
	add("recognised", func(a []js.Value) any { return outcome(k.Session.Recognised(int(number(a, 0)), arg(a, 1))) })
	add("recogniseFailed", func(a []js.Value) any { k.Session.RecogniseFailed(int(number(a, 0))); return nil })
	add("mends", func(a []js.Value) any { return outcome(k.Session.Mends(int(number(a, 0)), arg(a, 1))) })
	add("mendsFailed", func(a []js.Value) any { k.Session.MendsFailed(int(number(a, 0))); return nil })
	add("showGaps", func(a []js.Value) any { k.Session.ShowGaps(truth(a, 0)); return nil })
	add("gaps", func(a []js.Value) any {
		return outcome(k.Session.TakeGaps(int(number(a, 0)), arg(a, 1), bytesOf(a, 2)))
	})
	add("subject", func(a []js.Value) any { k.Subject(arg(a, 0)); return nil })
	add("seeThrough", func(a []js.Value) any { k.SeeThrough(number(a, 0)); return nil })
	add("tangents", func(a []js.Value) any { return outcome(k.Session.Tangents(int(number(a, 0)), arg(a, 1))) })
	add("brush", func(a []js.Value) any { k.Brush(truth(a, 0), arg(a, 1)); return nil })
	add("seeAs", func(a []js.Value) any { return outcome(k.SeeAs(arg(a, 0))) })
	add("mend", func(a []js.Value) any { return outcome(k.Mend(int(number(a, 0)))) })
	add("theme", func(a []js.Value) any {
		var p map[string]string
		if err := json.Unmarshal([]byte(arg(a, 1)), &p); err != nil {
			return outcome(err)
		}
		c.theme(p)
		return outcome(nil)
	})
	js.Global().Set("openwork", out)
}

func arg(a []js.Value, i int) string {
	if i >= len(a) || a[i].Type() != js.TypeString {
		return ""
	}
	return a[i].String()
}

func number(a []js.Value, i int) float64 {
	if i >= len(a) || a[i].Type() != js.TypeNumber {
		return 0
	}
	return a[i].Float()
}

// bytesOf copies the bytes of a Uint8Array; nil for anything else.
func bytesOf(a []js.Value, i int) []byte {
	if i >= len(a) || !a[i].InstanceOf(js.Global().Get("Uint8Array")) {
		return nil
	}
	b := make([]byte, a[i].Get("length").Int())
	js.CopyBytesToGo(b, a[i])
	return b
}

// textsOf returns the strings of an array; nil for anything else.
func textsOf(a []js.Value, i int) []string {
	if i >= len(a) || !a[i].InstanceOf(js.Global().Get("Array")) {
		return nil
	}
	texts := make([]string, a[i].Length())
	for j := range texts {
		if v := a[i].Index(j); v.Type() == js.TypeString {
			texts[j] = v.String()
		}
	}
	return texts
}

func truth(a []js.Value, i int) bool { return i < len(a) && a[i].Truthy() }

func text(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		return outcome(err).(string)
	}
	return string(b)
}

// outcome is "{}" or the sentence that says why not.
func outcome(err error) any {
	if err == nil {
		return "{}"
	}
	b, _ := json.Marshal(map[string]string{"error": pattern.Sentence(err.Error())})
	return string(b)
}

// theme takes the page's colours by name, as "#rrggbb"; what it does not name stays.
func (c *canvas) theme(p map[string]string) {
	for name, to := range map[string]*color.RGBA{
		"ground": &c.colours.ground, "sheet": &c.colours.sheet, "paint": &c.colours.paint, "ink": &c.colours.ink,
		"faint": &c.colours.faint, "accent": &c.colours.accent, "fault": &c.colours.fault, "warn": &c.colours.warn,
		"halo": &c.colours.halo,
	} {
		s := p[name]
		if len(s) != 7 || s[0] != '#' {
			continue
		}
		if v, err := strconv.ParseUint(s[1:], 16, 32); err == nil {
			*to = rgb(uint8(v>>16), uint8(v>>8), uint8(v))
		}
	}
	c.desk.Session.Redraw = true
}
