package main

import (
	"github.com/paulmach/orb"

	"openwork/pattern/colouring/subgroups"
	"openwork/pattern/draft"
	"openwork/pattern/machine"
	"openwork/pattern/paint"
	"openwork/pattern/progress"
	"openwork/pattern/recognise"
	"openwork/pattern/sheet"
)

// verbs is the table of verbs, in the order in which the help names them. A verb is a row here and a file of its own:
// an input, its run, an output. onPage is asked for through the worker, onLine on the command line, onBoth on either. A
// row says what the verb is called, how its command line is written, and what it does; ENDINGS are those of cut files.
var verbs = []verb{
	&onLine[*groupsInput, []groupRow]{heading{"groups", "groups",
		"The seventeen plane groups with their operations, as JSON."}},
	&onLine[*copiesInput, []copyRow]{heading{"copies", "copies DRAFT",
		"Every copy the edge rule keeps, as JSON: motif, operation, cell and map."}},
	&onBoth[*traceInput, *traced]{heading{"trace",
		"trace IMAGE [-dpi N] [-height MM] [-level F] [-tolerance MM] [-specks MM2] [-pinholes MM2] " +
			"[-invert] [-pencil] [-crop L,T,R,B] [-turn DEGREES] …",
		"Silhouettes found in a picture (PNG, JPEG, TIFF, WebP, BMP, GIF) or an SVG drawing, as JSON, largest first."}},
	&onBoth[*checkInput, *checked]{heading{"check", "check DRAFT",
		"How the whole sheet stands, as JSON. Exit status 0 when it holds, 1 when not."}},
	&onPage[*mendsInput, []sheet.Mend]{"mends"},
	&onBoth[*mendInput, *mended]{heading{"mend", "mend DRAFT",
		"The draft with ties added for every piece of sheet that would drop out."}},
	&onBoth[*recogniseInput, *recognise.Finding]{heading{"recognise", "recognise DRAFT",
		"Which plane group the field really has, its symmetry elements, and which groups keep and permute its " +
			"colours, " +
			"as JSON."}},
	&onBoth[*colouringsInput, []subgroups.Class]{heading{"colourings", "colourings SYMBOL [-k COLOURS]",
		"The perfect colourings of a plane group by so many colours, from its subgroups, as JSON: how each operation " +
			"permutes the colours."}},
	&onBoth[*fitInput, *fitted]{heading{"fit",
		"fit DRAFT [-find tightest|largest|evenest] [-groups all|SYMBOL,…] [-hold turn,place,…] [-effort N] " +
			"[-seconds S] [-seed N]",
		"Drafts whose copies keep the bridge and lie as tightly, as large or as evenly as can be found, as JSON, " +
			"best first."}},
	&onPage[*settleInput, *draft.Motif]{"settle"},
	&onBoth[*evennessInput, *evennessFound]{heading{"evenness", "evenness DRAFT [-o FILE.png] [-width PX] [-height PX]",
		"How even the gaps between openings are, and where they are not, as JSON; with -o one cell's gaps painted by " +
			"their width."}},
	&onPage[*remakeInput, orb.MultiPolygon]{"remake"},
	&onBoth[*cutInput, *cutOutput]{heading{"cut",
		"cut DRAFT -o FILE.ENDINGS [-polygons] [-apart MM] [-holes MM] [-pins 4] [-hang 2] [-frame MM] " +
			"[-mask [-growth MM]] [-plates [-over-ties [-lap MM]]] [-date TEXT] [-unsound] …",
		"The cut file, by its ending: ENDINGS, of the stencil, or of the subjects' mask; with -plates one for each " +
			"colour. " +
			"Prints what it holds, as JSON." + checksFirst}},
	&onBoth[*figureInput, []figureRead]{heading{"figure", "figure DRAFT [-colour #RRGGBB] [-units in]",
		"Whether the subjects can be told from the field, as JSON: values, how their edges run along openings, and " +
			"where " +
			"edges run beside each other."}},
	&onBoth[*studyInput, *studied]{heading{"study",
		"study DRAFT -o FILE.pdf [-paper A4] [-way fewer] [-margin MM] [-overlap MM] " +
			"[-correction PERCENT] [-draw outlines] …",
		"The panel at full scale over ordinary pages, with a map of them. Prints what it holds, as JSON."}},
	&onBoth[*jobInput, *jobOutput]{heading{"job",
		"job DRAFT -o FILE.pdf [-paper A4] [-speed MM/S] [-travel MM/S] [-pierce S] [-rate PRICE] " +
			"[-address URL] [-as steps|join] …",
		"The job sheet: what the stencil is, what cutting takes, how it is laid. It says itself whether the sheet " +
			"holds. " +
			"Prints the figures, as JSON."}},
	&onBoth[*speedsInput, []machine.Speed]{heading{"speeds", "speeds",
		"The usual speeds of cutting, by how it is cut, stock and thickness, as JSON; a job sheet's option speeds " +
			"has rows " +
			"like these."}},
	&onBoth[*stepsInput, *stepsOutput]{heading{"steps",
		"steps DRAFT -o FILE.ENDINGS [-bed 600x900] [-repeats 2x3|most] [-lays fewest] [-margin MM] " +
			"[-plates] [-map FILE.pdf] [-units in] …",
		"The stepping sheet: a piece of whole repeats that is laid again and again. Prints the map of its places, as " +
			"JSON." + checksFirst}},
	&onBoth[*joinInput, *joinOutput]{heading{"join",
		"join DRAFT -o FILE.ENDINGS [-bed 600x900] [-plates [-over-ties [-lap MM]]] [-map FILE.pdf] [-units in] …",
		"Joined sheets: the sheet in parts that fit the bed, a file for each. Prints parts and joints, as JSON." +
			checksFirst}},
	&onBoth[*nestInput, *nestOutput]{heading{"nest",
		"nest DRAFT -stock 1200x900 -o FILE.ENDINGS [-copies N] [-as steps|join] [-plates] [-with DRAFT=N] " +
			"[-edge MM] [-space MM] …",
		"Sheets, parts or copies of them on as few sheets of stock as can be found, a file for each. Prints where " +
			"they lie, as JSON." + checksFirst}},
	&onBoth[*pictureInput, *painted]{heading{"picture",
		"picture DRAFT -o FILE.png|svg [-width PX] [-base #RRGGBB] [-paint #RRGGBB] [-edge]",
		"What the painted panel will look like."}},
	&onBoth[*paintInput, *paint.Reckoning]{heading{"paint", "paint DRAFT [-panels N]",
		"The paste that each colour takes, for one panel and for N, as JSON: opening area in mm², dry and wet in ml, " +
			"grams, tubs, and the colour's value as L*."}},
	&onBoth[*matchInput, *paint.Match]{heading{"match", "match #RRGGBB -tubes FILE.json",
		"The tube that comes nearest to a colour by CIEDE2000, and the mix of two or three that does, as JSON: an " +
			"estimate by Kubelka and Munk over reflectances guessed from sRGB."}},
	&onPage[*colouredInput, *colouredOutput]{"coloured"},
	&onPage[*picturesInput, *smallPictures]{"pictures"},
	&onLine[*linkInput, *fragment]{heading{"link", "link DRAFT", "The draft as a link's fragment, from # on."}},
	&onLine[*openInput, *opened]{heading{"open", "open LINK", "A whole address or a fragment back to a draft."}},
}

