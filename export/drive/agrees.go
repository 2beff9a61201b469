package drive

import (
	"math"
	"slices"
	"time"

	"seamrail/motion/controller/program"
)

// What a controller tells of its motion is held against the plan while a pass runs.
// Beyond these bounds the pass ends as NotPlan.
const (
	// reportSlack is by how many s a report may be older or newer than the instants
	// at which it was asked for and came: a slice of motion is 10 ms, and frame 0 is
	// known to a few.
	reportSlack = 0.05
	// strayWeight is what a report weighs that no instant explains, and one that is
	// explained takes off 1: two in a row are too many, or one in sixteen for long.
	// Noise on the wire changes a digit of one.
	strayWeight = 16
	maxStrays   = 2 * strayWeight
	// lookEvery is how far apart, in s, the plan is looked at for where an axis
	// could be: at 10 000 mm/s2 it turns around 0.03 mm beyond what is looked at.
	lookEvery = 0.005
	// maxLooks bounds what is looked at in a ramp of many seconds.
	maxLooks = 1000
	// maxUnheeded is how many reports in a row may fail to come while lines are
	// answered: asked for every 0.4 s then, three seconds.
	maxUnheeded = 8
)

// agrees holds a report against the plan: a state that the pass can be in, and
// places that the plan has at some time that the report may be of.
func (s *stream) agrees(t *lineController, at []float64, told bool) {
	p := s.pass
	if s.paused || s.ended || p.zero.IsZero() || t.before.Before(later(p.zero.Add(-seconds(p.runUp)), s.resumed)) {
		return
	}
	if !t.status.is("Run", "Idle", "Alarm") {
		t.fail(NotPlan, "it reports %q in the middle of the take, and was not told to", t.status.state)
		return
	}
	if !told {
		return
	}
	now, late := p.sec(), s.mayLag(t)
	early := reportSlack + worstPace*t.now.Sub(later(s.seenAt, p.zero)).Seconds()
	if p.held { // it went on while it slowed down, and lost time speeding up
		late, early = maxLate+t.slowest().Seconds(), t.slowest().Seconds()
	}
	from := min(now, now-s.lag, now-p.late) - late - t.now.Sub(t.before).Seconds()
	p.agrees(at, from, max(now, now-s.lag)+early)
}

// mayLag is by how many s motion may be later than is known: as was foretold; else as
// a whole pass may, until the beginning of a round has been seen, and then as that
// round may.
func (s *stream) mayLag(t *lineController) float64 {
	p := s.pass
	switch unseen := worstPace * t.now.Sub(later(s.seenAt, p.zero)).Seconds(); {
	case t.Foretold != nil:
		return reportSlack + math.Abs(p.foretold(2)-p.planned(2)) + unseen
	case s.seenAt.IsZero():
		return mostOff(p.sec() + p.runUp)
	default:
		return mostOff(p.period) + unseen
	}
}

// unheeds counts a report that is asked for while the last has not come, in a pass
// that is not at a dwell, within which boards may not look for such bytes.
func (s *stream) unheeds(t *lineController) {
	if s.pass == nil || t.engine.pass != s.pass || s.paused || t.dwelling() || len(t.asks) == 0 {
		return
	}
	if s.unheeded++; s.unheeded > maxUnheeded {
		t.fail(Silent, "it answers lines, and has not reported for %v", t.now.Sub(t.statusAt).Round(time.Millisecond))
	}
}

// agrees holds where the axes stand against all places that the plan has between two
// times, in s from frame 0.
func (p *pass) agrees(at []float64, from, to float64) {
	for i, x := range at {
		off := p.beyond(i, x, from, to)
		if math.Abs(off) <= p.mayStray(i) {
			continue
		}
		if p.strays += strayWeight; p.strays >= maxStrays {
			a := p.axes[i]
			p.fail(NotPlan, "axis %s is reported at %.3f %s about %.2f s from frame 0, %.3f from where the plan has it",
				a.Name, x, a.Unit(), (from+to)/2, off)
		}
		return
	}
	p.strays = max(p.strays-1, 0)
}

// mayRest is how far from the plan axis i may be at rest, in mm or degrees.
func (j *job) mayRest(i int) float64 { return strayUnits + 1/j.axes[i].StepsPerUnit.Float() }

// mayStray is how far from the plan axis i may be on the way: as far as at rest, and
// as straight blocks leave the path.
func (p *pass) mayStray(i int) float64 {
	if p.leaves == nil {
		return p.mayRest(i)
	}
	return p.mayRest(i) + p.leaves[i]
}

// leaving adds by how much a straight block leaves the path in its middle.
func (e *engine) leaving(was []float64, line program.Line) {
	if !line.Moves || line.Round < 0 || was == nil {
		return
	}
	for i := range e.leaves {
		half := (was[i] + line.Aim[i]) / 2
		off := math.Abs(half - e.planAt(i, endless, (line.Start+line.End)/2))
		e.leaves[i] = max(e.leaves[i], off)
	}
}

// beyond returns by how much x is beyond all places that the plan has for axis i
// between two times. In a run-up or run-out that is anywhere on its way: an axis may
// ramp otherwise than the plan does, as suits the controller.
func (p *pass) beyond(i int, x, from, to float64) float64 {
	if from < 0 {
		from, to = -p.runUp, max(to, 0)
	}
	if end := float64(p.total) * p.period; p.total > 0 && to > end {
		from, to = min(from, end), end+p.runOut
	}
	n := min(max(looks, int((to-from)/lookEvery)), maxLooks)
	return p.outside(i, x, from, to, n)
}

// outside returns by how much x is beyond the places that the plan has for axis i at
// n instants from one time to another.
func (p *pass) outside(i int, x, from, to float64, n int) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for k := range n {
		at := p.planAt(i, p.ofRounds(), from+(to-from)*float64(k)/float64(n-1))
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

// saw takes in a report of where the axes were at some time since an instant. Only what no
// instant between them explains is a deviation; of a pass that was held, whose time is its
// own from then on, what none explains at which the path comes near.
func (p *pass) saw(at []float64, since time.Time) {
	if p.zero.IsZero() {
		return
	}
	from, to := p.open(since)
	p.position, p.off = at, nil
	p.sees(at, from, to)
	if !p.filmed(from, to) {
		return
	}
	p.off = slices.Clone(p.sighted.Off)
	if p.worst == nil {
		p.worst = make([]float64, len(at))
	}
	for i := range at {
		if !p.held {
			p.off[i] = p.outside(i, at[i], from, to, looks)
		}
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
