package drive_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"strconv"
	"strings"
	"time"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
)

// A storm is a run on the rig of software in which anything may fail at any step: a
// step is one call of what is outside the engine, the wire, the clock, the operator,
// the disk. Which fault comes at which step is a script, and with it and a seed the
// run is the same every time.

// stroke is one fault: at a step, or, of those of the board, so many ms after it was
// powered.
type stroke struct {
	at   int
	kind string
}

// script is the strokes of a run, as text: "812:write-none 2400:board-alarm".
type script []stroke

func (s script) String() string {
	var b strings.Builder
	for i, x := range s {
		if i > 0 {
			b.WriteByte(' ')
		}
		fmt.Fprintf(&b, "%d:%s", x.at, x.kind)
	}
	return b.String()
}

func parseScript(text string) (out script, err error) {
	for _, word := range strings.Fields(text) {
		at, kind, _ := strings.Cut(word, ":")
		n, err := strconv.Atoi(at)
		if err != nil {
			return nil, err
		}
		out = append(out, stroke{n, kind})
	}
	return out, nil
}

// kinds of stroke. Those of frames change bytes on their way to a board whose frames
// have a check; a digit of a word that is changed is another word.
var (
	writeStrokes = []string{"write-gone", "write-none", "write-one", "write-late"}
	frameStrokes = []string{"write-flip", "write-drop", "write-twice"}
	readStrokes  = []string{"read-gone", "read-drop", "read-flip", "read-twice", "read-late", "read-noise"}
	clockStrokes = []string{"sleep", "stall"}
	askStrokes   = []string{"ask-stop", "ask-stop", "ask-quit", "ask-finish", "ask-resume", "ask-restart", "ask-go", "ask-mark", "ask-decline", "ask-hold", "ask-let"}
	diskStrokes  = []string{"disk-full", "disk-torn", "disk-sync"}
	boardStrokes = []string{"board-alarm", "board-restart", "board-silent", "board-slow-wire", "board-loses-ok", "board-says-ok-twice", "board-refuses"}
)

var asks = map[string]drive.RequestKind{
	"ask-stop": drive.Stop, "ask-quit": drive.Quit, "ask-finish": drive.Finish, "ask-resume": drive.Resume, "ask-restart": drive.Restart,
	"ask-go": drive.Go, "ask-mark": drive.Mark, "ask-decline": drive.Decline, "ask-hold": drive.JogHold, "ask-let": drive.JogRelease,
}

// ofBoard turns strokes of the board into its faults.
func (s script) ofBoard() (out []virtual.Fault) {
	for _, x := range s {
		at := time.Duration(x.at) * time.Millisecond
		switch x.kind {
		case "board-alarm":
			out = append(out, virtual.Fault{Kind: virtual.TripAlarm, At: at, Value: 1})
		case "board-restart":
			out = append(out, virtual.Fault{Kind: virtual.Restart, At: at})
		case "board-silent":
			out = append(out, virtual.Fault{Kind: virtual.FallSilent, At: at})
		case "board-slow-wire":
			out = append(out, virtual.Fault{Kind: virtual.SlowLink, At: at, Value: 2400})
		case "board-loses-ok":
			out = append(out, virtual.Fault{Kind: virtual.LoseOK, Nth: int64(x.at % 300)})
		case "board-says-ok-twice":
			out = append(out, virtual.Fault{Kind: virtual.DoubleOK, Nth: int64(x.at % 300)})
		case "board-refuses":
			out = append(out, virtual.Fault{Kind: virtual.RefuseLine, Nth: int64(x.at % 300), Value: 1 + x.at%4})
		}
	}
	return out
}

// storm is the world of such a run, and its disk.
type storm struct {
	*machine
	drawn   script
	rng     *rand.Rand
	strokes map[int][]string
	step    int
	struck  []string // what has happened, in order
	gone    error
	late    []byte    // heard, and kept back
	lateTo  time.Time // until then
	stalled time.Time // the host does nothing until then
	disk    error     // it has failed
	torn    bool      // and left part of a record
}

// next counts a step, and returns the stroke of one of the kinds that fall on it.
func (s *storm) next(kinds ...string) string {
	s.step++
	if s.step > maxSteps {
		panic(fmt.Sprintf("%d steps and no end, %v after it began, in state %v", s.step, s.rig.Now(), s.w.states[len(s.w.states)-1]))
	}
	for _, k := range s.strokes[s.step] {
		for _, prefix := range kinds {
			if strings.HasPrefix(k, prefix) {
				s.struck = append(s.struck, k)
				return k
			}
		}
	}
	// One that does not fit this step falls on the next.
	if left := s.strokes[s.step]; len(left) > 0 {
		s.strokes[s.step+1] = append(s.strokes[s.step+1], left...)
	}
	delete(s.strokes, s.step)
	return ""
}

