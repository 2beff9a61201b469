package drive

import (
	"cmp"
	"math"
	"slices"
	"time"

	"seamrail/motion/controller/rs274"
	"seamrail/motion/spec/rig"
)

const (
	// cutAhead is how much of its motion a board has cut into slices already, which a
	// byte does not take back: five of 10 ms, as open 8-bit firmware has it (from memory,
	// as no board is at hand) and the rig of software, which meets the measured rows with
	// it. Less than that ahead, each line would be brought to rest before the next came.
	cutAhead = 50 * time.Millisecond
	// jogBlock is how much of a jog is told in a line, in s, where the wire is quick
	// enough: few enough lines for a wire of 38400 baud.
	jogBlock = 0.01
	// jogBytes is a line of a jog on the wire.
	jogBytes = 32
	// jogWire is how much of the wire they may take.
	jogWire = 0.6
	// jogReports is how often a report is asked for in a jog.
	jogReports = 40 * time.Millisecond
	// trust is how much of what a report says of the time since the jog began is
	// believed at once: a step and the age of the report blur it.
	trust = 0.3
	// mostTrust is as much as that may be, in s.
	mostTrust = 0.01
)

// carry moves an axis by hand, as the controller has it.
func (t *lineController) carry(j *jogging) error {
	if t.controller.Jogs() {
		return t.ownJog(j)
	}
	return t.shortMoves(j)
}

// jogTop is the greatest speed of that: moves that are short do not get far.
func (t *lineController) jogTop(a rig.Axis, speed float64) float64 {
	if t.controller.Jogs() {
		return speed
	}
	return min(speed, shortTop(a))
}

// shortTop is as fast as moves that short go.
func shortTop(a rig.Axis) float64 {
	return acceleration(a) * shortPeak * shortPeak / (2*shortPeak + shortGap)
}

// ownJog moves an axis by lines that the board has for it. They tell of the ramp no more
// than it needs to go on evenly; let go of, a byte ends them, and whatever comes after
// it. Where that cannot be told it goes on to the end of what it has been told.
func (t *lineController) ownJog(j *jogging) error {
	from, err := t.agreed()
	if err != nil || t.stops > 0 {
		return cmp.Or(err, errStopped)
	}
	every := t.every
	t.every = jogReports
	defer func() { t.every = every }()
	seen := t.statusAt
	w := jogWords{t: t, j: j}
	for !j.over(t.now) && !t.atEnd(j) {
		t.feedJog(j, &w)
		if err := t.wait(earlier(j.until, later(t.nextJog(j), t.now.Add(retryAfter)))); err != nil {
			return err
		}
		if t.stops > 0 {
			return errStopped
		}
		if t.statusAt.After(seen) {
			seen = t.statusAt
			if err := t.sawJog(j, from[j.axis]); err != nil {
				return err
			}
		}
		t.tellJog(j, true)
	}
	return t.endJog(j, from[j.axis])
}

// atEnd tells whether it rests where it may not go on.
func (t *lineController) atEnd(j *jogging) bool {
	return j.fed >= j.most && len(t.flight) == 0 && t.reportedSince(j.fedAt) && t.status.is("Idle")
}

// ahead is how many s of the ramp the board must have been told of at a speed: what it has
// cut, what it brakes within, and two lines.
func (t *lineController) ahead(j *jogging, speed float64) float64 {
	return cutAhead.Seconds() + speed/(2*acceleration(t.axes[j.axis])) + 2*t.jogBlock()
}

// jogBlock is how many s of a jog are told in a line.
func (t *lineController) jogBlock() float64 {
	least := jogBlock
	if r := t.controller.SegmentRate; r > 0 {
		least = max(least, 1/r)
	}
	return max(least, t.way.bytes(jogBytes).Seconds()/jogWire)
}

// nextJog is when the next line is due.
func (t *lineController) nextJog(j *jogging) time.Time {
	switch {
	case j.began.IsZero():
		return t.now
	case j.fed >= j.most:
		return j.until
	}
	return j.began.Add(seconds(j.sec - t.ahead(j, j.ramp.speed(j.sec))))
}

// feedJog sends the lines that are due.
func (t *lineController) feedJog(j *jogging, w *jogWords) {
	for j.fed < j.most && !t.now.Before(t.nextJog(j)) {
		text := w.next()
		if !t.room(len(text) + 1) {
			return
		}
		if j.began.IsZero() {
			j.began = t.now.Add(t.way.bytes(jogBytes))
		}
		t.put(text, t.promptly(len(text)+1), nil)
		t.flight[len(t.flight)-1].jog = true
		j.fedAt = t.now
		w.sent()
	}
}

