package cutfile_test

import (
	"bytes"
	"fmt"
	"os"

	"openwork/pattern"
	"openwork/pattern/cutfile"
	"openwork/pattern/cutplan"
	"openwork/pattern/draft"
)

// A draft is laid out and its sheet written as the file's ending asks.
func ExampleWrite() {
	file, err := os.Open("../../testdata/drafts/heron-over-carp.openwork.json")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer file.Close()
	d, err := draft.Decode(file)
	if err != nil {
		fmt.Println(err)
		return
	}
	l, err := pattern.NewLayout(d, pattern.NewShapes())
	if err != nil {
		fmt.Println(err)
		return
	}

	format, err := cutfile.FormatOf("heron.dxf")
	if err != nil {
		fmt.Println(err)
		return
	}
	var b bytes.Buffer
	made, err := cutfile.Write(l, &b, format, cutplan.Defaults())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(format.Type(), made.Openings, "openings,", made.Holes, "registration marks")
	// Output:
	// image/vnd.dxf 160 openings, 3 registration marks
}

func ExampleFormatOf() {
	_, err := cutfile.FormatOf("heron.png")
	fmt.Println(err)
	// Output:
	// a cut file ends in .svg, .dxf or .pdf, and "heron.png" does not
}
