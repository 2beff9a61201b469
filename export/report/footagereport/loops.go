package footagereport

import (
	"fmt"
	"math"

	"seamrail/export/report"
	"seamrail/motion/footage/alike"
)

// loops tells which loops are in the recording, best first.
func (d Data) loops(r *report.Report) {
	r.Named("loops", "LOOPS IN IT")
	d.asAWhole(r)
	f := d.Loops
	if f == nil {
		return
	}
	t := report.Table{
		Columns: []report.Column{
			{Head: "from", Right: true}, {Head: "to", Right: true}, {Head: "frames", Right: true}, {Head: "picture", Right: true},
			{Head: "motion", Right: true}, {Head: "light", Right: true}, {Head: "px", Right: true}, {Head: "seam"},
		},
		Spare: []string{"light", "motion"},
	}
	for _, run := range f.Runs {
		t.Rows = append(t.Rows, report.Row{Verdict: toneOf(run), Cells: []string{
			fmt.Sprint(d.at(run.First)), fmt.Sprint(d.at(run.Last() - 1)), fmt.Sprint(run.Length),
			percent(run.Equalised), percent(run.Motion), fmt.Sprintf("%+.1f %%", run.Brightness), d.jump(run), seamWords(run),
		}})
	}
	r.Add(t)
	apart := fmt.Sprintf("%d to %d", d.Range.Min, d.Range.Max)
	if d.Range.Min == d.Range.Max {
		apart = fmt.Sprint(d.Range.Min)
	}
	r.Bullets(report.Dim, " ", fmt.Sprintf(
		"All %s pairs of frames %s apart were asked about. Jumps are in shares of white, root mean square; a seam of up to %s is not seen, as each ordinary step of the take is accepted: a model.",
		report.Digits(float64(f.Pairs), 6), apart, percent(f.Bound.Score)))
}

func percent(share float64) string { return fmt.Sprintf("%.2f %%", 100*share) }

func toneOf(run alike.Run) report.Tone {
	if run.Unseen {
		return report.Good
	}
	return report.Fair
}

func seamWords(run alike.Run) string {
	switch {
	case run.Unseen && run.To > run.From:
		return fmt.Sprintf("not seen; as good from any of %d frames", run.To-run.From+1)
	case run.Unseen:
		return "not seen"
	case run.Dissolve > 0 && run.Fits:
		return fmt.Sprintf("dissolve over %d frames", run.Dissolve)
	default:
		return "seen"
	}
}

// jump is by how much the picture is off at the seam, in recorded pixels.
func (d Data) jump(run alike.Run) string {
	frames := d.Course.Frames
	if run.Last() >= len(frames) {
		return ""
	}
	off := frames[run.Last()].FromFirst.After(frames[run.First].FromFirst.Inverse())
	if !off.Known {
		return "-"
	}
	return report.Digits(math.Hypot(off.X, off.Y), 2)
}

// asAWhole tells how it goes on from its last frame to its first.
func (d Data) asAWhole(r *report.Report) {
	w := d.AsWhole
	if w == nil {
		return
	}
	tone, how := report.Good, "as it does anyway: not seen"
	switch {
	case w.Twice:
		tone, how = report.Fair, "seen: the last frame shows the first once more, and without it nothing would be"
	case !w.Unseen():
		tone, how = report.Fair, "seen"
	}
	r.Toned(tone, "all of it", fmt.Sprintf("from frame %d to frame %d the picture is %s off where it leads, up to %s is usual here, %s", d.last(), d.First, percent(w.Jump), percent(w.Bound), how))
	const least = 0.002 // of white: half a level of 8 bits
	if math.Abs(w.Light) > least && !w.Unseen() {
		r.Field("", fmt.Sprintf("its light jumps by %+.1f %% of white", 100*w.Light))
	}
	r.Bullets(report.Dim, " ", "That the picture changes by the same again from frame to frame is a model; how good it is the take tells.")
}