// sawJog takes in a report: how far the axis is tells how much of the ramp has been made.
func (t *lineController) sawJog(j *jogging, from float64) error {
	if !t.status.is("Jog", "Run", "Idle", "Alarm") {
		return failed(NotPlan, "it reports %q while it is moved by hand, and was not told to", t.status.state)
	}
	at, ok := t.reading()
	if !ok || j.began.IsZero() {
		return nil
	}
	sec := t.before.Sub(j.began).Seconds()
	if v := j.ramp.speed(sec); v > 0 {
		late := (j.ramp.way(sec) - (at[j.axis]-from)*j.way) / v
		j.began = j.began.Add(seconds(min(max(late*trust, -mostTrust), mostTrust)))
	}
	return nil
}

// endJog ends a jog, and waits until it rests. A line that the board reads only after the
// byte would begin anew: once it has answered all, it is told again.
func (t *lineController) endJog(j *jogging, from float64) error {
	t.every = restEvery / 5
	t.out.hurry(t.controller.JogCancel)
	limit := patience + t.slowest()
	if len(t.flight) > 0 { // a stop holds it, and a board that is held answers nothing
		if err := t.within(limit, func() bool { return len(t.flight) == 0 || t.stops > 0 }, "no answer to a line of a jog"); err != nil {
			return err
		}
		t.out.hurry(t.controller.JogCancel)
	}
	told := t.now
	still := func() bool { return t.stops > 0 || t.reportedSince(told) && t.status.is("Idle", "Alarm") }
	if err := t.within(limit, still, "it has not come to rest within %v of the end of a jog", limit); err != nil {
		return err
	}
	if t.stops > 0 {
		return errStopped
	}
	return t.hasGone(j, from)
}

// agreed is where the axes stand at rest, in the controller's own count, by two reports
// that say the same: noise on the wire changes a digit of one, and no plan says here what
// it should be.
func (t *lineController) agreed() (at []float64, err error) {
	var before []float64
	for range maxAgreed {
		if err := t.fresh(); err != nil {
			return nil, err
		}
		now, ok := t.reading()
		if !ok {
			return nil, failed(Foreign, "it reports no place of the axes, and is not moved by hand without")
		}
		if slices.Equal(now, before) {
			return now, nil
		}
		before = slices.Clone(now)
	}
	return nil, failed(Garbled, "it should rest, and %d reports of where it stands do not agree", maxAgreed)
}

// maxAgreed is how many reports are asked for until two agree.
const maxAgreed = 6

// hasGone takes in how far an axis has gone that was moved by hand: no further than it was
// told to.
func (t *lineController) hasGone(j *jogging, from float64) error {
	now, err := t.agreed()
	if err != nil {
		return err
	}
	gone, slack := (now[j.axis]-from)*j.way, t.mayRest(j.axis)
	if gone < -slack || gone > j.fed+slack {
		a := t.axes[j.axis]
		return failed(Astray, "axis %s was moved by hand by %.3f %s at the most, and is reported to have gone %.3f", a.Name, j.fed, a.Unit(), gone)
	}
	j.fed = gone
	if at, ok := t.position(); ok && t.sure(j.axis) {
		t.at[j.axis] = at[j.axis]
	}
	return nil
}

// jogWords are a jog in words: distances in whole grains of the controller, so that they
// add up to what was meant.
type jogWords struct {
	t       *lineController
	j       *jogging
	grains  int64 // told so far
	grain   int64 // where the next line ends
	sec     float64
	lineFed float64
	perUnit float64
}

// leastSteps is how many steps a line of a jog has at least: of less a board makes a
// move that is none.
const leastSteps = 2

// next is the next line: as much of the ramp as a line has, and at least two steps of it.
func (w *jogWords) next() string {
	a := w.t.axes[w.j.axis]
	w.perUnit = math.Pow(10, float64(w.t.controller.Decimals))
	least := max(leastSteps/a.StepsPerUnit.Float(), leastSteps/w.perUnit)
	took := w.t.jogBlock()
	for w.j.ramp.way(w.j.sec+took)-w.j.fed < least {
		took += w.t.jogBlock()
	}
	w.sec = w.j.sec + took
	to := min(w.j.ramp.way(w.sec), w.j.most)
	w.grain = max(int64(math.Floor(to*w.perUnit)), w.grains)
	w.lineFed = to
	by := float64(w.grain-w.grains) / w.perUnit
	return w.t.controller.JogLine + "G91G21" + a.Letter + w.t.number(by*w.j.way) + "F" + w.t.pace(a, (to-w.j.fed)/took)
}

// sent takes in that the line has been sent.
func (w *jogWords) sent() {
	w.grains, w.j.fed, w.j.sec = w.grain, w.lineFed, w.sec
}

// pace is a feed a minute for one axis: where all axes count in it, a degree counts as the
// board has it.
func (t *lineController) pace(a rig.Axis, speed float64) string {
	f := speed * secondsMinute
	if t.controller.PathFeed == rig.AlongAll {
		f *= rs274.Weight(t.controller, a)
	}
	return t.number(max(f, leastFeed))
}

// leastFeed is a feed that every controller can read, in units a minute.
const leastFeed = 1
