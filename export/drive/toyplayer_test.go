package drive_test

import (
	"encoding/binary"
	"math"
	"time"

	"seamrail/export/drive/stepplayer"
)

// toy is a step player after PROTOCOL.md, on the wire and clock of a puppet.
type toy struct {
	p        *puppet
	reader   stepplayer.Reader
	name     string
	version  byte
	capacity int
	shortest uint32

	expect byte
	tick   time.Duration
	wide   int
	store  [][]int8
	ended  bool
	state  stepplayer.State
	played uint32
	steps  []int32
	slowed int  // rows since a hold, or a resume
	faster bool // after a resume
	round  int
	each   []toyRow // every row played

	axes    int  // that it says it has
	hides   int  // axes of which it does not tell the steps
	roomier int  // rows of room that it tells too many
	endless bool // it says that it plays when it is over

	busy time.Time // until when it plays on
	lose int       // frames that are dropped on arrival, from this one on
	seen int
}

type toyRow struct {
	at, until time.Time
	steps     []int32 // after it
}

func newToy() *toy {
	t := &toy{p: newPuppet(), name: "Bench player", version: stepplayer.Version, axes: 2, capacity: 1024, shortest: 50_000, steps: make([]int32, 2), lose: -1}
	t.p.boots, t.p.realtime = false, false
	t.p.takes = t.receive
	t.p.in(300*time.Millisecond, t.hello)
	return t
}

func (t *toy) send(k stepplayer.Type, payload []byte) {
	t.p.raw(stepplayer.Frame{Seq: t.expect, Type: k, Payload: payload}.Append(nil))
}

func (t *toy) hello() {
	t.send(stepplayer.HelloAnswer, stepplayer.Player{Version: t.version, Axes: t.axes, Capacity: t.capacity, Shortest: t.shortest, Name: t.name}.Tell())
}

func (t *toy) room() []byte {
	return binary.LittleEndian.AppendUint16(nil, uint16(t.capacity-len(t.store)))
}

func (t *toy) tell() {
	state := t.state
	if t.endless && state == stepplayer.Ended {
		state = stepplayer.Playing
	}
	t.send(stepplayer.StatusNow, stepplayer.Status{
		State: state, Room: t.capacity - len(t.store) + t.roomier, Played: t.played, Steps: t.steps[:len(t.steps)-t.hides],
	}.Tell())
}

func (t *toy) become(s stepplayer.State) {
	t.state = s
	t.tell()
}

func (t *toy) receive(c byte) {
	t.reader.Add([]byte{c})
	for f, ok := t.reader.Next(); ok; f, ok = t.reader.Next() {
		t.seen++
		if t.seen == t.lose {
			continue
		}
		t.obey(f)
	}
}

func (t *toy) obey(f stepplayer.Frame) {
	switch f.Type {
	case stepplayer.Hello:
		if t.p.now.Before(t.busy) {
			t.send(stepplayer.Refused, append([]byte{byte(stepplayer.NotNow)}, t.room()...))
			return
		}
		t.expect = 0
		t.hello()
	case stepplayer.Ask:
		t.tell()
	case stepplayer.Hold:
		if t.state == stepplayer.Playing {
			t.slowed = 0
			t.become(stepplayer.Slowing)
		}
	case stepplayer.Resume:
		if t.state == stepplayer.Held {
			t.slowed, t.faster = 0, true
			t.become(stepplayer.Playing)
			t.play()
		}
	case stepplayer.Abort:
		t.store, t.round = nil, t.round+1
		t.become(stepplayer.Aborted)
	default:
		t.ordered(f)
	}
}

func (t *toy) ordered(f stepplayer.Frame) {
	switch ahead := f.Seq - t.expect; {
	case ahead > 127:
		t.send(stepplayer.Ack, t.room())
	case ahead > 0:
		t.send(stepplayer.Refused, append([]byte{byte(stepplayer.Lost)}, t.room()...))
	case t.state == stepplayer.Alarm && f.Type != stepplayer.Place:
		t.send(stepplayer.Refused, append([]byte{byte(stepplayer.InAlarm)}, t.room()...))
	default:
		t.expect++
		t.do(f)
		t.send(stepplayer.Ack, t.room())
		if f.Type == stepplayer.Go {
			t.become(stepplayer.Playing)
			t.play()
		}
	}
}

func (t *toy) do(f stepplayer.Frame) {
	switch f.Type {
	case stepplayer.Begin:
		t.tick = time.Duration(binary.LittleEndian.Uint32(f.Payload))
		t.wide = int(f.Payload[4])
		t.store, t.ended, t.played, t.faster = nil, false, 0, false
		t.become(stepplayer.StandingBy)
	case stepplayer.Place:
		for i := range t.steps {
			t.steps[i] = int32(binary.LittleEndian.Uint32(f.Payload[4*i:]))
		}
		t.state = stepplayer.StandingBy
	case stepplayer.Rows:
		for b := f.Payload; len(b) > 0; b = b[t.wide:] {
			row := make([]int8, t.wide)
			for i := range row {
				row[i] = int8(b[i])
			}
			t.store = append(t.store, row)
		}
	case stepplayer.End:
		t.ended = true
	}
}

// lasts is how long the next row lasts: see Hold and resume in the page.
func (t *toy) lasts() time.Duration {
	t.slowed++
	k := t.slowed
	switch {
	case t.state == stepplayer.Slowing:
		return time.Duration(float64(t.tick) * math.Sqrt(stepplayer.HoldRows/float64(stepplayer.HoldRows+1-k)))
	case t.faster && k < stepplayer.HoldRows:
		return time.Duration(float64(t.tick) * math.Sqrt(stepplayer.HoldRows/float64(k)))
	}
	return t.tick
}

func (t *toy) play() {
	switch {
	case t.state == stepplayer.Slowing && (t.slowed >= stepplayer.HoldRows || len(t.store) == 0):
		t.become(stepplayer.Held)
		return
	case len(t.store) == 0 && t.ended:
		t.become(stepplayer.Ended)
		return
	case len(t.store) == 0:
		t.become(stepplayer.Starved)
		return
	}
	row := t.store[0]
	t.store = t.store[1:]
	for i, d := range row {
		t.steps[i] += int32(d)
	}
	t.played++
	d := t.lasts()
	t.each = append(t.each, toyRow{t.p.now, t.p.now.Add(d), append([]int32(nil), t.steps...)})
	t.round++
	round := t.round
	t.p.in(d, func() {
		if round == t.round && (t.state == stepplayer.Playing || t.state == stepplayer.Slowing) {
			t.play()
		}
	})
}

// trips is a limit switch.
func (t *toy) trips() {
	t.store, t.round = nil, t.round+1
	t.become(stepplayer.Alarm)
}
