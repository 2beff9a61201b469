package cli

import (
	"seamrail/cmd/internal/console"
	"seamrail/export/drive"
)

// press is called with each read of the keyboard.
func (s *session) press(b []byte) {
	for _, k := range console.Keys(b) {
		r, ok := s.Press(k)
		if ok && r.Kind == drive.Go && s.changed.Load() {
			s.anew.Store(true)
			r.Kind = drive.Quit
		}
		switch {
		case !ok:
		case r.Kind == drive.Stop || r.Kind == drive.Quit:
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
	if s.o.keys() == nil {
		s.end()
		return
	}
	offer(s.hurried, drive.Request{Kind: drive.Stop})
}

// end is told by a signal, or by a terminal that is gone; told again, it
// aborts.
func (s *session) end() {
	s.told.Store(true)
	offer(s.hurried, drive.Request{Kind: drive.Quit})
}
