package cli

import (
	"fmt"
	"io"
	"slices"

	"seamrail/export/report"
	"seamrail/motion/sequence"
	"seamrail/motion/sight"
	"seamrail/plot/preview"
	"seamrail/plot/sheet"
)

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

// sheet is the page of a job.
func (j job) sheet() sheet.Page {
	p := sheet.Of(j.trajectory, j.shot, j.cues)
	p.Foot = "Plan " + j.plan.Hash() + ". Lengths in mm, angles in degrees counter-clockwise from above."
	p.Cautions = append(report.Dangers(j.plan), j.cues.Cautions(int64(j.plan.Rounds))...)
	p.Facts, p.Fails = append([]string{j.stamped()}, p.Facts...), j.fails()
	if d, err := j.above(); err == nil {
		p.Above = &d
	} else {
		p.NotAbove = err.Error()
	}
	j.stills(&p)
	return p
}

// stills adds what the lens sees, where the shot says anything of that.
func (j job) stills(p *sheet.Page) {
	scene, ok := sight.Scene(j.shot, j.rig)
	if !ok {
		return
	}
	f, err := preview.New(sight.Motion(j.trajectory), scene, sheetStill)
	if err != nil {
		p.StillNotes = []string{"Not drawn: " + err.Error() + "."}
		return
	}
	l := j.plan.Loop
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

// sheetParts are the sheet for the folder.
func (j job) sheetParts() contents {
	p := j.sheet()
	return with(
		part{"sheet.html", "the page to build the shot from on the day, for a browser", func(w io.Writer) error { return sheet.HTML(w, p) }},
		part{"sheet.pdf", "the same, to print", func(w io.Writer) error { return sheet.Write(w, []sheet.Page{p}) }},
	)
}

// lacking says what PDF and PNG cannot set of a shot, as a line; "" where they can
// all.
func (j job) lacking() string { return lineOf(sheet.Lacks(j.sheet())) }

// lacksIn is that of the title alone, in a picture of a format.
func lacksIn(format, title string) string {
	if format == "svg" {
		return ""
	}
	return lineOf(sheet.LacksText(title))
}

func lineOf(words string) string {
	if words == "" {
		return ""
	}
	return words + "\n"
}

// sequencePages are the sheets of a sequence, one for each of its films, in the
// order to film them in.
func sequencePages(file string, in io.Reader) (pages []sheet.Page, trouble, err error) {
	j, err := readSequence(file, in)
	if err != nil {
		return nil, nil, err
	}
	for turn, film := range j.clip.Order.Order {
		k := slices.IndexFunc(j.clip.Pieces, func(p sequence.Piece) bool { return p.Film == film })
		page := j.jobs[k].sheet()
		f := j.clip.Films[film]
		page.Facts = append(page.Facts, fmt.Sprintf("Shot %d of %d on the day, for %s: %s wanted. Rig: %s. Light: %s.",
			turn+1, len(j.clip.Films), j.clip.Title, counted(f.Takes, "take"), setup(f.Setup.Rig), setup(f.Setup.Light)))
		page.Takes = max(page.Takes, f.Takes)
		pages = append(pages, page)
	}
	return pages, j.trouble(), nil
}

// setup is what a sequence says of rig or light, or that it says nothing.
func setup(text string) string {
	if text == "" {
		return "as it is"
	}
	return text
}
