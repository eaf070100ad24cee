//go:build !js

package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"
)

// verb is one row of the table of the command line.
type verb struct {
	name, use, about string
	run              func(f *flag.FlagSet, args []string, out io.Writer) error
}

// checksFirst is said of verbs that write cut files.
const checksFirst = "\n      Checks first: where the sheet does not hold the reasons go to standard error, and no file is written unless -unsound is given."

// errUnsound is returned where the sheet does not hold: exit status 1. check returns it bare, when its answer is printed;
// where a file was to be written it is wrapped with the reasons.
var errUnsound = errors.New("the sheet does not hold")

// usageError is bad input or use: exit status 2.
var errUsage = errors.New("bad use")

var verbs []verb

func init() {
	verbs = []verb{
		{"groups", "groups", "The seventeen plane groups with their operations, as JSON.", runGroups},
		{"copies", "copies DRAFT", "Every copy the edge rule keeps, as JSON: motif, operation, cell and map.", runCopies},
		{"trace", "trace IMAGE [-dpi N] [-height MM] [-level F] [-tolerance MM] [-specks MM2] [-pinholes MM2] [-invert] [-pencil] [-crop L,T,R,B] [-turn DEGREES] …",
			"Silhouettes found in a picture (PNG, JPEG, TIFF, WebP, BMP, GIF) or an SVG drawing, as JSON, largest first.", runTrace},
		{"check", "check DRAFT", "How the whole sheet stands, as JSON. Exit status 0 when it holds, 1 when not.", runCheck},
		{"mend", "mend DRAFT", "The draft with ties added for every piece of sheet that would drop out.", runMend},
		{"recognise", "recognise DRAFT", "Which plane group the field really has, and its symmetry elements, as JSON.", runRecognise},
		{"cut", "cut DRAFT -o FILE.svg|dxf|pdf [-polygons] [-apart MM] [-holes MM] [-date TEXT] [-unsound] …",
			"The cut file, by its ending: svg, dxf or pdf. Prints what it holds, as JSON." + checksFirst, runCut},
		{"study", "study DRAFT -o FILE.pdf [-paper A4] [-way fewer] [-margin MM] [-overlap MM] [-correction PERCENT] [-draw outlines] …",
			"The panel at full scale over ordinary pages, with a map of them. Prints what it holds, as JSON.", runStudy},
		{"job", "job DRAFT -o FILE.pdf [-paper A4] [-speed MM/S] [-travel MM/S] [-pierce S] [-rate PRICE] [-address URL] …",
			"The job sheet: what the stencil is, what cutting takes, how it is laid. It says itself whether the sheet holds. Prints the figures, as JSON.", runJob},
		{"steps", "steps DRAFT -o FILE.svg|dxf|pdf [-bed 600x900] [-repeats 2x3|most] [-margin MM] [-map FILE.pdf] …",
			"The stepping sheet: a piece of whole repeats that is laid again and again. Prints the map of its places, as JSON." + checksFirst, runSteps},
		{"join", "join DRAFT -o FILE.svg|dxf|pdf [-bed 600x900] …",
			"Joined sheets: the sheet in parts that fit the bed, a file for each. Prints parts and joints, as JSON." + checksFirst, runJoin},
		{"picture", "picture DRAFT -o FILE.png|svg [-width PX] [-base #RRGGBB] [-paint #RRGGBB] [-edge]", "What the painted panel will look like.", runPicture},
		{"link", "link DRAFT", "The draft as a link's fragment, from # on.", runLink},
		{"open", "open LINK", "A whole address or a fragment back to a draft.", runOpen},
	}
}

// findVerb looks a verb up by name.
func findVerb(name string) (verb, bool) {
	for _, v := range verbs {
		if v.name == name {
			return v, true
		}
	}
	return verb{}, false
}

// usage is the help text: every verb and what it gives.
func usage() string {
	var b strings.Builder
	b.WriteString("Openwork's engine. A DRAFT is a file, or - for standard input. Lengths are millimetres, y upward.\n\n")
	for _, v := range verbs {
		fmt.Fprintf(&b, "  %s\n      %s\n", v.use, v.about)
	}
	b.WriteString("\nResults go to standard output, errors to standard error. Exit status 0: done (check: it holds);\n" +
		"1: it does not hold, and cut, steps and join wrote no file; 2: bad input or use. Files come whole or not at all. -h after a verb explains its flags.\n")
	return b.String()
}

// parse reads flags and plain arguments in any order, and checks how many plain ones there are.
func parse(f *flag.FlagSet, args []string, want int) ([]string, error) {
	var plain []string
	for len(args) > 0 {
		if err := f.Parse(args); err != nil {
			return nil, err
		}
		args = f.Args()
		for len(args) > 0 && (args[0] == "-" || !strings.HasPrefix(args[0], "-")) {
			plain = append(plain, args[0])
			args = args[1:]
		}
	}
	if len(plain) != want {
		return nil, fmt.Errorf("%w: %s takes %d argument(s), not %d; -h explains", errUsage, f.Name(), want, len(plain))
	}
	return plain, nil
}
