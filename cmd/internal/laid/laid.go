// Package laid is what a recording that was looked through tells, beside the plan of its shot
// where there is one: the same for the command that looks through footage and for the page.
package laid

import (
	"context"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/rushes"
	"seamrail/export/report/footagereport"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/alike"
	"seamrail/motion/footage/brightness"
	"seamrail/motion/footage/intact"
	"seamrail/motion/footage/pace"
	"seamrail/motion/footage/turn"
)

// Asked is what is wanted otherwise than usual.
type Asked struct {
	Faces   int                         // how many sides of what turns look alike; 0 for the footage to tell
	Wide    int                         // recorded px of the part that was looked at; 0 for all of a frame
	Lengths func() (alike.Range, error) // of loops; nil for those of Lengths
}

// Found is what a take tells, beside p, the plan of j; j is nil where there is none. It ends with
// ctx where it searches.
func Found(ctx context.Context, take *rushes.Take, j *job.Job, p against.Plan, a Asked) (footagereport.Data, error) {
	d := footagereport.Data{Course: take.Course, First: take.First, Step: take.Step, Stills: take.Stills, Repeats: take.Repeats}
	for _, r := range take.Remarks {
		d.Remarks = append(d.Remarks, r.Text)
	}
	if take.Cut != nil {
		d.Cut = take.Cut.Error()
	}
	about := take.Course.About
	d.Whole = intact.Check(take.Course.Frames, float64(min(about.Width, about.Height))/2)
	if j != nil {
		if err := planned(&d, take, j, p); err != nil {
			return d, err
		}
	}
	pictured(ctx, &d, take, j, a.Faces)
	if j != nil {
		d.Hands = acted(d, take, j, a.Wide)
	}
	if a.Lengths == nil {
		a.Lengths = func() (alike.Range, error) { return Lengths(take, j), nil }
	}
	return d, loops(ctx, &d, take, a)
}

// planned is what it tells of its plan.
func planned(d *footagereport.Data, take *rushes.Take, j *job.Job, p against.Plan) error {
	d.Shot = j.Plan.Title
	for _, a := range p.Axes {
		d.Units = append(d.Units, unitOf(a))
	}
	beside, err := against.Lay(take.Course, p, rushes.GapsOf(d.Whole)...)
	if err != nil {
		return err
	}
	d.Plan = &beside
	if beside.Verdict.Kind == against.NotKnown {
		if paced, err := pace.Lay(take.Sketches, take.Course.Frames, p); err == nil {
			d.Pace = &paced
		}
	}
	if rates, err := intact.Compare(take.Course.About.Rate, j.Trajectory.Clock(), int64(len(take.Course.Frames))); err == nil {
		d.Rates = &rates
	}
	return nil
}

// pictured is what the frames tell by themselves: the light, what comes again. What a recording is too short for is left out.
func pictured(ctx context.Context, d *footagereport.Data, take *rushes.Take, j *job.Job, faces int) {
	rate := take.Course.About.Rate
	if j != nil {
		rate = j.Trajectory.Clock().Capture
	}
	if light, err := brightness.Measure(brightness.Question{Means: take.Sketches.Means, Rate: rate, Lamps: lampsOf(j)}); err == nil {
		d.Light, d.Foretold = &light, foretold(j)
	}
	if t, err := turn.Measure(ctx, take.Sketches, turn.Question{Rate: rate, Faces: faces}); err == nil {
		d.Turn = &t
	}
}

func unitOf(a against.Axis) string {
	if a.Turning {
		return "deg"
	}
	return "mm"
}

// loops looks for loops, and for whether all of it is one; a recording that is too short for any
// has none to tell of.
func loops(ctx context.Context, d *footagereport.Data, take *rushes.Take, a Asked) error {
	r, err := a.Lengths()
	if err != nil {
		return err
	}
	n := len(take.Course.Frames)
	if n >= r.Min && n <= r.Max {
		w, ok, err := take.Sketches.AsAWhole(ctx)
		if err != nil {
			return err
		}
		if ok {
			d.AsWhole = &w
		}
	}
	if r.Max = min(r.Max, n-1); r.Min > r.Max {
		return nil
	}
	d.Range = r
	found, err := alike.Best(ctx, take.Sketches, r)
	d.Loops = &found
	return err
}

// shortest and longest loop that are looked for where nothing is asked, s as the film plays: what
// is shorter is a flicker, and what is longer hardly anybody waits for to come round.
const shortest, longest = 1, 20

// Apart is how many frames loops must differ to be told apart: within a quarter of a second at 24
// a second one seam is as good as the next.
const Apart = 6

// Lengths are how long loops are that are usually looked for: as long as the plan's.
func Lengths(take *rushes.Take, j *job.Job) alike.Range {
	r := alike.Range{Apart: Apart}
	if j != nil {
		r.Min = int(j.Trajectory.RoundFrames())
		r.Max = r.Min
	} else {
		per := 24.0 // frames a second, where nobody says
		if rate := take.Course.About.Rate; rate.Sign() > 0 {
			per = rate.Float()
		}
		r.Min, r.Max = int(shortest*per), int(longest*per)
	}
	return r
}
