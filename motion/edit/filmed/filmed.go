// Package filmed tells which frames of a camera's own file are a take: which whole frames of it
// are kept, and what they are called by its timecode.
//
// Frames are those of the file and count from 0. Where frame 0 of a plan is found between two of
// them, the nearer is taken, and what is left over is told.
package filmed

import (
	"fmt"
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/spec/shot"
)

// By is what told where frame 0 is.
type By string

// What may tell it.
const (
	Nothing   By = ""        // it is not known
	ByPicture By = "picture" // the course of the picture
	ByTimes   By = "times"   // the times at which the picture changes
	ByMark    By = "mark"    // the sync mark
	ByHand    By = "hand"    // a person who has looked
)

// Film is a camera's file that a person has said to be a take.
type Film struct {
	File     string    // without its folders
	Rate     exact.Rat // frames a second as the file has them; 0 where it tells none, as stills
	Timecode string    // of its first frame, as the file has it; "" for none
	Frames   int64     // that it has
	Zero     float64   // the frame at which frame 0 of the plan begins, a fraction
	Sure     float64   // its standard uncertainty (JCGM 100), frames
	By       By        // what told Zero; Nothing where it is not known
	Late     float64   // frames by which the kept round begins later than its plan beside frame 0; 0 where nothing tells it
	Longer   float64   // frames that it lasts longer than planned; 0 where nothing tells it
	Trusted  bool      // a person has said that By counts, whatever the other says
	Round    int64     // of the take that is kept, from 0
	In       int64     // the first frame that is kept
	Out      int64     // the seam: the first frame after them
	Verdict  string    // what it is beside its plan, in a word
	Apart    float64   // px: the most that it is apart from that; 0 where that is not known
	Still    string    // the file of frame In, where it is stills
	Loop     Loop      // its own best loop as long as the plan's
	Hands    []string  // how each hand was in the round that is kept: "bead late by 4 frames"
}

// Loop is the best loop that a file has; of no frames where there is none.
type Loop struct {
	From, Frames int64
	Unseen       bool // its seam is not seen
	AsGood       bool // the loop that is kept is as good as it
}

// Known tells whether its frame 0 is.
func (f Film) Known() bool { return f.By != Nothing }

// Rounded is how many frames the whole frame In lies after the one that was found: from -1/2 to
// 1/2, so that a positive one begins late.
func (f Film) Rounded(all int64) float64 {
	return float64(f.In) - (f.Zero + float64(f.Round*all) + f.Late)
}

// Run is how a round of a take went, beside its frame 0.
type Run struct {
	Late   float64 // frames by which it began late
	Longer float64 // that it took longer than planned
}

// Keep chooses what is kept of a take of so many rounds, each of so many frames of which so many
// are shown: the round in the middle or, where the file does not hold that, the one that is
// nearest to it. How a round went, run tells. The error says that it holds none.
func (f Film) Keep(rounds, all, shown int64, run func(round int64) Run) (Film, error) {
	middle := shot.KeptRound(rounds)
	for apart := range rounds + 1 {
		for _, round := range []int64{middle - apart, middle + apart} {
			if round < 0 || round >= rounds {
				continue
			}
			r := run(round)
			f.Round, f.Late, f.Longer = round, r.Late, r.Longer
			f.In = int64(math.Floor(f.Zero + float64(round*all) + r.Late + halfFrame))
			if f.Out = f.In + shown; f.In >= 0 && f.Out <= f.Frames {
				return f, nil
			}
		}
	}
	return f, fmt.Errorf("%s holds no whole round: it has %d frames, frame 0 of the plan is at %.1f, and a loop takes %d", f.File, f.Frames, f.Zero, shown)
}

// From keeps the loop of so many frames that begins with a frame which a person has chosen, of the
// round in which that is. The error says that the file, or the take, does not hold it.
func (f Film) From(in, rounds, all, shown int64, run func(round int64) Run) (Film, error) {
	round := min(max(int64(math.Floor((float64(in)-f.Zero)/float64(all)+halfFrame)), 0), rounds-1)
	r := run(round)
	f.Round, f.Late, f.Longer, f.In, f.Out = round, r.Late, r.Longer, in, in+shown
	if !f.Holds(rounds, shown) {
		return f, fmt.Errorf("%s has %d frames, and a loop of %d that begins with frame %d is not in it", f.File, f.Frames, shown, in)
	}
	return f, nil
}

// Holds tells whether what is kept is so many frames of a take of so many rounds, and in the file:
// a log may have been written by anybody.
func (f Film) Holds(rounds, shown int64) bool {
	return f.Round >= 0 && f.Round < rounds && f.In >= 0 && f.Out == f.In+shown && f.Out <= f.Frames && f.Frames <= clock.MaxFrames
}

// Offset is by how many frames the file is ahead of a take whose frame 0 of the first round is
// its own frame zero: what is frame n there is frame n + Offset of the file.
func (f Film) Offset(zero, all int64) int64 { return f.In - zero - f.Round*all }

// Labels count as the file's own timecode does, and from are the labels before its first frame.
// What is told of a file without timecode or rate, or of a timecode that its rate does not have,
// is an error that says so.
func (f Film) Labels() (tc clock.Timecode, from int64, err error) {
	switch {
	case f.Timecode == "":
		return tc, 0, fmt.Errorf("%s has no timecode", f.File)
	case f.Rate.Sign() <= 0:
		return tc, 0, fmt.Errorf("%s does not say how many frames its timecode %s counts a second", f.File, f.Timecode)
	}
	if tc, err = clock.NewTimecode(f.Rate, dropped(f.Timecode)); err == nil {
		from, err = tc.Parse(f.Timecode)
	}
	if err != nil {
		return tc, 0, fmt.Errorf("the timecode %s of %s is not used: %w", f.Timecode, f.File, err)
	}
	return tc, from, nil
}

// dropped tells whether a label is one that leaves labels out: it has a semicolon before its
// frames (SMPTE ST 12-1:2014, DOI 10.5594/SMPTE.ST12-1.2014).
func dropped(label string) bool {
	for n := len(label) - 1; n >= 0; n-- {
		switch label[n] {
		case ';':
			return true
		case ':':
			return false
		}
	}
	return false
}

// Label is the timecode of a frame of the file; "" where it has none.
func (f Film) Label(frame int64) string {
	tc, from, err := f.Labels()
	if err != nil {
		return ""
	}
	return tc.Label(from + frame)
}

// Start is how many frames its first is from 0 in the count of its timecode; 0 where it has none.
func (f Film) Start() int64 {
	_, from, err := f.Labels()
	if err != nil {
		return 0
	}
	return from
}

// fastest is the greatest rate whose labels are counted alike everywhere, frames a second: beyond,
// what a camera writes into them is its own custom (SMPTE ST 12-1 counts up to 60 by frame pairs;
// common practice).
const fastest = 60

// Custom tells that the file's labels count faster than is agreed on.
func (f Film) Custom() bool { return f.Timecode != "" && exact.Int(fastest).Less(f.Rate) }

// sigmas are the standard uncertainties within which two values that agree lie: all but one of
// twenty (JCGM 100, 6.2).
const sigmas = 2

// ApartFrom tells whether a sync mark has frame 0 elsewhere than the picture, by more than both may be
// out: the mark by so much either way. By frames is the mark's less the picture's.
func (f Film) ApartFrom(mark, out float64) (by float64, apart bool) {
	by = mark - f.Zero
	return by, math.Abs(by) > out+sigmas*f.Sure
}
