// Package footagereport reports what was filmed: what the recording is, whether it is the plan,
// and which loops are in it.
package footagereport

import (
	"fmt"
	"math"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/base/plain"
	"seamrail/motion/footage"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/alike"
	"seamrail/motion/footage/brightness"
	"seamrail/motion/footage/intact"
	"seamrail/motion/footage/pace"
	"seamrail/motion/footage/turn"
)

// Data is what there is to tell of one recording.
type Data struct {
	Course  footage.Course
	First   int      // the number of its first frame that was looked at
	Step    float64  // recorded pixels to one that was looked at
	Remarks []string // what is odd of the recording
	Cut     string   // why it ended before it should; "" where it did not
	Stills  []string // the file of each frame, where it is stills
	Shot    string   // the title of the shot; "" where there is none
	Plan    *against.Result
	Units   []string      // of each axis of the plan: "mm" or "deg"
	Loops   *alike.Found  // nil where none were looked for
	Range   alike.Range   // among which
	AsWhole *alike.Whole  // nil where all of it is no loop that was looked for
	Pace    *pace.Result  // nil where the course tells, or there is no shot
	Rates   *intact.Rates // nil without a shot, or a rate
	Whole   intact.Found
	Light   *brightness.Light // nil where there are too few frames
	Turn    *turn.Turn        // nil where nothing comes again
}

// Report tells it to people.
func (d Data) Report() report.Report {
	r := report.Report{Title: "What was filmed: " + d.Course.About.Name, Subtitle: d.Shot}
	r.Headline(d.headline())
	d.recording(&r)
	if d.Plan != nil {
		d.plan(&r)
		d.pace(&r)
	}
	if d.Loops != nil || d.AsWhole != nil {
		d.loops(&r)
	}
	d.comesAgain(&r)
	d.light(&r)
	return r
}

// headline is the verdict on the take beside its plan, or without one on its best loop.
func (d Data) headline() (tone report.Tone, stamp, text string) {
	if d.Plan != nil {
		return d.verdict()
	}
	switch {
	case d.AsWhole != nil && d.AsWhole.Unseen():
		return report.Good, "LOOPS", fmt.Sprintf("as it is: from frame %d to frame %d it goes on as it does anyway", d.last(), d.First)
	case d.Loops == nil || len(d.Loops.Runs) == 0:
		return report.Plain, "NO LOOP", "no two frames of it are far enough apart"
	case d.Loops.Any():
		best := d.Loops.Runs[0]
		return report.Good, "LOOPS", fmt.Sprintf("frames %d to %d, then %d again: the seam is not seen", d.at(best.First), d.at(best.Last()-1), d.at(best.First))
	}
	return report.Fair, "NO SEAM UNSEEN", "the best loop jumps by more than the take does anyway"
}

// verdict is that on the take beside its plan.
func (d Data) verdict() (tone report.Tone, stamp, text string) {
	if d.Pace != nil && d.Pace.Verdict.Kind != pace.NotKnown {
		return paceVerdict(d.Pace.Verdict)
	}
	tone, stamp = verdictOf(d.Plan.Verdict.Kind)
	text = strings.TrimPrefix(d.Plan.Verdict.Text, stamp+": ")
	if d.blind() {
		text = d.blindWords()
	}
	if but := d.but(); d.Plan.Verdict.Kind == against.IsPlan && but != "" {
		return report.Fair, stamp + ", BUT", text + "; but " + but
	}
	return tone, stamp, text
}

// but is what is wrong with a recording of which the motion is that of the plan.
func (d Data) but() string {
	switch {
	case d.Rates != nil && !d.Rates.Capture && !d.Rates.Playback:
		return "its rate is none of the shot's"
	case !d.Whole.Whole():
		return "frames of it are amiss"
	case d.Cut != "":
		return "it ends before it should"
	}
	return ""
}

func verdictOf(k against.Kind) (report.Tone, string) {
	switch k {
	case against.IsPlan:
		return report.Good, "THE PLAN"
	case against.Differs:
		return report.Poor, "NOT THE PLAN"
	default:
		return report.Fair, "NOT KNOWN WELL ENOUGH"
	}
}

// last is the number of the last frame that was looked at.
func (d Data) last() int { return d.at(len(d.Course.Frames) - 1) }

// at is the number of a frame in the recording.
func (d Data) at(frame int) int { return d.First + frame }

func (d Data) recording(r *report.Report) {
	a := d.Course.About
	r.Named("recording", "THE RECORDING")
	size := fmt.Sprintf("%d × %d px", a.Width, a.Height)
	if a.Bits > 0 {
		size += fmt.Sprintf(", %d bits", a.Bits)
	}
	r.Field("frames", fmt.Sprintf("%s, %s", plain.Count(int64(len(d.Course.Frames)), "frame"), size))
	d.rate(r)
	r.Field("timecode", a.Start)
	r.Field("looked at", d.looked())
	if d.Cut != "" {
		r.Bullets(report.Fair, "!", d.Cut)
	}
	r.Bullets(report.Fair, "!", d.Remarks...)
	d.whole(r)
}

func (d Data) looked() string {
	if d.Step <= 1 {
		return "pixel by pixel"
	}
	return fmt.Sprintf("%s recorded px as one", report.Digits(d.Step, 3))
}

// number is a value with what is uncertain of it, one standard uncertainty.
func number(n against.Number, unit string) string {
	if math.IsInf(n.Sure, 0) || math.IsNaN(n.Value) {
		return "not known"
	}
	return fmt.Sprintf("%s ± %s %s", report.Digits(n.Value, 4), report.Digits(n.Sure, 2), unit)
}
