package virtual

// ring is the receive buffer. One place stays free, as in any ring that tells
// full from empty by its two ends: 128 bytes hold 127.
type ring struct {
	bytes []byte
	first int
	count int
}

func newRing(size int) ring { return ring{bytes: make([]byte, size-1)} }

// put adds a byte, or returns false and loses it.
func (r *ring) put(b byte) bool {
	if r.count == len(r.bytes) {
		return false
	}
	i := r.first + r.count
	if i >= len(r.bytes) {
		i -= len(r.bytes)
	}
	r.bytes[i] = b
	r.count++
	return true
}

// take removes the oldest byte. The ring must not be empty.
func (r *ring) take() byte {
	b := r.bytes[r.first]
	r.first++
	if r.first == len(r.bytes) {
		r.first = 0
	}
	r.count--
	return b
}

// room returns how many bytes still go in.
func (r *ring) room() int { return len(r.bytes) - r.count }

func (r *ring) clear() { r.first, r.count = 0, 0 }
