package track

// Interval is a stretch of time, in seconds.
type Interval struct{ From, To float64 }

// Span is a stretch of time, in seconds, in which the axis goes one way:
// Dir is +1, -1, or 0 at rest.
type Span struct {
	From, To float64
	Dir      int
}
