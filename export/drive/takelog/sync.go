package takelog

// Sync is what the log says of the sync marks of a take.
type Sync struct {
	Mark        string  // what made them; "" = none was made
	First, Out  float64 // s from frame 0 to the first, below 0, and how far that may be out
	Second      float64 // s from frame 0 to the second; 0 = there was none
	SecondOut   float64
	Saw         bool  // the first was seen
	Frame, Last int64 // frames of the recording in which they were seen; Last is 0 where the second was not
}

// tell takes in what a record says of them.
func (s *Sync) tell(r Record) {
	switch {
	case r.Kind == Sighted:
		s.Saw, s.Frame, s.Last = true, r.SawFirst, r.SawLast
	case r.Second:
		s.Mark, s.Second, s.SecondOut = r.Mark, r.MarkAt, r.MarkOut
	default:
		s.Mark, s.First, s.Out = r.Mark, r.MarkAt, r.MarkOut
	}
}
