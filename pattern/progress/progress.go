// Package progress reports how far a long piece of work has come, so that a person sees it move. Work that must be
// stopped is ended from outside; nothing here asks it to.
package progress

// Func receives the part of the work that is done, from 0 to 1, never less than before. It is called often and returns
// soon. A nil Func is one that nobody listens to.
type Func func(part float64)

// At reports that a part of the work is done.
func (f Func) At(part float64) {
	if f != nil {
		f(min(max(part, 0), 1))
	}
}

// Of reports that so many of a number of equal steps are done; 0 of 0 is all.
func (f Func) Of(done, all int) {
	if all <= 0 {
		f.At(1)
		return
	}
	f.At(float64(done) / float64(all))
}

// Within returns what a stage of the work reports to, that takes it from one part to another.
func (f Func) Within(from, to float64) Func {
	if f == nil {
		return nil
	}
	return func(part float64) { f(from + (to-from)*part) }
}

// Rising returns a Func that passes on only what is at least step more than what it passed on last, and the end.
func Rising(step float64, f Func) Func {
	if f == nil {
		return nil
	}
	last := 0.0
	return func(part float64) {
		if part >= last+step || part >= 1 && last < 1 {
			last = part
			f(part)
		}
	}
}
