package drive

import (
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

	rows  *rows     // what is being played, or nil
	ended bool      // the last row has been sent, and said to be
	going bool      // it has been told to go
	went  time.Time // when
	began time.Time
	over  time.Time // when it said that all was played

	begun   time.Time // when it had forgotten all rows before those
	held    bool      // it has been told to hold
	resumed time.Time // when it was told to go on after that; zero = not yet with these rows
	strays  int       // weight of statuses whose steps are not those of the rows
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
	// rowBytes is how many bytes of rows go into a frame. A hold waits for the end
	// of one that has begun: 9 ms at 115200 baud.
	rowBytes = 96
	// enough is how many rows are sent before the motion begins: half a second.
	enough = 512
	// maxFrame is what a frame of rows takes on the wire.
	maxFrame = rowBytes + 6
	// maxFlight is how many bytes may be without acknowledgement.
	maxFlight = 2 * maxFrame
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

// flushed is nothing to it.
func (p *player) flushed() {}

// order sends a frame that is obeyed in sequence.
func (p *player) order(t stepplayer.Type, payload []byte, rows int) {
	b := stepplayer.Frame{Seq: p.seq, Type: t, Payload: payload}.Append(nil)
	p.flight = append(p.flight, frame{seq: p.seq, bytes: b, rows: rows, at: p.now})
	p.seq++
	p.out.send(b)
}

// urge sends a frame that is obeyed at once, before all that are still to go.
func (p *player) urge(t stepplayer.Type) {
	p.out.cutIn(stepplayer.Frame{Type: t}.Append(nil))
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

// tickSeconds is the length of a tick, in s: a whole number of ns.
func (p *player) tickSeconds() float64 { return float64(p.nanos()) * 1e-9 }

func (p *player) nanos() uint32 { return max(uint32(rowTick*1e9), p.info.Shortest) }
