//go:build !js

package main

import (
	"flag"
	"fmt"
	"io"
	"os"
)

func runMend(f *flag.FlagSet, args []string, out io.Writer) error {
	d, err := oneDraft(f, args)
	if err != nil {
		return err
	}
	m, err := mend(d)
	if err != nil {
		return err
	}
	fmt.Fprintln(os.Stderr, m.Text)
	_, err = io.WriteString(out, m.Draft)
	return err
}
