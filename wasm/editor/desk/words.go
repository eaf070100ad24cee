package desk

import "openwork/wasm/editor/desk/say"

// words writes the sentences about the open draft in the display unit.
func (s *Session) words() say.Words { return say.About(s.Draft(), s.Unit()) }
