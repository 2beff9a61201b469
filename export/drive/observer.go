package drive

import "time"

// Observer is told what happens, as it happens, from within Run. It must not
// block: the wire waits for it.
type Observer interface {
	// Enter is told each state as it is entered.
	Enter(s State)
	// Say is told what the operator should read, in plain words.
	Say(text string)
	// Count is told the beats left before the motion begins, the last being 0,
	// when it does.
	Count(left int)
	// Progress is told now and then where the take is.
	Progress(p Progress)
	// Marked answers a Mark request: where each axis of the plan stands, in mm
	// or degrees.
	Marked(name string, at []float64)
	// Passed is told each pass when it has ended.
	Passed(p Pass)
}

// Progress is where a take is.
type Progress struct {
	State     State
	Take      int
	Round     int64         // from 0; -1 in the run-up
	Frame     int64         // captured frame within the loop
	Back      bool          // on the way back of a loop that is cut, which is not shown
	Elapsed   time.Duration // from frame 0 of the take; below 0 in the run-up
	Share     float64       // 0..1 of the take, or of the round when it has no end
	Timecode  string        // label of the timeline frame
	Position  []float64     // mm or degrees, as reported, or as planned while Reported is false
	Reported  bool
	Deviation []float64 // mm or degrees from the plan, as far as the time of the report leaves no doubt
	Late      float64   // s that it is known to be behind the plan
	Fill      float64   // 0..1 of what the controller can hold and we have sent
}

// Pass is one pass that has ended.
type Pass struct {
	Take     int
	Rounds   int64 // rounds begun
	Began    time.Time
	Ended    time.Time
	Planned  float64 // s of motion, from the plan; without a pause
	Executed float64 // s of motion as measured; 0 when it did not end by itself
	Foretold float64 // s of motion that the controller was expected to take
	// RoundForetold is that of each round but the first.
	RoundForetold float64
	// Uncertainty is how far Executed may be out either way, s: what lies between
	// the answers that bracket either end of the motion, and by how much answers
	// were seen to differ in how long they take.
	Uncertainty float64
	Worst       []float64 // deviation from the plan, mm or degrees, as reports show; nil = none did
	Held        bool      // was held on the way: frames and motion no longer agree
	Laps        []Lap     // those observed without anything on the wire before them
	End         End
	Detail      string
}

// Lap is the beginning of a round within a pass as it was observed: the answer
// to its first line, which comes the same time before its motion in every round.
type Lap struct {
	Round   int64
	Seconds float64 // from frame 0, as the engine took it at the beginning
}
