package drive_test

import (
	"bytes"
	"strings"
	"time"

	"seamrail/export/drive"
	"seamrail/export/drive/stepplayer"
	"seamrail/export/drive/virtual"
)

// sickWorld is a rig of software with something between it and the host that makes
// of the two a controller which does not do, or does not tell, what it should. It is
// well until the take begins.
type sickWorld struct {
	*virtual.World
	rig   *virtual.Rig
	since time.Duration // the take began; < 0 = not yet

	line  func(w *sickWorld, text string) string       // what the board reads instead
	told  func(w *sickWorld, text string) string       // what the host reads instead; "" = nothing
	frame func(w *sickWorld, f *stepplayer.Frame) bool // false = it is lost
	row   func(w *sickWorld, f *stepplayer.Frame)      // to the board
	up    bytes.Buffer                                 // a line of the host
	down  bytes.Buffer                                 // and one of the board
	rows  stepplayer.Reader                            // of the host
	heard stepplayer.Reader                            // of the board
}

// in is how long the take has been going on, s.
func (w *sickWorld) in() float64 {
	if w.since < 0 {
		return -1
	}
	return (w.rig.Now() - w.since).Seconds()
}

func (w *sickWorld) Write(p []byte) (int, error) {
	switch {
	case w.row != nil:
		w.rows.Add(p)
		for f, ok := w.rows.Next(); ok; f, ok = w.rows.Next() {
			if w.since >= 0 {
				w.row(w, &f)
			}
			_, _ = w.World.Write(f.Append(nil))
		}
	case w.line != nil:
		for _, c := range p {
			switch {
			case c == '?' || c == '!' || c == '~' || c == 0x18:
				_, _ = w.World.Write([]byte{c})
			case c != '\n':
				w.up.WriteByte(c)
			default:
				text := w.up.String()
				w.up.Reset()
				if w.since >= 0 {
					text = w.line(w, text)
				}
				_, _ = w.World.Write([]byte(text + "\n"))
			}
		}
	default:
		return w.World.Write(p)
	}
	return len(p), nil
}

func (w *sickWorld) Wait(until time.Time) drive.Event {
	e := w.World.Wait(until)
	if e.Kind != drive.Heard {
		return e
	}
	var out []byte
	switch {
	case w.frame != nil:
		w.heard.Add(e.Bytes)
		for f, ok := w.heard.Next(); ok; f, ok = w.heard.Next() {
			if w.since < 0 || w.frame(w, &f) {
				out = f.Append(out)
			}
		}
	case w.told != nil:
		for _, c := range e.Bytes {
			w.down.WriteByte(c)
			if c != '\n' {
				continue
			}
			text := strings.TrimRight(w.down.String(), "\r\n")
			w.down.Reset()
			if w.since >= 0 {
				text = w.told(w, text)
			}
			if text != "" {
				out = append(out, text+"\r\n"...)
			}
		}
	default:
		return e
	}
	e.Bytes = out
	return e
}
