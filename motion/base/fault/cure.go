package fault

// Edit is one value of a file and what is to be written there, as it is typed.
type Edit struct{ Path, Text string }

// Cure is what would do in place of what is there, each by itself.
type Cure struct {
	Words string
	// Edits make it of the shot's file, and were tried. Without any it is for a hand.
	Edits []Edit
	Costs string // what it makes worse, as words that follow; "" for nothing
}

// String is a cure with what it costs.
func (c Cure) String() string { return c.Words + c.Costs }

// ByHand tells whether no file can have it.
func (c Cure) ByHand() bool { return len(c.Edits) == 0 }

// Cures are several of them, the best first.
type Cures []Cure

// Words are all of them in words.
func (l Cures) Words() []string {
	out := make([]string, len(l))
	for i, c := range l {
		out[i] = c.String()
	}
	return out
}
