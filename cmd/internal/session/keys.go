package session

import (
	"seamrail/cmd/internal/console"
	"seamrail/export/drive"
)

// press is called with each read of the keyboard.
func (s *session) press(b []byte) {
	for _, k := range console.Keys(b) {
		if console.Stops(k) { // before a word is said
			offer(s.hurried, drive.Request{Kind: drive.Stop})
			s.Press(k)
			continue
		}
		r, ok := s.Press(k)
		if ok && r.Kind == drive.Go && s.changed.Load() {
			s.anew.Store(true)
			r.Kind = drive.Quit
		}
		switch {
		case !ok:
		case r.Kind == drive.Quit:
			offer(s.hurried, r)
		default:
			offer(s.asks, r)
		}
	}
}

func offer(to chan<- drive.Request, r drive.Request) {
	select {
	case to <- r:
	default:
	}
}

// interrupt is Ctrl-C where it is not a key. With nobody there to ask what
// next, it is also the end.
func (s *session) interrupt() {
	if s.o.Terminal.Keys == nil {
		s.end()
		return
	}
	offer(s.hurried, drive.Request{Kind: drive.Stop})
}

// silenced is told that nothing can be printed any more, and why.
func (s *session) silenced(err error) { s.why.CompareAndSwap(nil, &err) }

// end is told by a signal, or by a terminal that is gone; told again, it
// aborts.
func (s *session) end() {
	s.told.Store(true)
	offer(s.hurried, drive.Request{Kind: drive.Quit})
}
