package main

import (
	"bytes"
	"encoding/json"
	"fmt"

	"openwork/pattern"
	"openwork/pattern/jobsheet"
	"openwork/pattern/progress"
	"openwork/pattern/study/pages"
)

// choices reads options over the usual ones; without any it leaves those.
func choices(raw json.RawMessage, what string, usual any) error {
	if len(raw) == 0 {
		return nil
	}
	if err := json.Unmarshal(raw, usual); err != nil {
		return fmt.Errorf("the choices for %s could not be read: %w", what, err)
	}
	return nil
}

// studyAnswer writes the full-scale study.
func studyAnswer(l *pattern.Layout, raw json.RawMessage, told progress.Func) (string, []byte, error) {
	o := pages.Defaults()
	if err := choices(raw, "the study", &o); err != nil {
		return "", nil, err
	}
	o.Progress = told
	var b bytes.Buffer
	made, err := pages.Write(l, &b, o)
	if err != nil {
		return "", nil, err
	}
	return asJSON(map[string]any{"type": "application/pdf", "pages": made.Pages, "made": made}, b.Bytes())
}

// jobAnswer writes the job sheet; cut are the choices of the cut file that it goes with.
func jobAnswer(l *pattern.Layout, cut, raw json.RawMessage, told progress.Func) (string, []byte, error) {
	o := jobsheet.Defaults()
	if err := choices(cut, "the cut file", &o.Cut); err != nil {
		return "", nil, err
	}
	if err := choices(raw, "the job sheet", &o); err != nil {
		return "", nil, err
	}
	o.Progress = told
	var b bytes.Buffer
	made, err := jobsheet.Write(l, &b, o)
	if err != nil {
		return "", nil, err
	}
	return asJSON(map[string]any{"type": "application/pdf", "pages": made.Pages, "made": made}, b.Bytes())
}
