package drive

import (
	"math"
	"time"

	"seamrail/export/drive/takelog"
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
	late     float64 // s it is known to be behind
	worst    []float64
	position []float64 // last reported; nil = none yet
	off      []float64 // its deviation from the plan
	fill     float64
	next     time.Time // of the next progress
}

// progressEvery is how often progress is told: ten times a second looks alive.
const progressEvery = 100 * time.Millisecond

// mostLate is how late the motion may be before the pass is given up, in s. It
// is far beyond anything a frame forgives, and far below what a controller
// that reads ahead would show by chance.
const mostLate = 0.25

func newPass(e *engine, take int) *pass {
	return &pass{engine: e, take: take, began: e.now, total: e.Rounds, worst: make([]float64, len(e.axes))}
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

// anchor says that sec of the take is now.
func (p *pass) anchor(sec float64) {
	if p.zero.IsZero() {
		p.zero = p.now.Add(-seconds(sec))
	}
}

// dueAt says that what was to happen at sec of the take happens now.
func (p *pass) dueAt(sec float64) {
	late := p.sec() - sec
	p.late = max(late, 0)
	switch {
	case p.held:
		// Slowing down and speeding up took longer than was known.
		p.shift += seconds(p.late)
	case late > mostLate:
		p.fail(Behind, "motion is %.0f ms behind the plan: the link or this computer is too slow", late*1000)
	}
}

// saw takes in a report of where the axes stood at some time between two
// instants. Only what no instant between them explains is a deviation.
func (p *pass) saw(at []float64, from, to time.Time) {
	if p.zero.IsZero() || !p.pausedAt.IsZero() {
		return
	}
	p.position, p.off = at, make([]float64, len(at))
	open := to.Sub(from).Seconds()
	for i := range at {
		p.off[i] = p.deviation(i, at[i], p.sec()-open, open)
		if math.Abs(p.off[i]) > math.Abs(p.worst[i]) {
			p.worst[i] = p.off[i]
		}
	}
}

// looks is at how many instants the plan is asked where an axis could be.
const looks = 9

// deviation returns by how much x is beyond all places that the plan has for
// axis i within open seconds from sec on.
func (p *pass) deviation(i int, x, sec, open float64) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for k := range looks {
		at := p.planAt(i, p.ofRounds(), sec+open*float64(k)/(looks-1))
		low, high = min(low, at), max(high, at)
	}
	switch {
	case x < low:
		return x - low
	case x > high:
		return x - high
	}
	return 0
}

func (p *pass) due() time.Time { return p.next }

func (p *pass) tick() {
	if p.now.Before(p.next) {
		return
	}
	p.next = p.now.Add(progressEvery)
	if p.state == Running || p.state == Slowing || p.state == Draining {
		p.Observer.Progress(p.progress())
	}
}

func (p *pass) progress() Progress {
	sec := p.sec()
	g := Progress{
		State: p.state, Take: p.take, Round: -1, Elapsed: seconds(sec),
		Position: p.position, Reported: p.position != nil, Deviation: p.off, Late: p.late, Fill: p.fill,
	}
	in := 0.0 // s into the round
	if sec >= 0 {
		g.Round = int64(sec / p.period)
		if p.total > 0 {
			g.Round = min(g.Round, p.total-1)
		}
		in = min(max(sec-float64(g.Round)*p.period, 0), p.period)
	}
	c := p.Trajectory.Plan().Loop
	g.Frame = min(int64(in*c.Clock.Capture.Float()), c.Captured-1)
	g.Timecode = p.label(g.Frame)
	g.Share = in / p.period
	if p.total > 0 {
		g.Share = min(max((sec+p.runUp)/p.planned(p.total), 0), 1)
	}
	if g.Position == nil {
		for i := range p.axes {
			g.Position = append(g.Position, p.planAt(i, p.ofRounds(), sec))
		}
	}
	return g
}

// begin writes the record that must be there before anything moves.
func (p *pass) begin() error {
	plan := p.Trajectory.Plan()
	planned := 0.0
	if p.total > 0 {
		planned = p.planned(p.total)
	}
	return p.record(takelog.Record{
		Kind: takelog.Begun, Take: p.take, Shot: plan.ShotFile, Plan: plan.Hash(), Rig: plan.Rig.Name,
		Rounds: p.total, Planned: planned,
	})
}

// end writes how the pass ended.
func (p *pass) end(end End, detail string) error {
	done := Pass{
		Take: p.take, Rounds: p.rounds, Began: p.began, Ended: p.now, Planned: p.planned(p.rounds),
		Executed: p.executed, Worst: p.worst, Held: p.held, End: end, Detail: detail,
	}
	r := takelog.Record{
		Kind: takelog.Ended, Take: p.take, Rounds: p.rounds, Executed: p.executed, Held: p.held,
		Outcome: end.String(), Detail: detail, Known: p.known,
	}
	if p.rounds > 0 {
		r.Planned = done.Planned
	}
	for i, a := range p.axes {
		r.Worst = append(r.Worst, takelog.Worst{Axis: a.Name, Value: p.worst[i], Unit: a.Unit()})
	}
	err := p.record(r)
	p.Observer.Passed(done)
	return err
}

// record adds a record to the log, if there is one.
func (e *engine) record(r takelog.Record) error {
	if e.Log == nil {
		return nil
	}
	r.Time = e.now
	if err := e.Log.Add(r); err != nil {
		return failed(LogFailed, "%v", err)
	}
	return nil
}
