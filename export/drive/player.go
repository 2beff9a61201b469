package drive

import (
	"strings"
	"time"

	"seamrail/export/drive/stepplayer"
)

// player is a board that plays rows of steps; see stepplayer/PROTOCOL.md.
type player struct {
	*engine
	reader stepplayer.Reader
	motors []int // which motor each axis of the plan is

	info   *stepplayer.Player // what it has said of itself
	greets bool               // it may say so again
	status *stepplayer.Status
	seen   time.Time // when the status came
	asked  time.Time // when one was last asked for
	before time.Time // when the one that came had been asked for
	silent time.Time // the first asking that is without an answer
	room   int       // rows it had room for when it last said

	axesNow int // axes that it counts: those of the last Begin

	seq    byte
	flight []frame // ordered frames without acknowledgement, oldest first
	resent time.Time

	rows  *rows // what is being played, or nil
	ended bool  // the last row has been sent, and said to be
	going bool  // it has been told to go
	began time.Time
	over  time.Time // when it said that all was played
}

// frame is an ordered frame on its way.
type frame struct {
	seq   byte
	bytes []byte
	rows  int
	at    time.Time
}

const (
	// rowTick is the tick where the player can: a carriage at 200 mm/s and 80
	// steps/mm takes 16 steps in it.
	rowTick = 0.001 // s
	// rowBytes is how many bytes of rows go into a frame. With two of them on
	// the way a hold waits for 18 ms at 115200 baud.
	rowBytes = 96
	// enough is how many rows are sent before the motion begins: half a second.
	enough = 512
	// mostFlight is how many bytes may be without acknowledgement.
	mostFlight = 2 * (rowBytes + 6)
	// resendAfter is when frames without an answer are sent again.
	resendAfter = 200 * time.Millisecond
	// bitsPerByte is what a byte takes on the wire: 8 data bits, a start, a stop.
	bitsPerByte = 10
	// linkShare is how much of the wire rows may take.
	linkShare = 0.9
)

func newPlayer(e *engine) *player {
	p := &player{engine: e}
	for _, a := range e.axes {
		for i, r := range e.Trajectory.Rig().Axes {
			if r.Name == a.Name {
				p.motors = append(p.motors, i)
			}
		}
	}
	return p
}

// wide is how many motors a row is for.
func (p *player) wide() int {
	n := 0
	for _, m := range p.motors {
		n = max(n, m+1)
	}
	return n
}

// order sends a frame that is obeyed in sequence.
func (p *player) order(t stepplayer.Type, payload []byte, rows int) {
	b := stepplayer.Frame{Seq: p.seq, Type: t, Payload: payload}.Append(nil)
	p.flight = append(p.flight, frame{seq: p.seq, bytes: b, rows: rows, at: p.now})
	p.seq++
	p.out.send(b)
}

// urge sends a frame that is obeyed at once.
func (p *player) urge(t stepplayer.Type) {
	p.out.send(stepplayer.Frame{Type: t}.Append(nil))
}

// begin makes it forget its rows and stand by.
func (p *player) begin() error {
	p.axesNow = p.wide()
	p.order(stepplayer.Begin, stepplayer.BeginPayload(p.nanos(), p.axesNow), 0)
	return p.obeyed()
}

// obeyed waits until all that was ordered has been acknowledged.
func (p *player) obeyed() error {
	ok, err := p.until(patience, func() bool { return len(p.flight) == 0 })
	if err == nil && !ok {
		err = failed(Silent, "no acknowledgement for %v", patience)
	}
	return err
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
	case i.Version != stepplayer.Version:
		return failed(Foreign, "it speaks version %d of the protocol, and this is version %d", i.Version, stepplayer.Version)
	case !strings.HasPrefix(i.Name, p.controller.Greeting):
		return failed(Foreign, "it is %q, and should be %q", shortened(i.Name), p.controller.Greeting)
	case i.Axes < p.wide():
		return failed(Mismatched, "it has %d motors, and the rig file needs %d", i.Axes, p.wide())
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

// tickSeconds is the length of a tick, in s: a whole number of ns.
func (p *player) tickSeconds() float64 { return float64(p.nanos()) * 1e-9 }

func (p *player) nanos() uint32 { return max(uint32(rowTick*1e9), p.info.Shortest) }

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

func (p *player) canHome() bool { return false }

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
