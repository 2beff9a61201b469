package host

import (
	"math"
	"time"
)

// mostAhead is how much time's worth of bytes may be on its way to a wire. The
// system would take far more at once, and a byte that stops the rig would have
// to wait for all of it. It is also longer than this program is ever held up.
const mostAhead = 10 * time.Millisecond

// bitsPerByte is what a byte takes on a serial wire: a start bit, eight bits
// and a stop bit.
const bitsPerByte = 10

// pacer knows when what has been written will have left the wire.
type pacer struct {
	perByte time.Duration // 0 = the wire takes no time
	free    time.Time     // when all that was written has left
}

// newPacer is for a wire of so many bits a second; 0 is without limit.
func newPacer(baud int) pacer {
	if baud <= 0 {
		return pacer{}
	}
	return pacer{perByte: bitsPerByte * time.Second / time.Duration(baud)}
}

// room is how many bytes may be written now: one at least when nothing is on
// its way.
func (p *pacer) room(now time.Time) int {
	if p.perByte == 0 {
		return math.MaxInt
	}
	left := p.free.Sub(now)
	if left <= 0 {
		return max(int(mostAhead/p.perByte), 1)
	}
	return max(int((mostAhead-left)/p.perByte), 0)
}

// sent notes that n bytes have been written.
func (p *pacer) sent(now time.Time, n int) {
	if p.free.Before(now) {
		p.free = now
	}
	p.free = p.free.Add(time.Duration(n) * p.perByte)
}
