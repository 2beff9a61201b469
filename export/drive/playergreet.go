package drive

import (
	"math"
	"strings"

	"seamrail/export/drive/stepplayer"
)

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
	case i.Version != stepplayer.Version:
		return failed(Foreign, "it speaks version %d of the protocol, and this is version %d", i.Version, stepplayer.Version)
	case !strings.HasPrefix(i.Name, p.controller.Greeting):
		return failed(Foreign, "it is %q, and should be %q", shortened(i.Name), p.controller.Greeting)
	case i.Axes < p.wide():
		return failed(Mismatched, "it has %d motors, and the rig file needs %d", i.Axes, p.wide())
	case p.tickSeconds() > p.mostTick():
		return failed(Mismatched, "its shortest tick is %.3f ms, and the take needs one of %.3f ms at most", p.tickSeconds()*1000, p.mostTick()*1000)
	case i.Capacity < 2*stepplayer.HoldRows:
		return failed(Mismatched, "it stores %d rows, and needs %d to slow down within them", i.Capacity, 2*stepplayer.HoldRows)
	}
	p.room, p.axesNow = i.Capacity, i.Axes
	return p.fresh()
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
	ok, err := p.until(patience, func() bool { return p.seen.After(from) })
	if err == nil && !ok {
		err = failed(Silent, "it does not answer when asked for its status")
	}
	return err
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
