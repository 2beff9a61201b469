package session

import (
	"fmt"
	"io"
	"time"

	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/exit"
	"seamrail/export/drive"
	"seamrail/export/drive/wirelog"
	"seamrail/export/header"
	"seamrail/export/report/planreport"
)

// byHand sets up a panel for moving a rig by hand and nothing else.
func (s *session) byHand(o *console.Options) {
	if o.Level = 1; s.o.ByHand {
		o.Level = s.o.Level
	}
	o.ByHand, o.Known, o.Stands = s.o.ByHand, s.o.Confirmed || s.o.Virtual && !s.o.ByHand, "the take starts"
	if s.o.Unlogged {
		o.Mark, o.Places, o.Stands = nil, nil, "the rig file has its home"
	}
}

// lines returns what makes the lines of takes, if there are to be any.
func (s *session) lines() (func() drive.Source, error) {
	if s.o.ByHand {
		return nil, nil
	}
	return s.program()
}

// begins says what is about to be done.
func (s *session) begins() error {
	if !s.o.ByHand {
		return s.head()
	}
	where := "at " + s.o.Port
	if s.o.Virtual {
		where = "made of software"
	}
	text := fmt.Sprintf("%s, %s, moved by hand.\n%s\n", header.Clean(s.job.Rig.Name), where, console.NoEmergencyStop)
	if s.o.Confirmed {
		for _, c := range planreport.Cautions(s.job.Plan, s.job.Schedule) {
			text += "  ! " + header.Clean(c) + "\n"
		}
	}
	_, err := io.WriteString(s.out, console.Folded(text+s.lastTime(), s.o.Terminal.width()))
	return err
}

// tellStrokes has a terminal tell when a key is let go of, if it can, until what it
// returns is called.
func (s *session) tellStrokes() (until func()) {
	if s.o.Terminal.width() == 0 {
		return func() {}
	}
	_, _ = io.WriteString(s.out, console.TellStrokes)
	off := deadman.OnPanic(func() { _, _ = io.WriteString(s.o.Terminal.Out, console.ForgetThat) })
	return func() {
		off()
		_, _ = io.WriteString(s.out, console.ForgetThat)
	}
}

// Press is an axis of the plan that is held for a while, at a speed: units/s, below 0
// towards lesser places.
type Press struct {
	Axis  int
	Speed float64
	For   time.Duration
}

const (
	// pressAgain is how often a hold is renewed, and pressFor for how long.
	pressAgain = 50 * time.Millisecond
	pressFor   = 150 * time.Millisecond
	// pressRests is how long the rest after one is waited for.
	pressRests = 5 * time.Second
)

// hands is a world in which axes are held one after the other, without anybody there.
type hands struct {
	World
	list  []Press
	moved bool      // something has
	next  time.Time // when something is asked for; zero = nothing has begun
	ends  time.Time // when the press in hand does; zero = there is none
}

// pressed is the world in which what the options say is held.
func (s *session) pressed(w World) drive.World {
	if !s.o.ByHand || s.o.Terminal.Keys != nil {
		return w
	}
	r, kept := w.(*recorded)
	if !kept {
		s.hands = &hands{World: w, list: s.o.Presses}
		return s.hands
	}
	s.hands = &hands{World: r.world, list: s.o.Presses}
	r.Recorder = wirelog.NewRecorder(s.hands) // so that what they ask for is kept
	return r
}

// Moves is told to the world.
func (h *hands) Moves(moving bool) {
	if m, ok := h.World.(drive.Minder); ok {
		m.Moves(moving)
	}
}

// Wait returns what the world has, or what is asked for here once it is time.
func (h *hands) Wait(until time.Time) drive.Event {
	if h.next.IsZero() || h.next.After(until) {
		return h.World.Wait(until)
	}
	e := h.World.Wait(h.next)
	if e.Kind == drive.Nothing && !h.Now().Before(h.next) {
		e = drive.Event{Kind: drive.Asked, Request: h.asks()}
	}
	return e
}

// asks is what is asked for now.
func (h *hands) asks() drive.Request {
	now := h.Now()
	switch {
	case len(h.list) == 0:
		h.next = now.Add(time.Hour)
		return drive.Request{Kind: drive.Quit}
	case h.ends.IsZero():
		h.ends = now.Add(h.list[0].For)
	case !now.Before(h.ends):
		h.list, h.ends, h.next = h.list[1:], time.Time{}, now.Add(pressRests)
		return drive.Request{Kind: drive.JogRelease}
	}
	p := h.list[0]
	h.next = earlier(now.Add(pressAgain), h.ends)
	return drive.Request{Kind: drive.JogHold, Axis: p.Axis, Speed: p.Speed, For: pressFor}
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

// Enter begins with what is to be held once it is asked what next.
func (s *session) Enter(x drive.State) {
	s.Panel.Enter(x)
	asked := x == drive.Ready || x == drive.Unsettled && s.settling() == drive.AskOperator
	if h := s.hands; h != nil && asked && h.next.IsZero() {
		h.next = h.Now()
	}
}

// Jogged goes on with what is held next, once an axis rests.
func (s *session) Jogged(j drive.Jogged) {
	s.Panel.Jogged(j)
	if h := s.hands; h != nil && !j.Moving {
		h.moved = h.moved || j.Gone != 0
		if h.ends.IsZero() {
			h.next = h.Now()
		}
	}
}

// unmoved is an error where something was to be moved and nothing was.
func (s *session) unmoved() error {
	if s.hands == nil || s.hands.moved {
		return nil
	}
	return exit.Failed("nothing was moved")
}
