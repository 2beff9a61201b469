package drive

import (
	"time"
)

// pass is one pass while it runs.
type pass struct {
	*engine
	take  int
	began time.Time

	zero     time.Time // when frame 0 is shot; zero until the motion has begun
	shift    time.Duration
	pausedAt time.Time // when it was held; zero while it runs
	held     bool
	finished bool // asked to end after the round in hand

	rounds   int64   // begun so far
	total    int64   // of the pass, once known; 0 = until asked
	until    float64 // s from frame 0 up to which motion has been sent
	executed float64 // s of motion, measured; 0 until it has ended
	doubt    float64 // s by which that may be out, but for the jitter of the wire
	late     float64 // s it is known to be behind
	laps     []Lap
	worst    []float64 // deviation reported; nil = nothing was
	position []float64 // last reported; nil = none yet
	off      []float64 // its deviation from the plan
	rest     []float64 // where the axes were reported when it came to rest; nil = not known
	strays   int       // weight of reports that are not the plan's
	fill     float64
	beats    *beats
	next     time.Time // of the next progress
}

func newPass(e *engine, take int) *pass {
	return &pass{engine: e, take: take, began: e.now, total: e.Rounds}
}

// sec returns the time of the take, in s from frame 0, held time left out.
func (p *pass) sec() float64 {
	switch {
	case p.zero.IsZero():
		return -p.runUp
	case !p.pausedAt.IsZero():
		return p.pausedAt.Sub(p.zero).Seconds() - p.shift.Seconds()
	}
	return p.now.Sub(p.zero).Seconds() - p.shift.Seconds()
}

// when returns the instant of sec of the take.
func (p *pass) when(sec float64) time.Time { return p.zero.Add(p.shift + seconds(sec)) }

// ofRounds returns how many rounds the plan is to be asked about.
func (p *pass) ofRounds() int64 {
	if p.total > 0 {
		return p.total
	}
	return endless
}

// anchorAt says when sec of the take is.
func (p *pass) anchorAt(at time.Time, sec float64) {
	if !p.zero.IsZero() {
		return
	}
	p.zero = at.Add(-seconds(sec))
	if p.CountIn > 0 {
		p.Observer.Count(0)
	}
}

// maxLate is how late the motion may be before the pass is given up, in s. It
// is far beyond anything a frame forgives, and far below what a controller
// that reads ahead would show by chance.
const maxLate = 0.25

// dueAt says that what was to happen at sec of the take happens now.
func (p *pass) dueAt(sec float64) {
	late := p.sec() - sec
	p.late = max(late, 0)
	switch {
	case p.held:
		// Slowing down and speeding up took longer than was known.
		p.shift += seconds(p.late)
	case late > maxLate:
		p.fail(Behind, "motion is %.0f ms behind the plan: the link or this computer is too slow", late*1000)
	}
}
