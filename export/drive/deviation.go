package drive

import (
	"math"
	"time"
)

// saw takes in a report of where the axes stood at some time between two
// instants. Only what no instant between them explains is a deviation.
func (p *pass) saw(at []float64, from, to time.Time) {
	if p.zero.IsZero() || !p.pausedAt.IsZero() {
		return
	}
	p.position, p.off = at, nil
	open := to.Sub(from).Seconds()
	if !p.filmed(p.sec()-open, p.sec()) {
		return
	}
	p.off = make([]float64, len(at))
	if p.worst == nil {
		p.worst = make([]float64, len(at))
	}
	for i := range at {
		p.off[i] = p.outside(i, at[i], p.sec()-open, p.sec(), looks)
		if math.Abs(p.off[i]) > math.Abs(p.worst[i]) {
			p.worst[i] = p.off[i]
		}
	}
}

// filmed tells whether from begin to end, in s, frames of the rounds are shot.
// In the run-up and run-out an axis may ramp otherwise than the plan does: what
// it is told is chosen to suit the controller.
func (p *pass) filmed(begin, end float64) bool {
	return begin >= 0 && (p.total == 0 || end <= float64(p.total)*p.period)
}

// looks is at how many instants the plan is asked where an axis could be.
const looks = 9
