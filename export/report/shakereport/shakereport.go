// Package shakereport tells what a move leaves of after-shake and what would
// leave less.
package shakereport

import (
	"fmt"
	"math"

	"seamrail/export/report"
	"seamrail/motion/vibration"
	"seamrail/motion/vibration/survey"
)

// Data is what there is to tell.
type Data struct {
	Title, Rig string
	Source     string   // where the spring comes from, in words
	Keep       []string // lines for the rig file, where it does not have them
	PerUnit    float64
	survey.Survey
}

// page is a report being made.
type page struct {
	report.Report
	d     Data
	scale Scale
}

// Report tells it to people.
func (d Data) Report() report.Report {
	s := d.Subject
	p := &page{d: d, scale: Scale{s.Axis.Unit(), d.PerUnit}}
	p.Title, p.Subtitle = d.Title+": what "+s.Axis.Name+" leaves of after-shake", d.Rig
	p.Section("SWING")
	p.Field("known from", d.Source)
	p.Field("it is", Swings(d.Measured, s.Loop.Clock))
	label := "keep it"
	for _, l := range d.Keep {
		p.Add(report.Field{Label: label, Text: l, Code: true})
		label = ""
	}
	p.move()
	p.laws()
	p.times()
	p.shapers()
	return p.Report
}

func (p *page) move() {
	p.Section("MOVE")
	if p.d.Why != "" {
		p.Toned(report.Fair, "as it is", p.d.Why)
		return
	}
	c := p.d.Subject.Loop.Clock
	p.Field("as it is", Moving(p.d.Own, p.scale, c))
	for _, r := range p.d.Own.Rests {
		p.Field("at rest", Rested(r, p.scale, p.d.Subject.Spring, c))
	}
	p.Field("a take", fmt.Sprintf("that begins at rest is like this, to a hundredth, after %d of its rounds", p.d.Settles))
}

func (p *page) laws() {
	leg, ok := p.d.Subject.Leg()
	if !ok || len(p.d.Laws) == 0 {
		return
	}
	p.Section(fmt.Sprintf("LAWS, ONE WAY IN %.4g REAL SECONDS; SWINGS OF THE RIG: %.3g", leg.Seconds.Float(), leg.Swings))
	t := report.Table{Close: true, Columns: []report.Column{
		{Head: "law", Width: 20}, {Head: "one way alone", Width: 21}, {Head: "in the loop", Width: 21}, {Head: "acceleration"},
	}}
	for _, l := range p.d.Laws {
		name, row := l.Law.Name(), report.Row{}
		if !l.Within {
			row.Tone = report.Fair
		}
		if own := p.d.Subject.Move.Law(); own != nil && own.Name() == name {
			name = "* " + name
		}
		row.Cells = []string{name, p.scale.brief(l.Alone), p.scale.brief(l.Left), p.acceleration(l.Found)}
		t.Rows = append(t.Rows, row)
	}
	p.Add(t, report.Note{Text: "* the shot's. In the loop: as a rest begins, or in passing if it has none."})
	if p.d.Surprise != "" {
		p.Bullets(report.Fair, "!", p.d.Surprise)
	}
}

// acceleration is the peak, with a mark where the rig cannot do the move.
func (p *page) acceleration(f survey.Found) string {
	text := "no bound"
	if !math.IsInf(f.Acc, 0) {
		text = fmt.Sprintf("%.0f %s/s2", f.Acc, p.scale.Unit)
	}
	if !f.Within {
		text += " x"
	}
	return text
}

// times are those of one way, of the loop and of the dwell that leave least.
func (p *page) times() {
	p.Section("TIMES THAT LEAVE LEAST, BEST FIRST")
	leg, _ := p.d.Subject.Leg()
	p.Fields("one way", report.Each(p.d.Clean, func(c vibration.Clean) string {
		return fmt.Sprintf("%d captured frames, %s s: leaves %s", c.Frames, c.Seconds.Decimal(4), p.scale.Of(c.Left*leg.Travel))
	}))
	p.Fields("loop", report.Each(p.d.Loops, func(o survey.Offer) string {
		return fmt.Sprintf("%d frames, %s s on screen: leaves %s", o.Loop.Screen, o.Loop.OnScreen().Decimal(3), p.scale.Of(o.Left))
	}))
	p.Fields("dwell-far", report.Each(p.d.Dwells, func(o survey.Offer) string {
		return fmt.Sprintf("%d frames, in a loop as long as it is: leaves %s", o.Dwell, p.scale.Of(o.Left))
	}))
}

func (p *page) shapers() {
	p.Section("SHAPED, IN THE SAME LOOP")
	for _, s := range p.d.Shapers {
		label := `"` + s.Shaper.String() + `"`
		if s.Why != "" {
			p.Toned(report.Dim, label, "not in this loop: "+s.Why)
			continue
		}
		text := fmt.Sprintf("leaves %s, and %s where the frequency is 5 %% off; %s", p.scale.Of(s.Left), p.scale.Of(s.Off), p.acceleration(s.Found))
		if !s.Within {
			p.Toned(report.Fair, label, text+": the rig cannot do it")
			continue
		}
		p.Field(label, text)
	}
	if len(p.d.Shapers) > 0 {
		p.Add(report.Note{Text: `In a shot: shaped = "zv" or shaped = "zvd" under its axis.`})
	}
}