// maxSteps is far above the steps of any run that ends.
const maxSteps = 200_000

var errWire = errors.New("input/output error")

func (s *storm) Now() time.Time { return s.world.Now() }

func (s *storm) Write(p []byte) (int, error) {
	k := s.next("write")
	switch {
	case k == "write-gone":
		s.gone = errWire
	case k == "write-none" && s.gone == nil:
		return 0, nil
	case k == "write-one" && s.gone == nil:
		p = p[:1]
	case k == "write-late":
		s.stalled = s.Now().Add(time.Duration(s.rng.IntN(400)) * time.Millisecond)
	}
	if s.gone != nil {
		return 0, s.gone
	}
	switch i := s.rng.IntN(len(p)); k {
	case "write-flip":
		p[i] ^= 1 << s.rng.IntN(8)
	case "write-drop":
		_, _ = s.world.Write(p[:i])
		_, err := s.world.Write(p[i+1:])
		return len(p), err
	case "write-twice":
		_, _ = s.world.Write(p[:i+1])
		_, err := s.world.Write(p[i:])
		return len(p), err
	}
	return s.world.Write(p)
}

func (s *storm) Wait(until time.Time) drive.Event {
	k := s.next("read", "sleep", "stall", "ask")
	if r, ok := asks[k]; ok {
		return drive.Event{Kind: drive.Asked, Request: drive.Request{Kind: r, Name: "here", Speed: 20, For: 500 * time.Millisecond}}
	}
	switch k {
	case "read-gone":
		s.gone = errWire
	case "sleep":
		s.rig.Advance(3 * time.Second)
		return drive.Event{Kind: drive.Slept, Duration: 3 * time.Second}
	case "stall":
		s.stalled = s.Now().Add(time.Duration(s.rng.IntN(1500)) * time.Millisecond)
	}
	if s.gone != nil {
		s.rig.Advance(time.Microsecond)
		return drive.Event{Kind: drive.Gone, Err: s.gone}
	}
	if s.stalled.After(s.Now()) {
		s.rig.Advance(s.stalled.Sub(s.Now()))
	}
	if len(s.late) > 0 && !s.Now().Before(s.lateTo) {
		b := s.late
		s.late = nil
		return drive.Event{Kind: drive.Heard, Bytes: b}
	}
	if len(s.late) > 0 && s.lateTo.Before(until) {
		until = s.lateTo
		e := s.world.Wait(until)
		if e.Kind == drive.Nothing {
			e = drive.Event{Kind: drive.Heard, Bytes: s.late}
			s.late = nil
		}
		return s.heardSo(e, k)
	}
	return s.heardSo(s.world.Wait(until), k)
}

// heardSo is what becomes of what is heard.
func (s *storm) heardSo(e drive.Event, k string) drive.Event {
	if e.Kind != drive.Heard || len(e.Bytes) == 0 {
		return e
	}
	if len(s.late) > 0 { // what comes after what is late is late too
		e.Bytes = append(s.late, e.Bytes...)
		s.late = nil
	}
	switch i := s.rng.IntN(len(e.Bytes)); k {
	case "read-drop":
		e.Bytes = append(append([]byte(nil), e.Bytes[:i]...), e.Bytes[i+1:]...)
	case "read-flip":
		e.Bytes = append([]byte(nil), e.Bytes...)
		e.Bytes[i] ^= 1 << s.rng.IntN(8)
	case "read-twice":
		e.Bytes = append(append([]byte(nil), e.Bytes...), e.Bytes...)
	case "read-noise":
		e.Bytes = append([]byte{0xff, 0x00, 0x80, '\n'}, e.Bytes...)
	case "read-late":
		s.late, s.lateTo = append([]byte(nil), e.Bytes...), s.Now().Add(time.Duration(20+s.rng.IntN(1000))*time.Millisecond)
		e.Bytes = nil
	}
	return e
}

// stormDisk is where the take log goes.
type stormDisk struct{ s *storm }

func (d stormDisk) Write(p []byte) (int, error) {
	s := d.s
	switch k := s.next("disk-full", "disk-torn"); {
	case k == "disk-full":
		s.disk = errNoRoom
	case k == "disk-torn":
		s.disk, s.torn = errNoRoom, true
		n, _ := s.log.Write(p[:s.rng.IntN(len(p))])
		return n, s.disk
	}
	if s.disk != nil {
		return 0, s.disk
	}
	return s.log.Write(p)
}

func (d stormDisk) Sync() error {
	if d.s.next("disk-sync") != "" {
		d.s.disk = errors.New("input/output error")
	}
	return d.s.disk
}
