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

// Stills on a sheet: as many as lie side by side in a size that is told apart,
// and as many px as a printer makes of one (300 an inch, common practice).
const (
	sheetStills = 7
	sheetStill  = 320
)

// sheet is the page of a job.
func (j job) sheet() (sheet.Page, error) {
	p := sheet.Of(j.trajectory, j.shot, j.cues)
	p.Foot = "Plan " + j.plan.Hash() + ". Lengths in mm, angles in degrees counter-clockwise from above."
	p.Cautions = append(report.Cautions(j.plan), j.cues.Cautions(int64(j.plan.Rounds))...)
	if err := j.trouble(); err != nil {
		p.Cautions = append([]string{"DO NOT RUN THIS: " + err.Error() + ". The plan's report says what would fit."}, p.Cautions...)
	}
	if d, err := j.above(); err == nil {
		p.Above = &d
	} else {
		p.NotAbove = err.Error()
	}
	return p, j.stills(&p)
}

// stills adds what the lens sees, where the shot says anything of that.
func (j job) stills(p *sheet.Page) error {
	scene, ok := sight.Scene(j.shot, j.rig)
	if !ok {
		return nil
	}
	f, err := preview.New(sight.Motion(j.trajectory), scene, sheetStill)
	if err != nil {
		return sight.Located(err, j.shot)
	}
	l := j.plan.Loop
	for k := range min(int64(sheetStills), l.Screen) {
		frame := k * l.Screen / min(sheetStills, l.Screen)
		shown := frame * l.Captured / l.Screen
		p.Stills = append(p.Stills, sheet.Still{Label: fmt.Sprintf("frame %d", frame), Picture: f.Frame(shown)})
	}
	for _, s := range f.Assumed() {
		p.StillNotes = append(p.StillNotes, "Filled in: "+s+".")
	}
	return nil
}

// sheetParts is the sheet for the folder.
func (j job) sheetParts() []part {
	p, err := j.sheet()
	draw := func(write func(io.Writer) error) func(io.Writer) error {
		return func(w io.Writer) error {
			if err != nil {
				return err
			}
			return write(w)
		}
	}
	return []part{
		{"sheet.pdf", "the page to build the shot from on the day, to print", draw(func(w io.Writer) error { return sheet.Write(w, []sheet.Page{p}) })},
		{"sheet.html", "the same, for a browser", draw(func(w io.Writer) error { return sheet.HTML(w, p) })},
	}
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
		page, err := j.jobs[k].sheet()
		if err != nil {
			return nil, nil, err
		}
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
