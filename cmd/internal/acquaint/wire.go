package acquaint

import (
	"errors"
	"io"

	"seamrail/cmd/internal/session"
	"seamrail/export/drive"
	"seamrail/export/drive/wirelog"
)

// keeper keeps what goes over the wire at each speed, and in the end the last of them: the
// one at which somebody answered, if anybody did.
type keeper struct {
	last *wirelog.Recorder
	baud int
}

// recorded is a wire with its recorder before it.
type recorded struct {
	*wirelog.Recorder
	io.Closer
}

// around has the wires that are dialled kept.
func (k *keeper) around(dial drive.Dial) drive.Dial {
	return func(baud int) (drive.Wire, error) {
		w, err := dial(baud)
		if err != nil {
			return w, err
		}
		k.last, k.baud = wirelog.NewRecorder(w), baud
		return recorded{k.last, w}, nil
	}
}

// save writes the record of the last wire, if there was one.
func (k *keeper) save(o Options, kind string) error {
	if k.last == nil {
		return nil
	}
	return o.Keep(func(w io.Writer) error { return k.last.Save(w, session.WireHead(o.Virtual, kind, k.baud, "connect")) })
}

// Play asks a record in place of a port, as Meet did when it was made. The error is that of
// the asking, or the first thing that was not as in the record.
func Play(p *wirelog.Playback, baud int) (kind string, err error) {
	b, err := drive.Acquaint(func(int) (drive.Wire, error) { return played{p}, nil }, []int{baud}, func(string) {})
	return b.Kind.String(), errors.Join(err, p.Done())
}

// played is a record as a wire.
type played struct{ *wirelog.Playback }

// Close does nothing: there is nothing to give back.
func (played) Close() error { return nil }
