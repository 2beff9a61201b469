package takelog

import (
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

func begun(r Record) Take {
	return Take{Number: r.Take, Begin: r, Cut: true, End: Record{Outcome: Cut}}
}

// tell adds what a record says of the take.
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

// Log is a whole log. But for the takes that it holds it is small, however long
// the log.
type Log struct {
	Takes []Take // those that are held, in the order they began
	Count int    // how many there are
	Torn  int    // lines that are no record: what a kill or a full disk left
	Known bool   // whether position is known after the last line

	numbers numbers
	last    Take // of all; its marks are not told
}

// Read reads a log to its end, or to where it was cut, and holds all takes. The
// error is the reader's; lines that are no record are counted and passed over.
func Read(r io.Reader) (Log, error) {
	var l Log
	err := l.read(r, func(at int, rec Record) {
		if rec.Kind == Begun {
			l.Takes = append(l.Takes, begun(rec))
		} else {
			l.Takes[at].tell(rec)
		}
	})
	return l, err
}

// Scan reads a log and holds none of its takes.
func Scan(r io.Reader) (Log, error) {
	var l Log
	err := l.read(r, func(int, Record) {})
	return l, err
}

// read passes each record that is of a take on, with where that take stands.
func (l *Log) read(r io.Reader, of func(at int, rec Record)) error {
	return records(r, func(rec Record, ok bool) {
		at := -1
		if ok {
			at, ok = l.add(rec)
		}
		switch {
		case !ok:
			l.Torn++
			l.Known = false // it may have said so
		case at >= 0:
			of(at, rec)
		}
	})
}

// add takes in one record. It returns where the take stands that it is of, or -1,
// and whether it makes sense.
func (l *Log) add(r Record) (at int, ok bool) {
	switch r.Kind {
	case Begun:
		l.Known, l.last = false, begun(r)
		l.numbers.add(r.Take, l.Count)
		l.Count++
		return l.Count - 1, true
	case Lost, Settled:
		l.Known = r.Kind == Settled
		return -1, true
	case Ended:
		l.Known = r.Known
	case Keeper, Noted, Timed:
	default:
		return -1, false
	}
	if at, ok = l.numbers.at(r.Take); ok && at == l.Count-1 && r.Kind == Ended {
		l.last.tell(r)
	}
	return at, ok
}

// Has tells whether the log has a take of that number.
func (l *Log) Has(number int) bool {
	_, ok := l.numbers.at(number)
	return ok
}

// First returns the number of the take that began first, or 0.
func (l *Log) First() int { return l.numbers.first() }

// Last returns the number of the take that began last, or 0.
func (l *Log) Last() int { return l.last.Number }

// Next returns the number for the next take: one above the highest so far.
func (l *Log) Next() int { return l.numbers.highest + 1 }

// LastCut returns the pass that the log breaks off in, if it does.
func (l *Log) LastCut() (Take, bool) {
	if !l.last.Cut {
		return Take{}, false
	}
	return l.last, true
}
