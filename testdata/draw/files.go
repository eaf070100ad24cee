package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
)

// The shape of a draft's file; see the developers' notes for its meaning.
type (
	draft struct {
		Openwork    int          `json:"openwork"`
		Title       string       `json:"title"`
		Units       string       `json:"units"`
		Panel       panel        `json:"panel"`
		Field       field        `json:"field"`
		Repeat      repeat       `json:"repeat"`
		Silhouettes []silhouette `json:"silhouettes"`
		Motifs      []motif      `json:"motifs"`
		Sheet       sheet        `json:"sheet"`
		Subjects    []subject    `json:"subjects"`
	}
	panel struct {
		Width  float64 `json:"width"`
		Height float64 `json:"height"`
	}
	field struct {
		Margin float64    `json:"margin"`
		Origin [2]float64 `json:"origin"`
		Turn   float64    `json:"turn"`
		Edge   string     `json:"edge"`
	}
	repeat struct {
		Group string  `json:"group"`
		A     float64 `json:"a"`
		B     float64 `json:"b"`
		Gamma float64 `json:"gamma"`
	}
	silhouette struct {
		ID      string           `json:"id"`
		Name    string           `json:"name"`
		Outline [][][][2]float64 `json:"outline"`
	}
	motif struct {
		ID         string     `json:"id"`
		Silhouette string     `json:"silhouette"`
		At         [2]float64 `json:"at"`
		Turn       float64    `json:"turn"`
		Scale      float64    `json:"scale"`
		Mirrored   bool       `json:"mirrored"`
	}
	subject struct {
		silhouette
		At       [2]float64 `json:"at"`
		Turn     float64    `json:"turn"`
		Scale    float64    `json:"scale"`
		Mirrored bool       `json:"mirrored"`
		Room     float64    `json:"room"`
		Edge     string     `json:"edge"`
	}
	sheet struct {
		Stock     string  `json:"stock"`
		Thickness float64 `json:"thickness"`
		Kerf      float64 `json:"kerf"`
		Bridge    float64 `json:"bridge"`
		Opening   float64 `json:"opening"`
	}
)

func (d drawing) silhouette() silhouette {
	var ring [][2]float64
	for _, p := range d.ring {
		ring = append(ring, [2]float64{p.x, p.y})
	}
	return silhouette{d.id, d.name, [][][][2]float64{{ring}}}
}

// newDraft is a draft on a panel of 600 × 900 mm with the trade's usual sheet for knife and thick paste.
func newDraft(title string, r repeat) draft {
	return draft{
		Openwork: 1, Title: title, Units: "mm",
		Panel:  panel{600, 900},
		Field:  field{20, [2]float64{300, 450}, 0, "crop"},
		Repeat: r,
		Sheet:  sheet{"polyester film", 0.35, 0.2, 3, 1.5},
	}
}

// text writes a draft one member or motif a line, outlines with all their numbers on one line.
func (d draft) text() ([]byte, error) {
	var b bytes.Buffer
	line := func(format string, values ...any) error {
		var args []any
		for _, v := range values {
			j, err := json.Marshal(v)
			if err != nil {
				return err
			}
			args = append(args, string(j))
		}
		_, err := fmt.Fprintf(&b, format, args...)
		return err
	}
	err := line("{\n  \"openwork\": %s,\n  \"title\": %s,\n  \"units\": %s,\n  \"panel\": %s,\n  \"field\": %s,\n  "+
		"\"repeat\": %s,\n  \"silhouettes\": [\n",
		d.Openwork, d.Title, d.Units, d.Panel, d.Field, d.Repeat)
	for i := 0; i < len(d.Silhouettes) && err == nil; i++ {
		err = line("    %s"+comma(i, len(d.Silhouettes)), d.Silhouettes[i])
	}
	b.WriteString("  ],\n  \"motifs\": [\n")
	for i := 0; i < len(d.Motifs) && err == nil; i++ {
		err = line("    %s"+comma(i, len(d.Motifs)), d.Motifs[i])
	}
	b.WriteString("  ],\n")
	if err == nil {
		err = line("  \"sheet\": %s", d.Sheet)
	}
	for i := 0; i < len(d.Subjects) && err == nil; i++ {
		before := ",\n    "
		if i == 0 {
			before = ",\n  \"subjects\": [\n    "
		}
		err = line(before+"%s", d.Subjects[i])
	}
	if len(d.Subjects) > 0 {
		b.WriteString("\n  ]")
	}
	b.WriteString("\n}\n")
	return b.Bytes(), err
}

func comma(i, n int) string {
	if i < n-1 {
		return ",\n"
	}
	return "\n"
}

// svg writes a drawing at full size, in mm, as one filled path of Bézier pieces; SVG's y runs downward.
func (d drawing) svg() []byte {
	lo, hi := bounds(flatten(d.pieces))
	const air = 2
	left, top := math.Floor(lo.x)-air, math.Ceil(hi.y)+air
	w, h := math.Ceil(hi.x)+air-left, top-math.Floor(lo.y)+air
	num := func(v float64) string {
		return strconv.FormatFloat(math.Round(v*grain)/grain+0, 'f', -1, 64)
	}
	at := func(p point) string { return num(p.x-left) + " " + num(top-p.y) }
	var b bytes.Buffer
	fmt.Fprintf(&b, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\">\n",
		num(w), num(h), num(w), num(h))
	fmt.Fprintf(&b, "  <title>%s</title>\n  <path fill=\"#1d1b18\" d=\"M%s", d.name, at(d.pieces[0][0]))
	for _, c := range d.pieces {
		fmt.Fprintf(&b, "\n    C%s %s %s", at(c[1]), at(c[2]), at(c[3]))
	}
	b.WriteString("Z\"/>\n</svg>\n")
	return b.Bytes()
}
