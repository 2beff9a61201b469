package measuring

import (
	"io"
	"path/filepath"

	"seamrail/cmd/internal/session"
	"seamrail/export/drive/wirelog"
)

// recorded is a world with all of it kept.
type recorded struct {
	*wirelog.Recorder
	io.Closer
}

// played is a record in place of a rig.
type played struct{ *wirelog.Playback }

func (played) Close() error { return nil }

// keep has all that goes over the wire kept from now on, and returns what saves it: with
// the rig file as it was, and with the answers, so that the walk can be gone again.
func (w *Walk) keep(axis, what string) (save func() error) {
	if w.Port.Keep == nil {
		return func() error { return nil }
	}
	r, c := wirelog.NewRecorder(w.hand.world), w.rig.Controller
	w.hand.world = recorded{r, w.hand.world}
	words, file := []string{"measure", filepath.Base(w.File)}, wirelog.File{Name: filepath.Base(w.File), Text: w.data}
	for _, named := range []string{axis, what} {
		if named != "" {
			words = append(words, named)
		}
	}
	return func() error {
		head := session.WireHead(w.Port.Virtual, c.Kind.String(), c.Baud, append(words, w.Ask.said...)...)
		head.Files = []wirelog.File{file}
		return w.Port.Keep(func(to io.Writer) error { return r.Save(to, head) })
	}
}