// checksFirst is said of verbs that write cut files.
const checksFirst = "\n      Checks first: where the sheet does not hold the reasons go to standard error, " +
	"and no file is written unless -unsound is given."

// verb is a row of the table. What the worker asks of it is in worker.go, what the command line asks in main_native.go.
type verb interface{ called() string }

// input is what a verb is asked, with what it does. See inputs.go for what else inputs and outputs may have, to be read
// from the page or a command line and to be written. Both are pointers, so that the compiler makes the code of rows
// once.
type input[In, Out any] interface {
	// usual returns an input as it is when nothing is said, whatever it is asked of.
	usual() In
	run(report progress.Func) (Out, error)
}

// heading is what a verb is called on the command line, how that is written, and what it does.
type heading struct{ name, use, about string }

type (
	onPage[In input[In, Out], Out any] struct{ name string }
	onLine[In input[In, Out], Out any] struct{ heading }
	onBoth[In input[In, Out], Out any] struct{ heading }
)

func (v *onPage[In, Out]) called() string { return v.name }
func (h *heading) called() string         { return h.name }

// find looks a verb up by name among those that a side may ask for.
func find[Side any](name string) (side Side, ok bool) {
	for _, v := range verbs {
		if v.called() == name {
			side, ok = v.(Side)
			return side, ok
		}
	}
	return side, false
}
