package drive

import (
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
	doubt    float64 // s by which that may be out, but for the jitter of the wire
	late     float64 // s it is known to be behind
	laps     []Lap
	worst    []float64 // deviation reported; nil = nothing was
	position []float64 // last reported; nil = none yet
	off      []float64 // its deviation from the plan
	sighted  Sighting  // the same, of one instant
	holds    int       // after which it went on
	rest     []float64 // where the axes were reported when it came to rest; nil = not known
	strays   int       // weight of reports that are not the plan's
	fill     float64
	beats    *beats
	marks    marking
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

// begin writes the record that must be there before anything moves.
func (p *pass) begin() error {
	planned := 0.0
	if p.total > 0 {
		planned = p.planned(p.total)
	}
	if p.Walk != nil {
		return p.record(takelog.Record{
			Kind: takelog.Walked, Shot: p.Shot, Plan: p.Plan, Rig: p.Trajectory.Rig().Name, Planned: planned, Note: p.Walk.Words,
		})
	}
	return p.record(takelog.Record{
		Kind: takelog.Begun, Take: p.take, Shot: p.Shot, Plan: p.Plan, Rig: p.Trajectory.Rig().Name,
		Rounds: p.total, Planned: planned, Shift: p.Shifts, Driver: p.Driver, Group: p.Group, Pass: p.Pass, Start: p.engine.began(),
	})
}

// end writes how the pass ended.
func (p *pass) end(end End, detail string) error {
	done := Pass{
		Take: p.take, Rounds: p.rounds, Began: p.began, Ended: p.now, Planned: p.planned(p.rounds),
		Executed: p.executed, Uncertainty: p.doubt, Worst: p.worst, Held: p.held, End: end, Detail: detail,
		Walk: p.Walk != nil, Foretold: p.foretold(p.rounds), RoundForetold: p.foretold(2) - p.foretold(1), Laps: p.laps,
	}
	r := takelog.Record{
		Kind: takelog.Ended, Take: p.take, Rounds: p.rounds, Executed: p.executed, Uncertainty: p.doubt, Held: p.held,
		Outcome: end.String(), Detail: detail, Known: p.known,
	}
	if p.rounds > 0 {
		r.Planned, r.Foretold = done.Planned, done.Foretold
	}
	if p.Walk != nil {
		r.Kind = takelog.WalkEnded
	}
	r.Worst = p.worsts(p.worst)
	err := p.record(r)
	p.Observer.Passed(done)
	return err
}

// worsts are deviations of the axes, for the log.
func (e *engine) worsts(off []float64) (out []takelog.Worst) {
	for i, worst := range off {
		a := e.axes[i]
		out = append(out, takelog.Worst{Axis: a.Name, Value: worst, Unit: a.Unit()})
	}
	return out
}

// record adds a record to the log, if there is one.
func (e *engine) record(r takelog.Record) error {
	if e.Log == nil {
		return nil
	}
	r.Time, r.Virtual = e.now, e.Virtual
	if err := e.Log.Add(r); err != nil {
		return failed(LogFailed, "%v", err)
	}
	return nil
}

// progressEvery is how often progress is told: ten times a second looks alive.
const progressEvery = 100 * time.Millisecond

func (p *pass) due() time.Time { return earlier(p.next, p.beats.due(p)) }

func (p *pass) tick() {
	p.beats.tick(p)
	if p.now.Before(p.next) {
		return
	}
	p.next = p.now.Add(progressEvery)
	if p.state == Running || p.state == Slowing || p.state == Draining {
		p.Observer.Progress(p.progress())
	}
}

func (p *pass) progress() Progress {
	sec, seen := p.sec(), p.sighted
	round, in := p.within(sec)
	if seen.At == nil {
		seen = p.sighting(sec)
	}
	t := p.Trajectory
	capture := t.Clock().Capture.Float()
	if !p.pausedAt.IsZero() { // it is where it is seen to be
		round, in = seen.Round, seen.Frame/capture
	}
	g := Progress{
		State: p.state, Take: p.take, Round: round, Rounds: p.total, Elapsed: seconds(sec), Seen: seen, Next: p.beats.comes(p),
		Position: p.position, Reported: p.position != nil, Deviation: p.off, Late: p.late, Fill: p.fill, Ahead: max(p.until-sec, 0),
	}
	frame := int64(in * capture)
	g.Frame, g.Back = min(frame, t.Captured()-1), frame >= t.Captured() && t.RoundFrames() > t.Captured()
	g.Timecode = p.label(g.Frame)
	g.Share = in / p.period
	if p.total > 0 {
		g.Share = min(max((sec+p.runUp)/p.planned(p.total), 0), 1)
	}
	if g.Position == nil {
		g.Position = seen.At
	}
	return g
}
