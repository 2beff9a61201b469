package format

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/export/report/planreport"
	"seamrail/motion/base/plain"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/plan/judge"
	"seamrail/plot/preview"
	"seamrail/plot/sheet"
)

var sheetPage = []Format{
	{
		File: "sheet.html", Purpose: "the page to build the shot from on the day, for a browser",
		Write: func(of *Of, w io.Writer) error { return sheet.HTML(w, of.sheet()) },
	},
	{
		File: "sheet.pdf", Purpose: "the same, to print",
		Write: func(of *Of, w io.Writer) error { return sheet.Write(w, []sheet.Page{of.sheet()}) },
	},
}

// sheetStill is how many px a still on a sheet has: as many as a printer makes
// of one (300 an inch, common practice).
const sheetStill = 320

// sheetStills are how many lie side by side in a size that is told apart; the
// first that cuts the loop evenly is taken, else the last.
var sheetStills = []int64{8, 6, 7}

func stillCount(loop int64) int64 {
	for _, n := range sheetStills {
		if loop%n == 0 {
			return n
		}
	}
	return min(loop, sheetStills[len(sheetStills)-1])
}

// Sheet is the page that a job is built from on the day.
func Sheet(j *job.Job) sheet.Page {
	p := sheet.Of(j.Plan, j.Shot, j.Cues)
	p.Foot = "Plan " + j.Plan.Hash() + ". Lengths in mm, angles in degrees counter-clockwise from above."
	p.Cautions = append(planreport.Dangers(j.Plan, j.Schedule), j.Cues.Cautions(int64(j.Plan.Rounds))...)
	p.Facts, p.Fails = append([]string{stamped(j)}, p.Facts...), fails(j)
	if m := j.Mark; m != nil {
		p.Facts = append(p.Facts, fmt.Sprintf("Sync mark: %s. It is %s: %s.", m.What(), m.Where(int64(j.Plan.Rounds)), m.Follows()))
	}
	if of := planreport.SetUps(asSeen(j.Shot)); len(of) > 0 {
		p.Facts = append(p.Facts, "Set-up: "+strings.Join(of, "; ")+".")
	}
	if d, err := TopView(j); err == nil {
		p.Above = &d
	} else {
		p.NotAbove = err.Error()
	}
	if j.Picture != nil {
		p.Focus, p.Ring = sheet.Focus(j.Plan, j.Shot.Scene.Lens, j.Picture.Pulls)
	}
	byFrame(j, &p)
	stills(j, &p)
	return p
}

// byFrame adds how frames are taken one by one, where they are.
func byFrame(j *job.Job, p *sheet.Page) {
	if j.Schedule == nil {
		return
	}
	g := sheet.Group{Name: "Frame by frame"}
	for _, f := range planreport.FrameFacts(j.Schedule) {
		g.Rows = append(g.Rows, sheet.Row{Name: f.Label, Value: f.Text})
	}
	p.Groups = append(p.Groups, g)
}

// stills adds what the lens sees, where the shot says anything of that.
func stills(j *job.Job, p *sheet.Page) {
	scene, ok := lensview.Scene(j.Shot, j.Rig)
	if !ok {
		return
	}
	f, err := preview.New(lensview.Motion(j.Trajectory), scene, sheetStill)
	if err != nil {
		p.StillNotes = []string{"Not drawn: " + err.Error() + "."}
		return
	}
	l := j.Plan.Loop
	n := stillCount(l.Screen)
	for k := range n {
		frame := k * l.Screen / n
		shown := frame * l.Captured / l.Screen
		p.Stills = append(p.Stills, sheet.Still{Label: fmt.Sprintf("frame %d", frame), Picture: f.Frame(shown)})
	}
	for _, s := range f.Assumed() {
		p.StillNotes = append(p.StillNotes, "Filled in: "+s+".")
	}
}

// stamped is the headline in a line.
func stamped(j *job.Job) string {
	h := j.Headline()
	if h.Tone == judge.Barred {
		return "DO NOT RUN THIS. " + h.Stamp + ". " + h.Words
	}
	return h.Stamp + ". " + h.Words
}

// fails are each thing about a shot that does not hold or is not known, a line each,
// for a sheet, which has the headline above: who holds it has no report at hand.
func fails(j *job.Job) []string {
	out := broken(j)
	others := j.Others
	verdicts := slices.Clone(others)
	if j.Picture != nil {
		verdicts = append(verdicts, j.Picture.Verdicts...)
	}
	var unknown []string
	for k, v := range verdicts {
		switch v.Level {
		case picture.Block:
			out = append(out, "Must not be driven, "+v.Check+": "+v.Text+"."+helps(v))
		case picture.Poor:
			out = append(out, "Will not do, "+v.Check+": "+v.Text+"."+helps(v))
		case picture.Unknown:
			if k < len(others) {
				continue // the headline names it, and that is all there is to say
			}
			text := strings.TrimPrefix(v.Text, notKnown)
			if len(v.Missing) > 0 {
				text += " (it takes " + strings.Join(v.Missing, ", ") + ")"
			}
			unknown = append(unknown, text)
		}
	}
	for some := range slices.Chunk(unknown, unknownALine) {
		out = append(out, plain.Sentence(notKnown+strings.Join(some, "; ")))
	}
	return out
}

// helps says what would help, where anything that was tried does.
func helps(v picture.Verdict) string {
	if len(v.Cures) == 0 {
		return ""
	}
	return " Would help: " + strings.Join(v.Cures.Words(), "; or ") + "."
}

// notKnown is how a verdict begins that is not known, and unknownALine how many share a
// line of the sheet, so that it takes little of it and none is cut off.
const (
	notKnown     = "not known: "
	unknownALine = 6
)

// broken are the limits that the plan breaks, once each, or else the checks that it
// fails, but for those of the picture.
func broken(j *job.Job) []string {
	var out []string
	said := map[[2]string]bool{}
	for _, b := range j.Plan.Breaches() {
		if key := [2]string{b.Axis, b.Quantity}; !said[key] {
			said[key] = true
			f := j.Plan.Fault(b)
			f.File, f.Line, f.Column = "", 0, 0
			out = append(out, plain.Sentence(f.String()))
		}
	}
	if len(out) > 0 {
		return out
	}
	for _, f := range j.Verdict.Failed() {
		if j.Picture != nil {
			if _, seen := j.Picture.Find(f.Check); seen {
				continue
			}
		}
		text := f.Check + ": " + f.Text
		if f.Axis != "" {
			text = "axis " + f.Axis + ", " + text
		}
		out = append(out, plain.Sentence(text))
	}
	return out
}
