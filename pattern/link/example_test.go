package link_test

import (
	"fmt"

	"openwork/pattern/draft"
	"openwork/pattern/link"
)

// A link holds the whole draft.
func ExampleEncode() {
	s, err := link.Encode(draft.Default())
	if err != nil {
		fmt.Println(err)
		return
	}
	d, err := link.Decode("https://example.org/" + s)
	fmt.Println(s, d.Panel, err)
	// Output: #ow1.CqCacLTEPSh4JSLgidF1 {600 900} <nil>
}
