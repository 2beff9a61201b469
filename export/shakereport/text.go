package shakereport

import (
	"fmt"
	"io"
	"math"

	"seamrail/export/header"
	"seamrail/export/shakewords"
	"seamrail/export/textpage"
	"seamrail/motion/vibration/survey"
)

// Options says how the report is dressed.
type Options struct {
	Colour bool // for a terminal
}

// page is a report being laid out.
type page struct {
	textpage.Page
	d     Data
	scale shakewords.Scale
}

// Write writes the report as text of at most 80 columns. The error is the
// writer's.
func Write(w io.Writer, d Data, opt Options) error {
	p := &page{textpage.Page{Colour: opt.Colour}, d, shakewords.Scale{Unit: d.Subject.Axis.Unit(), PerUnit: d.PerUnit}}
	p.head()
	p.move()
	p.laws()
	p.clean()
	p.shapers()
	_, err := p.WriteTo(w)
	return err
}

func (p *page) head() {
	for _, l := range textpage.Fold(header.Clean(p.d.Title)+": what "+p.d.Subject.Axis.Name+" leaves of after-shake", textpage.Width) {
		p.Line(p.Paint(textpage.Bold+";"+textpage.Cyan, l))
	}
	p.Line(p.Paint(textpage.Dim, header.Clean(p.d.Rig)))
	p.Section("SWING")
	p.Field("known from", header.Clean(p.d.Source))
	p.Field("it is", shakewords.Spring(p.d.Measured, p.d.Subject.Loop.Clock))
	for i, l := range p.d.Keep {
		p.Raw(first(i, "keep it"), l)
	}
}

func (p *page) move() {
	p.Section("MOVE")
	if p.d.Why != "" {
		p.Inked(textpage.Yellow, "as it is", header.Clean(p.d.Why))
		return
	}
	c := p.d.Subject.Loop.Clock
	p.Field("as it is", shakewords.Moving(p.d.Own, p.scale, c))
	for _, r := range p.d.Own.Rests {
		p.Field("at rest", shakewords.Rest(r, p.scale, p.d.Subject.Spring, c))
	}
	p.Field("a take", fmt.Sprintf("that begins at rest is like this, to a hundredth, after %d of its rounds", p.d.Settles))
}

// The columns of the table of laws, in characters.
const (
	lawWidth    = 21
	columnWidth = 22
)

func (p *page) laws() {
	leg, ok := p.d.Subject.Leg()
	if !ok || len(p.d.Laws) == 0 {
		return
	}
	p.Section(fmt.Sprintf("LAWS, ONE WAY IN %.4g REAL SECONDS; SWINGS OF THE RIG: %.3g", leg.Seconds.Float(), leg.Swings))
	p.row(textpage.Dim, "law", "one way alone", "in the loop", "acceleration")
	for _, l := range p.d.Laws {
		ink, name := "", l.Law.Name()
		if !l.Within {
			ink = textpage.Yellow
		}
		if own := p.d.Subject.Move.Law(); own != nil && own.Name() == name {
			name = "* " + name
		}
		p.row(ink, name, p.scale.Brief(l.Alone), p.scale.Brief(l.Left), p.acceleration(l.Found))
	}
	p.Line(p.Paint(textpage.Dim, "  * the shot's. In the loop: as a rest begins, or in passing if it has none."))
	if p.d.Surprise != "" {
		p.Bullet(textpage.Yellow, "!", p.d.Surprise)
	}
}

func (p *page) row(ink, name string, cells ...string) {
	text := textpage.Pad(name, lawWidth)
	for _, c := range cells {
		text += textpage.Pad(c, columnWidth)
	}
	p.Line(textpage.Spaces(textpage.Indent) + p.Paint(ink, text))
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

func (p *page) clean() {
	if len(p.d.Clean)+len(p.d.Loops)+len(p.d.Dwells) == 0 {
		return
	}
	p.Section("TIMES THAT LEAVE LEAST, BEST FIRST")
	leg, _ := p.d.Subject.Leg()
	for i, c := range p.d.Clean {
		p.Field(first(i, "one way"), fmt.Sprintf("%d captured frames, %s s: leaves %s", c.Frames, c.Seconds.Decimal(4), p.scale.Of(c.Left*leg.Travel)))
	}
	for i, o := range p.d.Loops {
		p.Field(first(i, "loop"), fmt.Sprintf("%d frames, %s s on screen: leaves %s", o.Loop.Screen, o.Loop.OnScreen().Decimal(3), p.scale.Of(o.Left)))
	}
	for i, o := range p.d.Dwells {
		p.Field(first(i, "dwell-far"), fmt.Sprintf("%d frames, in a loop as long as it is: leaves %s", o.Dwell, p.scale.Of(o.Left)))
	}
}

func first(i int, label string) string {
	if i > 0 {
		return ""
	}
	return label
}

func (p *page) shapers() {
	if len(p.d.Shapers) == 0 {
		return
	}
	p.Section("SHAPED, IN THE SAME LOOP")
	for _, s := range p.d.Shapers {
		label := `"` + s.Shaper.String() + `"`
		if s.Why != "" {
			p.Inked(textpage.Dim, label, "not in this loop: "+header.Clean(s.Why))
			continue
		}
		text := fmt.Sprintf("leaves %s, and %s where the frequency is 5 %% off; %s", p.scale.Of(s.Left), p.scale.Of(s.Off), p.acceleration(s.Found))
		if !s.Within {
			p.Inked(textpage.Yellow, label, text+": the rig cannot do it")
			continue
		}
		p.Field(label, text)
	}
	p.Line(p.Paint(textpage.Dim, `  In a shot: shaped = "zv" or shaped = "zvd" under its axis.`))
}
