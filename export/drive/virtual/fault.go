package virtual

import (
	"cmp"
	"slices"
	"time"
)

// FaultKind is a way in which things go wrong.
type FaultKind int

// The kinds of fault. Those with a moment strike At; those with a number, at
// the Nth ok or line, from 1.
const (
	LoseOK      FaultKind = iota // the Nth ok is not sent
	DoubleOK                     // the Nth ok is sent twice
	RefuseLine                   // the Nth line is answered with error Value
	Garble                       // At, Text is sent in the middle of things
	FallSilent                   // from At on, nothing is sent and nothing read
	TripAlarm                    // At, an alarm of number Value stops everything
	Restart                      // At, the board starts anew, as from a drop in power
	Vanish                       // At, the wire is gone
	VanishAfter                  // the wire is gone when Nth bytes have been put on it
	ShortWrites                  // from At on, at most Value bytes are taken at once
	SlowLink                     // from At on, the wire carries Value bits a second
	SleepHost                    // At, the host sleeps For; the board does not
)

// Fault is one thing that goes wrong.
type Fault struct {
	Kind  FaultKind
	At    time.Duration // since the board was powered
	Nth   int64
	Value int
	Text  string
	For   time.Duration
}

// mishaps keeps the faults that are still to come.
type mishaps struct {
	timed   []Fault // by At
	counted []Fault
	oks     int64
	lines   int64
}

func newMishaps(faults []Fault) mishaps {
	var m mishaps
	for _, f := range faults {
		switch f.Kind {
		case LoseOK, DoubleOK, RefuseLine, VanishAfter:
			m.counted = append(m.counted, f)
		default:
			m.timed = append(m.timed, f)
		}
	}
	slices.SortStableFunc(m.timed, func(a, b Fault) int { return cmp.Compare(a.At, b.At) })
	return m
}

// next returns when the next timed fault strikes, or never.
func (m *mishaps) next() instant {
	if len(m.timed) == 0 {
		return never
	}
	return fromDuration(m.timed[0].At)
}

// strikes returns the fault of a kind at count n, if there is one.
func (m *mishaps) strikes(kind FaultKind, n int64) (Fault, bool) {
	for _, f := range m.counted {
		if f.Kind == kind && f.Nth == n {
			return f, true
		}
	}
	return Fault{}, false
}

// strike lets the next timed fault happen.
func (r *Rig) strike() {
	f := r.mishaps.timed[0]
	r.mishaps.timed = r.mishaps.timed[1:]
	switch f.Kind {
	case Garble:
		r.send(f.Text)
	case FallSilent:
		r.silent = true
	case TripAlarm:
		r.alarm(f.Value)
	case Restart:
		r.reboot()
	case Vanish:
		r.vanish()
	case ShortWrites:
		r.most = f.Value
	case SlowLink:
		r.in.pace(f.Value)
		r.out.pace(f.Value)
	case SleepHost:
		r.asleep = max(r.asleep, r.now+fromDuration(f.For))
		r.slept += f.For
	}
}

// vanish takes the wire away. What the board holds, it goes on doing.
func (r *Rig) vanish() {
	r.gone = true
	r.in.clear()
	r.out.clear()
}
