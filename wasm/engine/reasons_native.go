//go:build !js

package main

import (
	"fmt"
	"strings"

	"openwork/pattern"
	"openwork/pattern/sheet"
)

// holding looks whether a draft's sheet holds before it is cut. Where it does not, the error is errUnsound with the reasons;
// with unsound it is nil, and the sentences are those that the cut file carries. A panel without an opening is refused
// either way: there is nothing to cut.
func holding(d pattern.Draft, unsound bool) ([]string, error) {
	r, err := checkReport(d, nil)
	if err != nil {
		return nil, err
	}
	switch {
	case r.Sound:
		return nil, nil
	case r.Of(sheet.Empty, sheet.Fault).Count > 0:
		return nil, fmt.Errorf("%w, and no file was written:\n%s", errUnsound, strings.Join(toldReasons(r), "\n"))
	case unsound:
		return fileReasons(r), nil
	}
	return nil, fmt.Errorf("%w, and no file was written (with -unsound it would be):\n%s", errUnsound, strings.Join(toldReasons(r), "\n"))
}
