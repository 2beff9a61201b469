package format

import (
	"fmt"
	"io"

	"seamrail/cmd/internal/job"
	"seamrail/export/report/planreport"
	"seamrail/motion/sight"
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
	p.Cautions = append(planreport.Dangers(j.Plan), j.Cues.Cautions(int64(j.Plan.Rounds))...)
	p.Facts, p.Fails = append([]string{stamped(j)}, p.Facts...), fails(j)
	if d, err := Above(j); err == nil {
		p.Above = &d
	} else {
		p.NotAbove = err.Error()
	}
	stills(j, &p)
	return p
}

// stills adds what the lens sees, where the shot says anything of that.
func stills(j *job.Job, p *sheet.Page) {
	scene, ok := sight.Scene(j.Shot, j.Rig)
	if !ok {
		return
	}
	f, err := preview.New(sight.Motion(j.Trajectory), scene, sheetStill)
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
