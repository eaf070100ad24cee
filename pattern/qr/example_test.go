package qr_test

import (
	"fmt"

	"openwork/pattern/qr"
)

func ExampleEncode() {
	c, err := qr.Encode([]byte("https://example.org/#draft"), qr.M)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("version", c.Version, "of", c.Size, "modules; the first is dark:", c.Dark(0, 0))
	// Output:
	// version 2 of 25 modules; the first is dark: true
}
