package trajectory

// mark is one step of a round.
type mark struct {
	at  float64 // s from the start of the round, or of the ramp
	dir int64
}

// maxMarks bounds the memory of a memo to 16 MB an axis; a longer round is
// solved anew each time.
const maxMarks = 1 << 20

// memo holds the steps of round 0 of an axis that ends each round on the step
// it began on, so that later rounds need no solving.
type memo struct {
	usable bool // every round is the same, and none has proved too long
	marks  []mark
	next   int // mark to play; done when past the last
}

func newMemo(usable bool) memo { return memo{usable: usable, next: maxMarks} }

// note keeps a step of round 0.
func (m *memo) note(k mark) {
	if len(m.marks) == maxMarks {
		*m = newMemo(false)
		return
	}
	m.marks = append(m.marks, k)
}

// playing tells whether a round is being played and has steps left.
func (m *memo) playing() bool { return m.next < len(m.marks) }
