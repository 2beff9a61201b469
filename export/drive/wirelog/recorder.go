package wirelog

import (
	"fmt"
	"io"
	"time"

	"seamrail/export/drive"
)

// Recorder is a World that keeps what happens in another one. It keeps it in memory: a
// disk that takes its time must not come between a key and the wire.
type Recorder struct {
	world  drive.World
	opened time.Time
	now    time.Time
	blocks [][]byte
	size   int
	last   time.Duration
	ended  string // why, before the run was over
	over   bool
}

const (
	// blockSize is how much is taken from the memory at a time, some hundred rows.
	blockSize = 1 << 16
	// MostKept is how many bytes of rows a recorder keeps: hours of takes at 115200 baud.
	MostKept = 64 << 20
)

// tooMuch ends a record that has become too long.
const tooMuch = "there was more than a record holds"

// NewRecorder returns the world that keeps what happens in w from now on.
func NewRecorder(w drive.World) *Recorder {
	r := &Recorder{world: w, opened: w.Now()}
	r.now = r.opened
	return r
}

// Now is the world's time, taken up to the next microsecond, as of the last wait.
func (r *Recorder) Now() time.Time { return r.now }

// since is the time since the wire was opened.
func (r *Recorder) since() time.Duration { return r.now.Sub(r.opened) }

// look asks the world for its time.
func (r *Recorder) look() {
	up := (r.world.Now().Sub(r.opened) + time.Microsecond - 1).Truncate(time.Microsecond)
	if at := r.opened.Add(up); at.After(r.now) {
		r.now = at
	}
}

// Write hands bytes on and keeps those that were taken.
func (r *Recorder) Write(p []byte) (int, error) {
	n, err := r.world.Write(p)
	switch {
	case n > 0:
		r.keep(Row{What: Sent, Bytes: p[:n]})
	case err == nil && len(p) > 0:
		r.keep(Row{What: Full})
	}
	if err != nil {
		r.keep(Row{What: Gone, Bytes: []byte(err.Error())})
	}
	return n, err
}

// Wait waits, and keeps what happened.
func (r *Recorder) Wait(until time.Time) drive.Event {
	e := r.world.Wait(until)
	r.look()
	switch e.Kind {
	case drive.Nothing:
		r.keep(Row{What: Woke})
	case drive.Heard:
		if len(e.Bytes) == 0 {
			r.keep(Row{What: Woke})
		} else {
			r.keep(Row{What: Heard, Bytes: e.Bytes})
		}
	case drive.Asked:
		r.keep(Row{What: Asked, Request: e.Request})
	case drive.Gone:
		r.keep(Row{What: Gone, Bytes: fmt.Append(nil, e.Err)})
	case drive.Slept:
		r.keep(Row{What: Slept, Slept: e.Duration})
	}
	return e
}

// Moves passes on whether something moves.
func (r *Recorder) Moves(moving bool) {
	if m, ok := r.world.(drive.Minder); ok {
		m.Moves(moving)
	}
}

// keep adds a row.
func (r *Recorder) keep(row Row) {
	if r.Done() {
		return
	}
	row.At = r.since()
	r.last = row.At
	text := row.text()
	if r.size += len(text); r.size > MostKept {
		r.ended = tooMuch
		return
	}
	k := len(r.blocks) - 1
	if k < 0 || len(r.blocks[k])+len(text) > cap(r.blocks[k]) {
		r.blocks = append(r.blocks, make([]byte, 0, max(blockSize, len(text))))
		k++
	}
	r.blocks[k] = append(r.blocks[k], text...)
}

// Over keeps no more.
func (r *Recorder) Over() { r.over = true }

// Done tells whether no more is kept.
func (r *Recorder) Done() bool { return r.over || r.ended != "" }

// Full tells whether there was more than the record holds.
func (r *Recorder) Full() bool { return r.ended == tooMuch }

// Save writes the record. The error is the writer's.
func (r *Recorder) Save(to io.Writer, h Head) error {
	if _, err := to.Write(h.text()); err != nil {
		return err
	}
	for _, b := range r.blocks {
		if _, err := to.Write(b); err != nil {
			return err
		}
	}
	_, err := io.WriteString(to, Row{At: r.last, What: Ending, Bytes: []byte(r.ended)}.text())
	return err
}
