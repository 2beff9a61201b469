package drive

import (
	"fmt"
	"math"
	"slices"
	"time"

	"seamrail/export/drive/stepplayer"
	"seamrail/motion/spec/rig"
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

	outputs byte // that are on

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
	kind  stepplayer.Type
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
		named := func(r rig.Axis) bool { return r.Name == a.Name }
		p.motors = append(p.motors, slices.IndexFunc(e.Trajectory.Rig().Axes, named))
	}
	return p
}

// wide is how many motors a row is for.
func (p *player) wide() int { return slices.Max(p.motors) + 1 }

// flushed is nothing to it.
func (p *player) flushed() {}

// order sends a frame that is obeyed in sequence.
func (p *player) order(t stepplayer.Type, payload []byte, rows int) {
	b := stepplayer.Frame{Seq: p.seq, Type: t, Payload: payload}.Append(nil)
	p.flight = append(p.flight, frame{seq: p.seq, kind: t, bytes: b, rows: rows, at: p.now})
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
	done := func() bool { return len(p.flight) == 0 }
	return p.within(patience, done, "no acknowledgement for %v", patience)
}

// tickSeconds is the length of a tick, in s: a whole number of ns.
func (p *player) tickSeconds() float64 { return float64(p.nanos()) * 1e-9 }

func (p *player) nanos() uint32 { return max(uint32(rowTick*1e9), p.info.Shortest) }

// start makes ready to play rows.
func (p *player) start(r *rows) error {
	p.rows, p.ended, p.going = r, false, false
	p.began, p.over, p.begun, p.resumed = time.Time{}, time.Time{}, time.Time{}, time.Time{}
	p.held, p.strays = false, 0
	err := p.begin()
	p.begun = p.now
	return err
}

// supply sends rows as long as there is room, and lets them be played once
// there are enough. It is done when all have been.
func (p *player) supply() error {
	for p.failure == nil && p.rows.left() && p.inFlight() < maxFlight {
		payload, n, err := p.batch()
		if err != nil {
			return failed(Unplanned, "%v", err)
		}
		if n == 0 {
			break
		}
		p.order(stepplayer.Rows, payload, n)
	}
	if !p.rows.left() && !p.ended {
		p.ended = true
		p.order(stepplayer.End, nil, 0)
	}
	if !p.going && (p.ended || p.free() < p.perFrame() || p.rows.next >= enough) {
		p.going, p.went = true, p.now
		p.order(stepplayer.Go, nil, 0)
	}
	return nil
}

func (p *player) perFrame() int { return rowBytes / p.wide() }

// batch makes the rows of one frame: a full one, or what is left.
func (p *player) batch() (payload []byte, n int, err error) {
	if p.free() < p.perFrame() {
		return nil, 0, nil
	}
	for ; n < p.perFrame() && p.rows.left(); n++ {
		if payload, err = p.rows.row(payload); err != nil {
			return nil, 0, err
		}
	}
	return payload, n, nil
}

// free is how many rows may be sent: its room less what is on the way.
func (p *player) free() int {
	n := p.room
	for _, f := range p.flight {
		n -= f.rows
	}
	return n
}

func (p *player) inFlight() int {
	n := 0
	for _, f := range p.flight {
		n += len(f.bytes)
	}
	return n
}

// rows is motion as a step player takes it: by how many steps each motor turns
// in each tick. Places are absolute and differences are derived, so that no
// loop is long enough to drift.
type rows struct {
	tick  float64 // s
	at    func(sec float64, steps []int64)
	next  int64 // row to be made
	count int64 // rows there are; < 0 = no end yet
	now   []int64
	then  []int64
}

// newRows returns rows that begin at sec 0 of at.
func newRows(motors int, tick float64, count int64, at func(sec float64, steps []int64)) *rows {
	r := &rows{tick: tick, at: at, count: count, now: make([]int64, motors), then: make([]int64, motors)}
	at(0, r.now)
	return r
}

func (r *rows) left() bool { return r.count < 0 || r.next < r.count }

// row appends the next row to buf.
func (r *rows) row(buf []byte) ([]byte, error) {
	r.next++
	r.at(float64(r.next)*r.tick, r.then)
	for i, to := range r.then {
		d := to - r.now[i]
		if d < math.MinInt8 || d > math.MaxInt8 {
			return buf, fmt.Errorf("%d steps in a tick of %g s; a row holds %d", d, r.tick, math.MaxInt8)
		}
		buf = append(buf, byte(int8(d)))
		r.now[i] = to
	}
	return buf, nil
}

// nearestStep returns the step at a position: the one it is rounded to, as
// everywhere.
func nearestStep(pos, stepsPerUnit float64) int64 { return int64(math.Floor(pos*stepsPerUnit + 0.5)) }

// ticksOf returns how many ticks cover so many seconds. A hair is taken off so
// that a whole number of ticks does not become one more by rounding.
func ticksOf(sec, tick float64) int64 {
	const hair = 1e-6
	return int64(math.Ceil(sec/tick - hair))
}

// between returns the least and the greatest steps of each motor at the ends of the
// rows from one to another.
func (r *rows) between(from, to int64) (low, high []int64) {
	if r.count >= 0 {
		to = min(to, r.count)
	}
	from = max(min(from, to), 0)
	low, high = make([]int64, len(r.now)), make([]int64, len(r.now))
	at := make([]int64, len(r.now))
	for k := from; k <= to; k++ {
		r.at(float64(k)*r.tick, at)
		for i, n := range at {
			if k == from {
				low[i], high[i] = n, n
			}
			low[i], high[i] = min(low[i], n), max(high[i], n)
		}
	}
	return low, high
}
