package patterntest

import "openwork/geometry/geometrytest"

// Stream reads choices off a string of bytes, commands on a draft among them; see geometrytest.Stream.
type Stream struct{ *geometrytest.Stream }

// NewStream returns a stream of the bytes.
func NewStream(data []byte) *Stream { return &Stream{geometrytest.NewStream(data)} }
