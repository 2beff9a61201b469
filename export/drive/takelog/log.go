package takelog

import "io"

// Take is one pass as the log tells it.
type Take struct {
	Number int // among those that are virtual, or those that are not
	Begin  Record
	End    Record // its Outcome is Cut when the log says no more of it
	Cut    bool   // the pass began and nothing is told of its end
	Frames int64  // of one frame by frame: how many are exposed, those of the take that it goes on with too
	Marks
}

// Marks are what was said of a take besides how it went.
type Marks struct {
	Keep  bool
	Why   string // it is of no use; "" = it is not rejected. No take is both
	Clip  string // what the camera calls its recording; "" = not known
	Notes []string
	Late  map[string]float64 // s by which each hand was seen late; nil = not told
	Sync  Sync               // what is known of its sync marks
	Film  *Film              // what was filmed of it; nil = nobody has looked, or it has another clip
}

// Cut is the outcome of a pass whose end is not told: the program was killed,
// or power was lost.
const Cut = "cut short"

// Virtual tells whether a rig made of software ran the pass.
func (t Take) Virtual() bool { return t.Begin.Virtual }

func begun(r Record) Take {
	return Take{Number: r.Take, Begin: r, Frames: r.Frames, Cut: true, End: Record{Outcome: Cut}}
}

// FrameByFrame tells whether it was taken frame by frame.
func (t Take) FrameByFrame() bool { return t.Begin.Of > 0 || t.Frames > 0 }

// tell adds what a record says of the take.
func (t *Take) tell(r Record) {
	switch r.Kind {
	case Ended:
		t.End, t.Cut, t.Frames = r, false, r.Frames
	case Exposed:
		t.Frames = r.Frames
	case Keeper:
		t.Keep, t.Why = r.Keep, ""
	case Refused:
		t.Keep, t.Why = false, r.Why
	case Clipped:
		if t.Clip = r.Clip; t.Film != nil && t.Film.File != r.Clip {
			t.Film = nil
		}
	case Filmed:
		if r.Film != nil {
			t.Keep, t.Why, t.Clip, t.Film = true, "", r.Film.File, r.Film
		}
	case Noted:
		t.Notes = append(t.Notes, r.Note)
	case Synced, Sighted:
		t.Sync.tell(r)
	case Timed:
		if t.Late == nil {
			t.Late = map[string]float64{}
		}
		t.Late[r.Hand] = r.Late
	}
}

// Log is a whole log. But for the takes that it holds it is small, however long
// the log. What it says of the last take, of numbers and of where the rig stands is
// of takes on a rig of metal, which virtual ones change nothing of.
type Log struct {
	Takes   []Take // those that are held, in the order they began
	Count   int    // how many there are
	Virtual int    // how many of them are virtual
	Torn    int    // lines that are no record: what a kill or a full disk left
	Known   bool   // whether position is known after the last line

	real, virtual         numbers
	last, lastVirtual     Take // their marks are not told
	lastAt, lastVirtualAt int  // where they stand
}

// Scan reads a log to its end, or to where it was cut, and holds none of its takes. The
// error is the reader's; lines that are no record are counted and passed over.
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
		return l.begin(r), true
	case Lost, Settled, Walked, WalkEnded:
		l.stands(r, r.Kind == Settled || r.Kind == WalkEnded && r.Known)
		return -1, true
	case Ended:
		l.stands(r, r.Known)
	case Keeper, Noted, Timed, Clipped, Refused, Synced, Sighted, Exposed, Filmed:
	default:
		return -1, false
	}
	last, lastAt := &l.last, l.lastAt
	if r.Virtual {
		last, lastAt = &l.lastVirtual, l.lastVirtualAt
	}
	if at, ok = l.numbers(r).at(r.Take); ok && at == lastAt && (r.Kind == Ended || r.Kind == Exposed) {
		last.tell(r)
	}
	return at, ok
}

// begin takes in that a take begins, and returns where it stands.
func (l *Log) begin(r Record) int {
	at := l.Count
	l.numbers(r).add(r.Take, at)
	l.Count++
	l.stands(r, false)
	if r.Virtual {
		l.Virtual++
		l.lastVirtual, l.lastVirtualAt = begun(r), at
	} else {
		l.last, l.lastAt = begun(r), at
	}
	return at
}

// stands takes in whether it is known where the rig stands, if there is one.
func (l *Log) stands(r Record, known bool) {
	if !r.Virtual {
		l.Known = known
	}
}

// numbers are those of the takes that a record is of.
func (l *Log) numbers(r Record) *numbers {
	if r.Virtual {
		return &l.virtual
	}
	return &l.real
}

// Real returns how many takes there are on a rig of metal.
func (l *Log) Real() int { return l.Count - l.Virtual }

// Has tells whether the log has a take of that number.
func (l *Log) Has(number int) bool {
	_, ok := l.real.at(number)
	return ok
}

// First returns the number of the take that began first, or 0.
func (l *Log) First() int { return l.real.first() }

// Last returns the number of the take that began last, or 0.
func (l *Log) Last() int { return l.last.Number }

// Next returns the number for the next take: one above the highest so far.
func (l *Log) Next() int { return l.real.highest + 1 }

// NextVirtual returns the number for the next virtual take.
func (l *Log) NextVirtual() int { return l.virtual.highest + 1 }

// LastTake returns the take that began last, virtual or not, if there is one. Its marks are
// not told.
func (l *Log) LastTake(virtual bool) (Take, bool) {
	if virtual {
		return l.lastVirtual, l.Virtual > 0
	}
	return l.last, l.Real() > 0
}

// LastCut returns the pass that the log breaks off in, if it does.
func (l *Log) LastCut() (Take, bool) {
	if !l.last.Cut {
		return Take{}, false
	}
	return l.last, true
}

// numbers are the numbers of the takes of a log, of those on a rig of metal or of the
// virtual ones. Mostly each is one more than the one before and stands right after
// it, so that they are a few runs.
type numbers struct {
	runs    []run
	highest int
}

// run is takes whose numbers follow each other: number lo stands at place, and so
// on, n of them.
type run struct{ lo, n, place int }

// add says that a take has a number, and where it stands.
func (s *numbers) add(number, place int) {
	s.highest = max(s.highest, number)
	if k := len(s.runs) - 1; k >= 0 && number == s.runs[k].lo+s.runs[k].n && place == s.runs[k].place+s.runs[k].n {
		s.runs[k].n++
		return
	}
	s.runs = append(s.runs, run{number, 1, place})
}

// at returns where the last take of a number stands.
func (s *numbers) at(number int) (place int, ok bool) {
	for k := len(s.runs) - 1; k >= 0; k-- {
		if r := s.runs[k]; number >= r.lo && number < r.lo+r.n {
			return r.place + number - r.lo, true
		}
	}
	return -1, false
}

func (s *numbers) first() int {
	if len(s.runs) == 0 {
		return 0
	}
	return s.runs[0].lo
}
