package pattern

import (
	"fmt"
	"slices"
	"strings"

	"openwork/pattern/draft"
	"openwork/pattern/letters"
)

// refusal is why a laser does not meet a stock, and the words in the stock's name that tell it.
type refusal struct {
	words  []string
	unless []string // words that say it is another stock after all
	reason string
}

// refused are words for stocks that are kept from the laser: the generic names in English, German, French, Spanish and
// Italian, in small letters without marks, and the short signs of ISO 1043-1. Sources: the lists that workshops
// publish, such as the University of Texas at Austin, School of Architecture, "Prohibited Laser Cutter Materials", and
// the University of Illinois Chicago, College of Architecture, "Approved Materials"; the other languages' words from
// memory. The shop's own list and the maker's safety data sheet decide.
var refused = []refusal{
	{words: []string{"pvc", "upvc", "cpvc", "pvdc", "vinyl", "vinil", "chlor", "clorur", "clorad", "clorat", "neopren",
		"kunstleder", "leatherette", "imitation leather", "faux leather", "artificial leather", "similicuir",
		"simili cuir", "cuir synthetique", "imitation cuir", "polipiel", "cuero sintetico", "cuero artificial",
		"piel sintetica", "similpelle", "finta pelle", "ecopelle"},
		reason: "it holds chlorine, or such stocks do, and under a laser it gives off hydrogen chloride"},
	{words: []string{"klebefoli", "plotterfoli"}, unless: otherPlastics,
		reason: "self-adhesive film is PVC more often than not, and under a laser it gives off hydrogen chloride"},
	{words: []string{"polycarbon", "policarbon"},
		reason: "it is polycarbonate, which is not for the laser: it takes the beam up, yellows and burns instead of " +
			"cutting clean"},
	{words: []string{"abs", "acrylonitril", "acrylnitril", "acrilonitril"},
		reason: "it is not for the laser: it melts and burns instead of cutting clean"},
	{words: []string{"styren", "styrol", "estiren", "stirol", "stiren", "hips", "xps", "eps"},
		reason: "it is polystyrene, which is not for the laser: it melts and catches fire"},
	{words: []string{"foam board", "foam core", "foam sheet", "rigid foam", "foamed board", "expanded sheet",
		"hartschaum", "schaumplatt", "schaumstoff", "leichtschaum", "schaumkarton", "mousse", "expanse", "espuma",
		"carton pluma", "schiuma", "espans", "carton piuma", "cartone piuma"}, unless: otherPlastics,
		reason: "foam board is PVC or polystyrene more often than not, and neither is for the laser; where it is " +
			"another plastic, name that"},
	{words: []string{"ptfe", "pvdf", "etfe", "polytetrafluor", "politetrafluor", "fluoropol", "fluorpol"},
		reason: "it holds fluorine, and under a laser it gives off hydrogen fluoride"},
}

// otherPlastics are words for plastics that foam boards and self-adhesive films may be of as well.
var otherPlastics = []string{"polyethylen", "polietilen", "polypropylen", "polipropilen", "polyester", "poliester",
	"polyurethan", "poliuretan", "paper", "papier", "papel", "carta"}

// RefuseStock says why a stock must not meet what it is cut with; nil when nothing is known against it. Only a laser
// burns what it cuts: a knife and a waterjet take any stock. A stock it does not know is not thereby safe: the shop's
// material list and the maker's safety data sheet decide.
func RefuseStock(stock string, how draft.How) error {
	if how != draft.Laser && how != "" {
		return nil
	}
	name := folded(stock)
	has := func(word string) bool { return hasWord(name, word) }
	for _, r := range refused {
		if slices.ContainsFunc(r.words, has) && !slices.ContainsFunc(r.unless, has) {
			return fmt.Errorf("no cut file for %q: %s; ask the shop for a stock it cuts, or have it cut with a knife "+
				"or "+
				"a waterjet", stock, r.reason)
		}
	}
	return nil
}

// Words for films, and for card and paper, as refused has them; from memory.
var (
	Films = []string{"film", "folie", "foil", "polyester", "pet", "poliester", "lamina", "foglio"}
	Cards = []string{"card", "board", "karton", "pappe", "carton", "carta", "cartulina", "paper", "papier", "papel"}
)

// FilmOrCard reports whether a stock's name says that it is a film, or card or paper.
func FilmOrCard(stock string) bool {
	name := folded(stock)
	return slices.ContainsFunc(slices.Concat(Films, Cards), func(word string) bool { return hasWord(name, word) })
}

// folded returns a name in small letters without marks, with a blank for all else but figures.
func folded(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		r, _ = letters.Plain(r)
		if (r < 'a' || r > 'z') && (r < '0' || r > '9') {
			r = ' '
		}
		b.WriteRune(r)
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

// hasWord reports whether a folded name holds the word, and does not say that it is free of it. Short words count only
// where a word begins with them, and of three letters only standing alone, so that "abs" is not found in "absorbent
// card"; long ones also where they are written in one, or in two.
func hasWord(name, word string) bool {
	if len(word) > 4 {
		joined := strings.ReplaceAll(name, " ", "")
		word := strings.ReplaceAll(word, " ", "")
		return strings.Contains(joined, word) && !freeOf(name, word)
	}
	for _, f := range strings.Fields(name) {
		if f == word || word == "pvc" && strings.HasPrefix(f, word) || len(word) == 4 && strings.HasPrefix(f, word) {
			return !freeOf(name, word)
		}
	}
	return false
}

// freeOf reports whether a name says that the stock does without what the word names: "PVC-free", "ohne PVC".
func freeOf(name, word string) bool {
	words := strings.Fields(name)
	for i, f := range words {
		if !strings.HasPrefix(f, word) {
			continue
		}
		for _, ending := range []string{"free", "frei", "freie", "freies", "freier"} {
			if strings.HasSuffix(f, ending) || i+1 < len(words) && words[i+1] == ending {
				return true
			}
		}
		for _, before := range []string{"without", "no", "non", "ohne", "sans", "sin", "senza"} {
			if i > 0 && words[i-1] == before {
				return true
			}
		}
		for _, before := range []string{"free of", "frei von", "exempt de", "libre de", "privo di"} {
			if i > 1 && words[i-2]+" "+words[i-1] == before {
				return true
			}
		}
	}
	return false
}
