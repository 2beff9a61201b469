// Package footagereport reports what was filmed: what the recording is, whether it is the plan,
// and which loops are in it.
package footagereport

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/base/plain"
	"seamrail/motion/footage"
	"seamrail/motion/footage/against"
	"seamrail/motion/footage/alike"
	"seamrail/motion/footage/brightness"
	"seamrail/motion/footage/intact"
	"seamrail/motion/footage/pace"
	"seamrail/motion/footage/repeats"
	"seamrail/motion/footage/turn"
)

// Data is what there is to tell of one recording.
type Data struct {
	Course   footage.Course
	First    int      // the number of its first frame that was looked at
	Step     float64  // recorded pixels to one that was looked at
	Remarks  []string // what is odd of the recording
	Cut      string   // why it ended before it should; "" where it did not
	Stills   []string // the file of each frame, where it is stills
	Shot     string   // the title of the shot; "" where there is none
	Plan     *against.Result
	Units    []string        // of each axis of the plan: "mm" or "deg"
	Loops    *alike.Found    // nil where none were looked for
	Range    alike.Range     // among which
	AsWhole  *alike.Whole    // nil where all of it is no loop that was looked for
	Pace     *pace.Result    // nil where the course tells, or there is no shot
	Rates    *intact.Rates   // nil without a shot, or a rate
	Repeats  *repeats.Repeat // nil where the picture does not repeat itself
	Whole    intact.Found
	Light    *brightness.Light // nil where there are too few frames
	Foretold *Foretold         // how the plan said that lamps would flicker; nil where it could not, or without a shot
	Turn     *turn.Turn        // nil where nothing comes again
	Kept     *Kept             // nil where it is not kept
	Hands    []Hand            // what hands were to do; none where nothing was
}

// Report tells it to people.
func (d Data) Report() report.Report {
	r := report.Report{Title: "What was filmed: " + d.Course.About.Name, Subtitle: d.Shot}
	r.Headline(d.headline())
	d.kept(&r)
	d.recording(&r)
	if d.Plan != nil {
		d.plan(&r)
		d.pace(&r)
		d.hands(&r)
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
	tone, stamp = verdictOf(d.Plan.Verdict)
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

func verdictOf(v against.Verdict) (report.Tone, string) {
	switch {
	case v.Mended: // what differs is the recording
		return report.Fair, "THE PLAN, BUT"
	case v.Kind == against.IsPlan:
		return report.Good, "THE PLAN"
	case v.Kind == against.Differs:
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
	return strings.TrimSpace(measured(n.Value, n.Sure) + " " + unit)
}

// measured is a value to the place to which its standard uncertainty is told, which has two
// digits (JCGM 100:2008, 7.2.6).
func measured(value, sure float64) string {
	const digits, most = 2, 9 // places: what is surer than any measurement is told as it is
	if !(sure > 0) || math.IsInf(sure, 0) {
		return fmt.Sprintf("%s ± %s", report.Digits(value, 4), report.Digits(sure, digits))
	}
	places := digits - 1 - int(math.Floor(math.Log10(report.Rounded(sure, digits))))
	to := func(v float64) string {
		grain := math.Pow(10, float64(min(places, most)))
		return strconv.FormatFloat(math.Round(v*grain)/grain+0, 'f', min(max(places, 0), most), 64)
	}
	return to(value) + " ± " + to(sure)
}
