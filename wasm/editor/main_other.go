//go:build !js

package main

import (
	"fmt"
	"os"
)

func main() {
	fmt.Fprintln(os.Stderr, "The editor runs in a browser: ./build.sh builds and serves it.")
	os.Exit(2)
}
