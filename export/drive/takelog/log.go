package takelog

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"time"
)

// Take is one pass as the log tells it.
type Take struct {
	Number int
	Begin  Record
	End    Record // its Outcome is Cut when the log says no more of it
	Keep   bool
	Notes  []string
	Late   map[string]float64 // s by which each hand was seen late; nil = not told
	Cut    bool               // the pass began and nothing is told of its end
}

// Cut is the outcome of a pass whose end is not told: the program was killed,
// or power was lost.
const Cut = "cut short"

// Took returns how long the take lasted, on the wall, or 0 when it was cut.
func (t Take) Took() time.Duration {
	if t.Cut {
		return 0
	}
	return t.End.Time.Sub(t.Begin.Time)
}

// Log is a whole log.
type Log struct {
	Takes []Take // in the order they began
	Torn  int    // lines that are no record: what a kill or a full disk left
	Known bool   // whether position is known after the last line
}

// Read reads a log to its end, or to where it was cut. The error is the
// reader's; lines that are no record are counted and passed over.
func Read(r io.Reader) (Log, error) {
	text, err := io.ReadAll(r)
	if err != nil {
		return Log{}, fmt.Errorf("reading the take log: %w", err)
	}
	var l Log
	for line := range bytes.Lines(text) {
		if len(bytes.TrimSpace(line)) == 0 {
			continue
		}
		var rec Record
		if json.Unmarshal(line, &rec) != nil || !l.add(rec) {
			l.Torn++
			l.Known = false // it may have said so
		}
	}
	return l, nil
}

// add takes in one record, and tells whether it makes sense.
func (l *Log) add(r Record) bool {
	switch r.Kind {
	case Begun:
		l.Known = false
		l.Takes = append(l.Takes, Take{Number: r.Take, Begin: r, Cut: true, End: Record{Outcome: Cut}})
		return true
	case Lost, Settled:
		l.Known = r.Kind == Settled
		return true
	case Ended:
		l.Known = r.Known
	case Keeper, Noted, Timed:
	default:
		return false
	}
	t := l.take(r.Take)
	if t == nil {
		return false
	}
	t.tell(r)
	return true
}

func (t *Take) tell(r Record) {
	switch r.Kind {
	case Ended:
		t.End, t.Cut = r, false
	case Keeper:
		t.Keep = r.Keep
	case Noted:
		t.Notes = append(t.Notes, r.Note)
	case Timed:
		if t.Late == nil {
			t.Late = map[string]float64{}
		}
		t.Late[r.Hand] = r.Late
	}
}

// take returns the last take of that number, or nil.
func (l *Log) take(number int) *Take {
	for i := len(l.Takes) - 1; i >= 0; i-- {
		if l.Takes[i].Number == number {
			return &l.Takes[i]
		}
	}
	return nil
}

// Has tells whether the log has a take of that number.
func (l *Log) Has(number int) bool { return l.take(number) != nil }

// Next returns the number for the next take: one above the highest so far.
func (l *Log) Next() int {
	highest := 0
	for _, t := range l.Takes {
		highest = max(highest, t.Number)
	}
	return highest + 1
}

// LastCut returns the pass that the log breaks off in, if it does.
func (l *Log) LastCut() (Take, bool) {
	n := len(l.Takes)
	if n == 0 || !l.Takes[n-1].Cut {
		return Take{}, false
	}
	return l.Takes[n-1], true
}
