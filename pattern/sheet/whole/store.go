package whole

// store keeps what was asked for in this frame and in the last one, so that it never holds more than two frames need.
// The zero value is ready.
type store[K comparable, V any] struct{ now, last map[K]V }

// get returns what is kept under a key, and keeps it for the next frame.
func (s *store[K, V]) get(key K) (v V, ok bool) {
	if v, ok = s.now[key]; ok {
		return v, true
	}
	if v, ok = s.last[key]; ok {
		s.put(key, v)
	}
	return v, ok
}

func (s *store[K, V]) put(key K, v V) {
	if s.now == nil {
		s.now = map[K]V{}
	}
	s.now[key] = v
}

// turn begins the next frame.
func (s *store[K, V]) turn() {
	s.last, s.now = s.now, s.last
	clear(s.now)
}
