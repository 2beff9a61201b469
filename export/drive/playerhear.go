package drive

import (
	"math"
	"strings"
	"time"

	"seamrail/export/drive/stepplayer"
)

func (p *player) heard(b []byte) {
	p.reader.Add(b)
	for f, ok := p.reader.Next(); ok; f, ok = p.reader.Next() {
		if err := p.frame(f); err != nil {
			p.fail(Garbled, "a frame of type %q that makes no sense: %v", byte(f.Type), err)
		}
	}
}

func (p *player) frame(f stepplayer.Frame) error {
	p.silent = time.Time{}
	switch f.Type {
	case stepplayer.HelloAnswer:
		return p.greeted(f)
	case stepplayer.Ack:
		room, err := stepplayer.ReadAck(f.Payload)
		p.acknowledged(f.Seq, room)
		return err
	case stepplayer.Refused:
		reason, room, err := stepplayer.ReadRefused(f.Payload)
		if err == nil {
			p.refused(f.Seq, reason, room)
		}
		return err
	case stepplayer.StatusNow:
		s, err := stepplayer.ReadStatus(f.Payload)
		if err == nil {
			p.reported(s)
		}
		return err
	}
	return nil
}

func (p *player) greeted(f stepplayer.Frame) error {
	info, err := stepplayer.ReadPlayer(f.Payload)
	if err != nil {
		return err
	}
	p.info = &info
	if !p.greets {
		p.fail(Restarted, "it said hello anew: it was reset or lost power, and what it held is gone")
	}
	return nil
}

// acknowledged drops the frames before seq: the player has obeyed them.
func (p *player) acknowledged(seq byte, room int) {
	n := int(seq - p.seq + byte(len(p.flight))) // of them, by distance around 256
	if n > len(p.flight) {
		return // an old one, overtaken
	}
	p.flight = p.flight[:copy(p.flight, p.flight[n:])]
	p.room = room
	if n > 0 {
		p.resent = p.now
	}
}

func (p *player) refused(seq byte, reason stepplayer.Reason, room int) {
	p.acknowledged(seq, room)
	switch reason {
	case stepplayer.Lost, stepplayer.NoRoom:
		p.resend()
	case stepplayer.InAlarm:
		p.fail(Alarmed, "it is in an alarm; position is not to be trusted")
	case stepplayer.NotNow:
		if p.crashed { // what was on its way comes too late for one that has been aborted
			return
		}
		if j := p.engine.held; j != nil { // it has run out, and says so
			j.ranOut = true
			return
		}
		fallthrough
	default:
		if !p.greets { // one that is still playing wants no hello; it runs out of rows
			p.fail(Refused, "frame %d refused: %v", seq, reason)
		}
	}
}

func (p *player) reported(s stepplayer.Status) {
	if p.info != nil && !p.credible(s) {
		return
	}
	was := p.status
	p.status, p.seen, p.before = &s, p.now, p.asked
	p.room = s.Room
	if was == nil || was.State != s.State {
		p.turned(s)
	}
	p.agrees(s)
	if pass := p.engine.pass; pass != nil && p.info != nil && p.moving && (s.State == stepplayer.Playing || s.State == stepplayer.Slowing) {
		if at, ok := p.position(); ok {
			pass.saw(at, p.before)
		}
	}
}

// way is how long a status is on the wire, in s.
func (p *player) way() float64 {
	if p.controller.Baud <= 0 {
		return 0
	}
	return float64(13+4*len(p.status.Steps)) * bitsPerByte / float64(p.controller.Baud)
}

// turned takes in that the player does something else now.
func (p *player) turned(s stepplayer.Status) {
	switch s.State {
	case stepplayer.Playing:
		if p.began.IsZero() && p.info != nil { // or so many rows before, if that was not heard
			p.began = later(p.now.Add(-seconds(float64(s.Played)*p.tickSeconds())), p.went)
			if p.engine.pass != nil {
				p.engine.pass.anchorAt(p.began, -p.runUp+p.way())
			}
		}
	case stepplayer.Ended:
		p.over = p.now
	case stepplayer.Starved:
		if p.engine.held != nil {
			p.engine.held.ranOut = true
			return
		}
		if p.moving && !p.calming {
			p.fail(Behind, "it ran out of rows: the link or this computer is too slow")
		}
	case stepplayer.Alarm:
		if p.moving {
			p.fail(Alarmed, "a limit switch opened; it stopped by itself, and position is not to be trusted")
		}
	case stepplayer.Aborted:
		if p.moving && !p.crashed {
			p.fail(Alarmed, "it stopped at once, unasked; position is not to be trusted")
		}
	}
}

// resend sends all frames without acknowledgement again, unless that has just
// been done: each frame after a lost one is refused too.
func (p *player) resend() {
	if p.now.Sub(p.resent) < resendAfter/4 {
		return
	}
	p.resent = p.now
	if p.out.waiting() {
		return
	}
	for _, f := range p.flight {
		p.out.send(f.bytes)
	}
}

// tick asks for the status and sends again what was lost.
func (p *player) tick() {
	if p.info == nil {
		return
	}
	if !p.now.Before(p.asked.Add(p.every())) {
		p.ask()
	}
	if len(p.flight) > 0 {
		switch first := p.flight[0]; {
		case p.now.Sub(first.at) > patience:
			p.fail(Silent, "no acknowledgement for %v", p.now.Sub(first.at).Round(time.Millisecond))
		case p.now.Sub(later(first.at, p.resent)) >= resendAfter:
			p.resend()
		}
	}
	p.overdue()
	if !p.silent.IsZero() && p.now.Sub(p.silent) > patience {
		p.fail(Silent, "it has not answered for %v", p.now.Sub(p.silent).Round(time.Millisecond))
	}
}

