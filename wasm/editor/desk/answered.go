package desk

import (
	"openwork/pattern/draft"
	"openwork/pattern/sheet"
	"openwork/wasm/editor/desk/say"
)

// wholeAnswer is what the engine answered on the whole panel, and for which draft. Where only colours, the title or the
// unit have changed since, the answer still holds, and the engine is not asked again.
type wholeAnswer struct {
	of     draft.Draft
	report *sheet.Report // nil: nothing was answered yet
	groups []say.Fault
	mends  []sheet.Mend
	mended bool
}

// recall takes the last answer again where the draft as it stands is cut as the one it was given for.
func (s *Session) recall() {
	a := &s.answered
	if a.report == nil || s.layout == nil || !s.Draft().CutsAs(a.of) {
		return
	}
	s.report, s.reportErr = a.report, ""
	s.setFaults(a.groups)
	s.mends, s.mendsAnswered = a.mends, a.mended
}
