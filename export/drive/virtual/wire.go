package virtual

// bitsPerByte is what a byte takes on a serial wire: a start bit, eight bits
// and a stop bit.
const bitsPerByte = 10

// chunk is bytes put on the wire together.
type chunk struct {
	bytes []byte
	first instant // when the first of them is across
	every instant // from one to the next
	done  int
}

// wire carries bytes one way at a steady pace. It is the wire and the sender's
// queue in one.
type wire struct {
	perByte instant
	free    instant // when all that was put on it is across
	chunks  []chunk
	waiting int // bytes not yet across
	busy    instant
}

// pace sets the speed of what is put on the wire from now on; 0 is instant.
func (w *wire) pace(baud int) {
	w.perByte = 0
	if baud > 0 {
		w.perByte = lasting(bitsPerByte / float64(baud))
	}
}

// put adds bytes, which it copies.
func (w *wire) put(now instant, p []byte) {
	if len(p) == 0 {
		return
	}
	starts := max(now, w.free)
	w.free = starts + w.perByte*instant(len(p))
	w.busy += w.free - starts
	w.waiting += len(p)
	if last := len(w.chunks) - 1; last >= 0 && starts > now {
		// It follows the chunk before without a gap.
		if c := &w.chunks[last]; c.every == w.perByte {
			c.bytes = append(c.bytes, p...)
			return
		}
	}
	w.chunks = append(w.chunks, chunk{bytes: append([]byte(nil), p...), first: starts + w.perByte, every: w.perByte})
}

// next returns when the next byte is across, or never.
func (w *wire) next() instant {
	if len(w.chunks) == 0 {
		return never
	}
	c := &w.chunks[0]
	return c.first + c.every*instant(c.done)
}

// take removes the next byte.
func (w *wire) take() byte {
	c := &w.chunks[0]
	b := c.bytes[c.done]
	c.done++
	w.waiting--
	if c.done == len(c.bytes) {
		w.chunks = w.chunks[1:]
	}
	return b
}

// clear drops all that is under way.
func (w *wire) clear() { w.chunks, w.waiting, w.free = nil, 0, 0 }
