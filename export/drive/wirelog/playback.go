package wirelog

import (
	"bytes"
	"errors"
	"fmt"
	"time"

	"seamrail/export/drive"
)

// Slack is how much later than in the record the host may send what it sent then. The
// same program sends it at the same microsecond; one that was changed may take a few
// milliseconds' wait more, and a controller gives it that: its answers then come as much
// later. Half the shortest second that anything is waited for in a take.
const Slack = 50 * time.Millisecond

// Playback is a World that is a record: a controller which answers as it did then, as long
// as it is told what it was told.
type Playback struct {
	record Record
	next   int // row
	begun  int // bytes of it that have been sent
	now    time.Time
	opened time.Time
	lag    time.Duration // of the host behind the record
	fault  error
}

// NewPlayback returns the world of a record that begins at a time.
func NewPlayback(r Record, at time.Time) *Playback {
	return &Playback{record: r, now: at, opened: at}
}

// errOver is what a wire is gone of that has no more to play.
var errOver = errors.New("the record of the wire is over")

// Now is the time of the record, and what the host is behind it.
func (p *Playback) Now() time.Time { return p.now }

// at is when a row happens.
func (p *Playback) at(r Row) time.Time { return p.opened.Add(r.At + p.lag) }

// row is the one that is to come.
func (p *Playback) row() Row { return p.record.Rows[p.next] }

// Write takes the bytes that were sent then. Others end it.
func (p *Playback) Write(b []byte) (int, error) {
	taken := 0
	for p.fault == nil && taken < len(b) {
		r := p.row()
		switch {
		case r.What == Full:
			if taken == 0 {
				p.next++
			}
			return taken, nil
		case r.What == Gone:
			return taken, errors.New(string(r.Bytes))
		case r.What != Sent:
			if taken > 0 {
				return taken, nil
			}
			p.fail(r, "the host sends \"%s\", and in the record it sent nothing before %s", escaped(b), r.words())
			continue
		}
		taken += p.take(r, b[taken:])
	}
	if p.fault != nil {
		return taken, errOver
	}
	return taken, nil
}

// take takes bytes of a row, and returns how many.
func (p *Playback) take(r Row, b []byte) int {
	want := r.Bytes[p.begun:]
	n := min(len(b), len(want))
	if !bytes.Equal(b[:n], want[:n]) {
		p.fail(r, "the host sends \"%s\", and in the record it sent \"%s\"", escaped(b), escaped(want))
		return 0
	}
	if p.lag = max(p.lag, p.now.Sub(p.opened)-r.At); p.lag > Slack {
		p.fail(r, "the host sends \"%s\" %v later than in the record, and %v is the most", escaped(want), p.lag, Slack)
		return 0
	}
	if p.begun += n; p.begun == len(r.Bytes) {
		p.next, p.begun = p.next+1, 0
	}
	return n
}

// Wait returns what happened then.
func (p *Playback) Wait(until time.Time) drive.Event {
	for p.fault == nil {
		r := p.row()
		if r.What == Ending {
			if !p.record.Whole() {
				break
			}
			p.fail(r, "the host still waits, and in the record its run was over")
			break
		}
		if r.What == Sent || r.What == Full {
			if until.Sub(p.at(r)) > Slack {
				p.fail(r, "the host sends nothing for %v more, and in the record %s", Slack, r.words())
				break
			}
			p.pass(until)
			return drive.Event{}
		}
		if p.at(r).After(p.now) {
			p.now = p.at(r)
		}
		p.next++
		switch r.What {
		case Heard:
			return drive.Event{Kind: drive.Heard, Bytes: r.Bytes}
		case Asked:
			return drive.Event{Kind: drive.Asked, Request: r.Request}
		case Slept:
			return drive.Event{Kind: drive.Slept, Duration: r.Slept}
		case Gone:
			return drive.Event{Kind: drive.Gone, Err: errors.New(string(r.Bytes))}
		}
		if !p.now.Before(until) { // a wake of the host, unless it now wakes later
			return drive.Event{}
		}
	}
	p.pass(until)
	return drive.Event{Kind: drive.Gone, Err: errOver}
}

func (p *Playback) pass(until time.Time) {
	if until.After(p.now) {
		p.now = until
	}
}

// fail keeps the first thing that is not as in the record.
func (p *Playback) fail(r Row, format string, args ...any) {
	if p.fault == nil {
		p.fault = fmt.Errorf("line %d, %d us: %w", r.Line, r.At.Microseconds(), fmt.Errorf(format, args...))
	}
}

// words say what a row is.
func (r Row) words() string {
	switch r.What {
	case Sent:
		return `it sent "` + escaped(r.Bytes) + `"`
	case Heard:
		return `it heard "` + escaped(r.Bytes) + `"`
	case Full:
		return "the wire took nothing"
	case Asked:
		return "the operator asked for " + requested(r.Request)
	case Ending:
		return "the end"
	}
	return "something else happened"
}

// Done is called when the run is over. It is an error of the first thing that was not as
// in the record, or of traffic that is left over in it.
func (p *Playback) Done() error {
	if p.fault != nil {
		return p.fault
	}
	for _, r := range p.record.Rows[p.next:] {
		if r.What == Sent || r.What == Heard {
			left := r.Bytes
			if r.Line == p.row().Line {
				left = left[p.begun:]
			}
			p.fail(r, "the run is over, and in the record %s", Row{What: r.What, Bytes: left}.words())
			return p.fault
		}
	}
	return nil
}
