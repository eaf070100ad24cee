package desk

import (
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/pattern/sheet/sentences"
)

// mmPerInch is exact by definition.
const mmPerInch = sheet.MMPerInch

// words writes the sentences about the open draft in the display unit.
func (k *Session) words() sentences.Words {
	return sentences.Words{Words: sheet.Words{Unit: sheet.Unit{Inches: k.Inches}, Draft: k.Draft()}}
}

// length writes a length in the display unit, without its sign.
func (k *Session) length(mm float64) string { return sheet.Unit{Inches: k.Inches}.Length(mm) }

// unit is the display unit's sign.
func (k *Session) unit() string { return sheet.Unit{Inches: k.Inches}.Sign() }

// measure writes a length with its unit.
func (k *Session) measure(mm float64) string { return sheet.Unit{Inches: k.Inches}.Measure(mm) }

// size writes width × height with the unit.
func (k *Session) size(w, h float64) string { return sheet.Unit{Inches: k.Inches}.Size(w, h) }

func trim(v float64, decimals int) string { return sheet.Trim(v, decimals) }

func count(n int, one, many string) string { return sheet.Count(n, one, many) }

func edgeWords(e draft.Edge) string {
	switch e {
	case draft.Whole:
		return "whole copies only"
	case draft.Touching:
		return "copies run over the margin"
	}
	return "cropped at the margin"
}
