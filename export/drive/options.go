package drive

import (
	"time"

	"seamrail/export/drive/takelog"
	"seamrail/motion/base/exact"
	"seamrail/motion/controller/program"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// Source makes the lines of one take. A *program.Program is one, and its lines go to the
// wire as it makes them.
type Source interface {
	// Next returns the next line, or false at the end or on an error. The last
	// line takes no time, and its Round is the number of rounds there were.
	Next() (program.Line, bool)
	// Err returns why there are no more lines before the end.
	Err() error
	// FinishAfter ends the take after so many rounds, or later if more have
	// begun.
	FinishAfter(rounds int64)
}

// Settling is how position becomes known.
type Settling int

// The ways to know it.
const (
	AskOperator Settling = iota // wait for a Home or a Here
	ByHoming                    // home at once
	ByHand                      // the operator has said beforehand that it stands at the start
	AsBefore                    // nothing has moved since a run on the same wire that left it at Options.At
)

// Log is where passes are told to. *takelog.Writer is one.
type Log interface {
	Add(r takelog.Record) error
}

// Options says what to drive and how.
type Options struct {
	Trajectory *trajectory.Trajectory
	Source     func() Source // a new program of the take; a step player needs none
	Observer   Observer
	Log        Log
	Virtual    bool   // the rig is made of software, which the log tells
	Shot, Plan string // file of the shot and hash of the plan, for the log
	Group      string // of takes that must match; every axis then comes to the start from one side
	Pass       string // what of the group the takes are
	Driver     string // who drives, for the log; "" for nobody that is named

	// Foretold returns how many s of motion the controller is expected to make of
	// a take of so many rounds; nil = not known, and its motion may then be as late as
	// that of a pass at all.
	Foretold func(rounds int64) float64

	// Frames is how a shot is taken frame by frame; nil where the camera runs. FromFrame
	// is the frame that the first take begins with, and Nobody says that no hand tells
	// of frames that they are taken.
	Frames    *stepwise.Schedule
	FromFrame int64
	Nobody    bool

	Rounds    int64 // rounds in a pass; 0 = until asked to finish
	Takes     int   // passes to run without being asked for each; 0 = ask for each
	FirstTake int   // number of the first take; 0 = 1
	Settle    Settling
	At        []float64 // of AsBefore: where each axis of the plan stands, mm or degrees
	Confirmed bool      // the cautions are known: do not wait for a Confirm
	CountIn   int       // beats of a second before the motion; 0 = none
	// Beats begins the beats of a take of so many rounds, in order of time, and
	// Call is told each when it is due. A nil one means that nobody is counted to.
	Beats  func(rounds int64) (next func() (Beat, bool), stop func())
	Call   func(Beat)
	Shifts map[string]float64 // s by which each hand is told earlier than its cue says, for the log
	Sync   *SyncMark          // the sync mark of each take; nil = none
	// Outputs are those of the rig that takes switch: each is asked for once position
	// is known, before a take moves.
	Outputs []rig.Output
	Unlock  bool // clear an alarm found at the start without being asked

	// Way returns in which order the axes go from one place to another, one at a time,
	// and what is to be said of that; an error where they must not. Nil = in the order
	// of the plan.
	Way  func(from, to []float64) (axes []int, words string, err error)
	Walk *Walk // what the take is, where it is none but a walk through the plan
}

// job is the options with what follows from them.
type job struct {
	Options
	controller rig.Controller
	axes       []rig.Axis // of the plan
	start      []float64  // where a take begins
	period     float64    // s of a round
	runUp      float64    // s from rest to frame 0
	runOut     float64
}

func newJob(o Options) *job {
	t := o.Trajectory
	up, out := t.RampTimes()
	j := &job{
		Options: o, controller: t.Rig().Controller, period: t.Period().Float(),
		runUp: up.Float(), runOut: out.Float(),
	}
	j.FirstTake = max(o.FirstTake, 1)
	if o.Settle == AsBefore {
		j.controller.ResetsOnOpen = false // the port is open already
	}
	for i := range t.AxisCount() {
		j.axes = append(j.axes, t.Axis(i))
		j.start = append(j.start, t.TakeState(i, 1, -j.runUp).Pos)
	}
	if o.Frames != nil {
		j.start = o.Frames.Places(0)
	}
	return j
}

// endless stands for the rounds of a take that goes on until asked: a loop of
// a second runs for thirty thousand years.
const endless = 1e12

// planned returns the seconds of motion in a take of so many rounds.
func (j *job) planned(rounds int64) float64 {
	return j.runUp + float64(rounds)*j.period + j.runOut
}

// foretold returns the seconds of motion that are expected of so many rounds.
func (j *job) foretold(rounds int64) float64 {
	if j.Foretold == nil {
		return j.planned(rounds)
	}
	return j.Foretold(rounds)
}

// planAt returns where the plan has axis i, sec from frame 0 of a take of so many
// rounds.
func (j *job) planAt(i int, rounds int64, sec float64) float64 {
	return j.Trajectory.TakeState(i, rounds, sec).Pos
}

// label returns the timecode of a captured frame of the loop.
func (j *job) label(frame int64) string {
	return j.Trajectory.Label(exact.Int(frame).Quo(j.Trajectory.Clock().PerScreen()).Floor().Whole())
}

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
	Rounds    int64         // of the take; 0 = until asked to finish
	Frame     int64         // captured frame within the loop
	Back      bool          // on the way back of a loop that is cut, which is not shown
	Elapsed   time.Duration // from frame 0 of the take; below 0 in the run-up
	Share     float64       // 0..1 of the take, or of the round when it has no end
	Taken, Of int64         // of a take frame by frame: frames exposed, and in all
	Left      time.Duration // of it: until its last frame is exposed; 0 = not known
	Timecode  string        // label of the timeline frame
	Position  []float64     // mm or degrees, as reported, or as planned while Reported is false
	Reported  bool
	Deviation []float64 // mm or degrees from the plan, as far as the time of the report leaves no doubt
	Late      float64   // s that it is known to be behind the plan
	Fill      float64   // 0..1 of what the controller can hold and we have sent
	Ahead     float64   // s of motion that it has been sent, and has not carried out yet
	Seen      Sighting  // where it was at one instant, and where the plan has it then
	Next      *Coming   // the beat of a hand that is told next; nil = there is none
}

// Pass is one pass that has ended.
type Pass struct {
	Take     int
	Rounds   int64 // rounds begun
	Frames   int64 // of a take frame by frame: exposed, those of the take that it goes on with too
	Of       int64 // of it: frames that it was to expose
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
	Walk        bool      // it was no take but a walk through the plan
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
