package host

import (
	"math"
	"time"
)

// maxAhead is how much time's worth of bytes may be on its way to a wire: 57 of
// them at 115200 baud. The system would take far more at once, and a byte that
// stops the rig has to wait for all of it. Controllers hold more than this
// program is held up for, so that the wire may stand still meanwhile.
const maxAhead = 5 * time.Millisecond

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
		return p.most()
	}
	return max(int((maxAhead-left)/p.perByte), 0)
}

// most is how many bytes may be on their way at once.
func (p *pacer) most() int {
	if p.perByte == 0 {
		return math.MaxInt
	}
	return max(int(maxAhead/p.perByte), 1)
}

// sent notes that n bytes have been written.
func (p *pacer) sent(now time.Time, n int) {
	if p.free.Before(now) {
		p.free = now
	}
	p.free = p.free.Add(time.Duration(n) * p.perByte)
}