// every is how often the status is asked for: while rows wait for room, as
// often as an eighth of its store is played.
func (p *player) every() time.Duration {
	if p.rows == nil {
		return pollEvery
	}
	eighth := seconds(float64(p.info.Capacity) / 8 * p.tickSeconds())
	return min(pollEvery, max(eighth, 10*time.Millisecond))
}

func (p *player) due() time.Time {
	if p.info == nil {
		return p.now.Add(never)
	}
	due := p.asked.Add(p.every())
	if len(p.flight) > 0 {
		due = earlier(due, later(p.flight[0].at, p.resent).Add(resendAfter))
	}
	return due
}

func (p *player) greet() error {
	p.greets = true
	defer func() { p.greets = false }()
	there := func() bool { return p.info != nil }
	if p.controller.ResetsOnOpen {
		if _, err := p.until(provokeWait, there); err != nil {
			return err
		}
	}
	for range int(greetWait / provokeWait) {
		p.info = nil
		p.urge(stepplayer.Hello)
		ok, err := p.until(provokeWait, there)
		if err != nil {
			return err
		}
		if ok {
			p.seq, p.flight = 0, nil
			return p.recognise()
		}
	}
	if p.reader.Dropped > 0 {
		return failed(Foreign, "it says something, but not in the frames of a step player")
	}
	return failed(Silent, "no answer to a hello within %v", greetWait)
}

// recognise compares what it says of itself with the rig file.
func (p *player) recognise() error {
	i := p.info
	switch {
	case i.Version < stepplayer.Version || i.Version > stepplayer.VersionOutputs:
		return failed(Foreign, "it speaks version %d of the protocol, and this is version %d", i.Version, stepplayer.VersionOutputs)
	case !strings.HasPrefix(i.Name, p.controller.Greeting):
		return failed(Foreign, "it is %q, and should be %q", shortened(i.Name), p.controller.Greeting)
	case i.Axes < p.wide():
		return failed(Mismatched, "it has %d motors, and the rig file needs %d", i.Axes, p.wide())
	case p.tickSeconds() > p.mostTick():
		return failed(Mismatched, "its shortest tick is %.3f ms, and the take needs one of %.3f ms at most", p.tickSeconds()*1000, p.mostTick()*1000)
	case i.Capacity < 2*stepplayer.HoldRows:
		return failed(Mismatched, "it stores %d rows, and needs %d to slow down within them", i.Capacity, 2*stepplayer.HoldRows)
	}
	p.room, p.axesNow = i.Capacity, 1 // of a run before, if there was one, it counts the axes
	err := p.fresh()
	if err == nil {
		p.axesNow = len(p.status.Steps)
	}
	return err
}

// check makes sure that the wire can carry rows as fast as they are played.
func (p *player) check() error {
	p.Observer.Say("a step player has no settings: steps a unit are those of the rig file")
	needs := float64(p.wide()) / p.tickSeconds() * bitsPerByte * (rowBytes + 6) / rowBytes
	if baud := float64(p.controller.Baud); baud > 0 && needs > baud*linkShare {
		return failed(Behind, "rows of %d motors every %g ms need %.0f baud, and the wire has %.0f", p.wide(), p.tickSeconds()*1000, needs/linkShare, baud)
	}
	return nil
}

// mostTick is the longest tick, in s, in which a row holds the steps of the fastest
// axis, and of which there are two to a captured frame.
func (p *player) mostTick() float64 {
	tick := p.Trajectory.FrameSeconds(1).Float() / 2
	for i, a := range p.axes {
		if fast := math.Abs(p.Trajectory.Extremes(i).Speed.Value) * a.StepsPerUnit.Float(); fast > 0 {
			tick = min(tick, math.MaxInt8/fast)
		}
	}
	return tick
}

func (p *player) locked() bool { return p.status != nil && p.status.State == stepplayer.Alarm }

// unlock says again where it stands, which clears an alarm.
func (p *player) unlock() error {
	if p.status == nil {
		return nil
	}
	p.order(stepplayer.Place, stepplayer.AppendPlaces(nil, p.status.Steps[:min(p.axesNow, len(p.status.Steps))]), 0)
	if err := p.obeyed(); err != nil {
		return err
	}
	return p.fresh()
}

func (p *player) homes(int) bool { return false }

func (p *player) home() error { return failed(Unplanned, "a step player does not home by itself") }

func (p *player) place(at []float64) error {
	steps := make([]int32, p.axesNow)
	for i, m := range p.motors {
		steps[m] = int32(nearestStep(at[i], p.axes[i].StepsPerUnit.Float()))
	}
	p.order(stepplayer.Place, stepplayer.AppendPlaces(nil, steps), 0)
	if err := p.obeyed(); err != nil {
		return err
	}
	return p.fresh()
}

// fresh waits for a status that was asked for from now on.
func (p *player) fresh() error {
	from := p.now
	p.ask()
	return p.within(patience, func() bool { return p.seen.After(from) }, noStatus)
}

func (p *player) ask() {
	p.urge(stepplayer.Ask)
	p.asked = p.now
	if p.silent.IsZero() {
		p.silent = p.now
	}
}

// position returns where the axes of the plan stand by the last status.
func (p *player) position() ([]float64, bool) {
	if p.status == nil || len(p.status.Steps) < p.wide() {
		return nil, false
	}
	out := make([]float64, len(p.axes))
	for i, m := range p.motors {
		out[i] = float64(p.status.Steps[m]) / p.axes[i].StepsPerUnit.Float()
	}
	return out, true
}
