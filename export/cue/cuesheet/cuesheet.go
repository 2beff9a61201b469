// Package cuesheet writes the cues of a take as text: each cue with what it is
// made of, and every "now" of the take in order of time.
package cuesheet

import (
	"fmt"
	"io"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/base/exact"
	"seamrail/motion/cue"
)

// maxLines is how many moments are listed; who needs more has the track.
const maxLines = 200

// Data is what there is to tell.
type Data struct{ Take cue.Take }

// page is the sheet being made.
type page struct {
	report.Report
	take cue.Take
}

// Write writes the sheet as text of at most 80 columns. Times are real seconds:
// those of a cue from frame 0 of its round, those of the list from the first
// beat of the count-in. The error is the writer's.
func Write(w io.Writer, t cue.Take) error {
	if err := report.Text(w, Data{t}.Report(), false); err != nil {
		return fmt.Errorf("writing the sheet of cues: %w", err)
	}
	return nil
}

// Report tells it to people.
func (d Data) Report() report.Report {
	t := d.Take
	p := &page{report.Report{Title: "Cues: " + t.Plan.Title}, t}
	p.head()
	for _, c := range t.Cues {
		p.cue(c)
	}
	p.nows()
	p.Section("MIND")
	p.Bullets(report.Plain, "!", t.Cautions(t.Rounds)...)
	return p.Report
}

func (p *page) head() {
	plan := p.take.Plan
	p.Section("TAKE")
	p.Field("plan", plan.Hash())
	p.Field("round", fmt.Sprintf("%s s of real time, %s s on screen", plan.Round().Decimal(3), plan.Loop.OnScreen().Decimal(3)))
	p.Field("rounds", fmt.Sprint(p.take.Rounds))
	p.Field("count-in", fmt.Sprintf("%d beats of a second; the long tone is when it moves", p.take.CountIn))
	if s := p.take.Sync; s != nil {
		p.Field("sync mark", fmt.Sprintf("%s, a sharp tone of 4000 Hz %s s before it moves", s.Name, p.take.Begins().Sub(s.At).Decimal(3)))
	}
	if plan.RunUp > 0 {
		p.Field("run-up", fmt.Sprintf("%s s from there to frame 0", p.take.Begins().Neg().Decimal(3)))
	}
}

func (p *page) cue(c cue.Cue) {
	p.Section(strings.ToUpper(c.Name))
	p.Field("hand", c.Hand+", "+c.InRounds())
	p.Field("is seen", p.take.Seen(c)+", "+c.Lands.Decimal(3)+" s after frame 0")
	p.Field("told", c.Told())
	p.Fields("since", c.Because())
	p.Field("counted", c.Counted())
}

// nows lists each moment at which a hand is told to move.
func (p *page) nows() {
	p.Section("NOW, FROM THE FIRST BEAT OF THE COUNT-IN")
	const timeWidth = 12 // a day in milliseconds
	t := report.Table{Columns: []report.Column{{Width: timeWidth, Right: true}, {}}}
	for b := range p.take.Beats() {
		if b.Left > 0 {
			continue
		}
		if len(t.Rows) == maxLines {
			p.Add(t, report.Note{Text: fmt.Sprintf("and so on: the first %d are listed", maxLines)})
			return
		}
		t.Rows = append(t.Rows, report.Row{Cells: []string{clockTime(b.At), p.now(b)}})
	}
	p.Add(t)
}

func (p *page) now(b cue.Beat) string {
	if b.Cue == cue.CountIn {
		return "it moves"
	}
	if b.Cue == cue.SyncTone {
		return "sync mark, " + p.take.Sync.Name
	}
	c := p.take.Cues[b.Cue]
	return fmt.Sprintf("round %d  %s, %s", b.Round+1, c.Name, cue.Called(c.Hand))
}

// clockTime is a time in seconds as minutes and seconds, to the millisecond.
func clockTime(t exact.Rat) string {
	ms := t.Mul(exact.Int(1000)).Round().Whole()
	return fmt.Sprintf("%d:%02d.%03d", ms/60_000, ms/1000%60, ms%1000)
}
